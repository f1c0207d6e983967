#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

#include <dampline/planner/after_press.hpp>

/// The same day under other studios, side by side.
namespace dampline::planner {

/// The air of a studio; movement of the session's own when none is said.
struct OtherStudio {
  units::Temperature temperature{};
  units::RelativeHumidity humidity{};
  std::optional<session::AirMovement> air;
};

/// "12 degC, 80 %" or "25 degC, 30 %, fan", in any order. Range 0 to 45 degC, 1 to 100 %.
[[nodiscard]] units::Parsed<OtherStudio> parse_studio(std::string_view text);

/// What a studio makes of the day. Times on the clock of the plan, empty where nothing is printed.
struct StudioDay {
  std::string label;  ///< "12 degC, 80 %, still"
  bool own = false;   ///< as the session has it
  int prints = 0, prints_asked = 0, proofs = 0, proofs_asked = 0;
  std::optional<std::chrono::sys_seconds> wet_from, first_pull, last_pull, finish;
  std::optional<units::Duration> soak;       ///< of the first batch
  std::optional<units::Duration> rest;       ///< from under cover until printable
  std::optional<units::Duration> open_life;  ///< out from under cover
  std::optional<units::Moisture> moisture;   ///< mean at the pulls
  std::optional<units::Chance> least_ready;  ///< of the pulls
  std::optional<units::Length> worst_misfit;
  std::optional<units::Duration> dry, dry_early, dry_late;  ///< since the finish
  bool dry_in_time = false;                                 ///< within the time that is simulated
  std::vector<std::string> warnings;                        ///< codes
};

[[nodiscard]] session::Session in_studio(const session::Session& session, const OtherStudio& other);
[[nodiscard]] StudioDay studio_day(const WorkedDay& day, const DryingRules& rules);

}  // namespace dampline::planner
