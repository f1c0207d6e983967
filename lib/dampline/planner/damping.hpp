#pragma once

#include <optional>
#include <string>
#include <vector>

#include <dampline/air/room.hpp>
#include <dampline/method/book.hpp>
#include <dampline/method/draw.hpp>
#include <dampline/method/run.hpp>
#include <dampline/planner/craft.hpp>
#include <dampline/planner/treatment.hpp>
#include <dampline/readiness/band.hpp>
#include <dampline/readiness/window.hpp>
#include <dampline/session/session.hpp>

/// How the paper of a session is brought to dampness: stages found by simulating the sheet until
/// its process can be printed.
namespace dampline::planner {

/// What the damping is chosen for.
struct PaperCase {
  material::Stock stock;
  method::Sheet sheet;            ///< the expected sheet of that stock, in the session's size
  air::Climate climate;           ///< of the working hours, their mean
  air::Room air{air::Climate{}};  ///< by its clock: real time, the studio opens at `opens`
  units::Duration opens{};
  readiness::Band band;
  std::vector<method::Draw> draws;
  std::vector<method::Sheet> likely_sheets;  ///< one a draw
  std::vector<air::Climate> likely_rooms;    ///< one a draw: their mean
  std::vector<air::Room> likely_airs;        ///< one a draw
  units::Duration blot_slot{};               ///< hands' time a sheet: lift, drain, two blots
  units::Duration least_rest{};              ///< in a covered pile, as the trade has it
  units::Duration least_pack{};              ///< in a damp pack, likewise
  units::Duration evening{};                 ///< clock time of laying a pack the evening before
  units::Duration least_handling{};          ///< hands' time of damping one sheet
  const method::Method* own = nullptr;       ///< as the session names it; none: chosen or a word
  units::Duration laying{};                  ///< hands' time in which a sheet lies open
};

struct Damping {
  Treatment treatment;
  std::vector<method::Stage> wetting;  ///< all before the cover, with the least soak
  method::Stage hold;                  ///< how it waits for its pull
  readiness::Forecast forecast;        ///< since the hold began
  std::vector<std::string> summary;    ///< what is done to the paper and why, a sentence each
  std::vector<Warning> warnings;
  std::optional<units::Duration> open_life;  ///< printable so long once out from under cover
  bool ready = false;                        ///< a printable sheet comes of it
};

/// Hands' time to lift, drain and blot one sheet so many times.
[[nodiscard]] units::Duration blotting_time(units::Duration blot_slot, int blots);

/// The damp that suits every one of several processes: the narrowest of their bounds.
[[nodiscard]] readiness::Band common_band(const std::vector<readiness::Band>& bands);

/// Chooses soak, blotting and rest (or sponging, misting, a pack) and honours what the session
/// asks. When nothing tried gives a printable sheet, `ready` is false and a warning says what comes
/// nearest and what to write instead.
[[nodiscard]] Damping choose_damping(const session::Session& session, const PaperCase& paper);

}  // namespace dampline::planner
