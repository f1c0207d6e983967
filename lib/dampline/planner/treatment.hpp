#pragma once

#include <map>
#include <optional>
#include <string>
#include <vector>

#include <dampline/planner/plan.hpp>

/// How the paper is brought to dampness, as the schedule sees it: times and a window, found by
/// simulating the sheet (damping.hpp).
namespace dampline::planner {

/// From when until when a sheet is printable, on the clock of the day.
struct SheetWindow {
  HalfMinutes from{};
  HalfMinutes until{};
};

struct Treatment {
  bool in_tub = false;        ///< a batch soaks; otherwise sheets are damped one by one
  bool drawn_singly = false;  ///< each sheet stays in the tub until shortly before its pull
  HalfMinutes soak{};         ///< least time under water after the last sheet is in
  HalfMinutes soak_most{};    ///< longest a sheet of this sizing may stay in the tub
  int blots = 0;              ///< passes between blotters, each with drier ones
  std::optional<HalfMinutes> handling;  ///< hands' time a sheet; none: as the step usually takes
  std::string handling_word;            ///< what they do; empty: what the step says
  HalfMinutes left_alone{};             ///< between those hands and the cover
  HalfMinutes opens{};                  ///< printable from so long after it is covered (or blotted)
  HalfMinutes closes{};                 ///< until so long after
  std::optional<HalfMinutes> most_between;  ///< from a sheet's first pull to a later one
  std::optional<int> catcher_lasts;         ///< pulls after which the catcher felt is clammy
  std::optional<HalfMinutes> before_day;    ///< a pack laid so long before the studio opens
  std::map<int, SheetWindow> of_sheet;      ///< of sheets whose own state is known
};

/// The window of a sheet that was covered at `covered`: its own, or that of the treatment.
[[nodiscard]] inline SheetWindow window_of(const Treatment& t, int sheet, HalfMinutes covered) {
  const auto own = t.of_sheet.find(sheet);
  return own != t.of_sheet.end() ? own->second : SheetWindow{covered + t.opens, covered + t.closes};
}

}  // namespace dampline::planner
