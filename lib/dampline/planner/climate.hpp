#pragma once

#include <optional>
#include <variant>
#include <vector>

#include <dampline/air/room.hpp>
#include <dampline/method/draw.hpp>
#include <dampline/planner/plan.hpp>
#include <dampline/session/logged_air.hpp>
#include <dampline/session/session.hpp>

/// The air of the studio over the day: one reading, or a log.
namespace dampline::planner {

struct StudioAir {
  air::Room room{air::Climate{}};  ///< on a clock of real time that shows day.from at opening
  units::Duration opens{};         ///< that clock at opening
  air::Climate usual;              ///< mean of the working hours
  /// Of the sampled rooms, either way, 8 of 10: 4 points about one reading, 2 about readings of the
  /// day itself, the spread of the days (4 at least) about a typical one. `assumed`
  units::RelativeHumidity scatter{0.04};
  std::optional<LoggedClimate> logged;  ///< what the log gave; none without one
  std::vector<Warning> left_out;        ///< rows of the log, with their lines
  std::vector<Warning> doubts;          ///< about what the day goes by
};

/// The air of a session; `evening` is the clock time of damping the evening before. An error points
/// at readings that were not read, or of which none can be used.
[[nodiscard]] std::variant<StudioAir, session::InputErrors> studio_air(
    const session::Session& session, units::Duration evening);

/// How far sampled rooms lie from air that goes by a log.
[[nodiscard]] units::RelativeHumidity scatter_of(const session::HoursAir& air);

/// The air as a draw has it; without a log the draw's own (method::drawn). What a log leaves
/// uncertain is put into the draw, so that all that is made of it agrees.
[[nodiscard]] air::Room likely_air(const StudioAir& studio, method::Draw& draw);

}  // namespace dampline::planner
