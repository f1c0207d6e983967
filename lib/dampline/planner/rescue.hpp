#pragma once

#include <optional>
#include <vector>

#include <dampline/planner/damping.hpp>
#include <dampline/planner/draft.hpp>
#include <dampline/planner/plan.hpp>
#include <dampline/readiness/judge.hpp>

/// What a wet sheet is by now, how long it stays printable, and what brings it back.
namespace dampline::planner {

/// A sheet as it is at a moment of the day.
struct WetSheet {
  int number = 0;
  HalfMinutes at{};       ///< of the day
  HalfMinutes covered{};  ///< since when it has waited
  method::State middle;
  method::State rim;        ///< its outer 2 cm
  bool lies_open = false;   ///< out from under cover when it was found
  bool printed_on = false;  ///< it has had a plate
};

/// The sheet simulated through its day so far.
[[nodiscard]] WetSheet wet_sheet(const PaperCase& paper, const Damping& damping, const Draft& draft,
                                 const std::vector<int>& starts, const DraftSheet& sheet,
                                 HalfMinutes at);

[[nodiscard]] readiness::Judgement judged(const PaperCase& paper, const WetSheet& sheet);
[[nodiscard]] units::Moisture mean_of(const WetSheet& sheet);

/// From when until when a sheet is printable if it waits like this, after what is done to it first.
struct Waits {
  std::optional<HalfMinutes> opens;
  HalfMinutes closes{};  ///< 72 h when nothing ends it
};
/// What is done to a sheet with hands; its rim may want more than its middle.
struct ByHand {
  std::vector<method::Stage> middle;
  std::vector<method::Stage> rim;
};
[[nodiscard]] Waits waits(const PaperCase& paper, const WetSheet& sheet, const ByHand& first,
                          const method::Stage& hold);

/// Something with hands that brings a sheet back into its band.
struct Mend {
  Rescue rescue;
  std::vector<method::Stage> stages;
  HalfMinutes opens{};  ///< printable again so long after them
  HalfMinutes closes{};
};

/// Misted with as much as brings middle and rim to the best of the band once rested under cover;
/// none when no amount does.
[[nodiscard]] std::optional<Mend> misted(const PaperCase& paper, const WetSheet& sheet,
                                         units::Duration least_rest);
/// Blotted once more, or a few times; none when that does not do.
[[nodiscard]] std::optional<Mend> blotted_again(const PaperCase& paper, const WetSheet& sheet,
                                                units::Duration least_rest);

/// What becomes of wet sheets that are not printed today: how long they keep, and what drying and
/// damping them again does to their size.
[[nodiscard]] std::vector<Rescue> for_another_day(const PaperCase& paper,
                                                  const std::vector<WetSheet>& sheets);

}  // namespace dampline::planner
