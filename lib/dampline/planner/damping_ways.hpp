#pragma once

#include <dampline/planner/damping.hpp>
#include <dampline/readiness/limits.hpp>

/// The ways of damping that choose_damping takes one of. Each leaves `ready` false when no
/// printable sheet comes of it.
namespace dampline::planner {

/// In the tub until it holds nearly all it will take, drained, blotted as often as it needs.
[[nodiscard]] Damping soaked(const session::Session& session, const PaperCase& paper,
                             const readiness::Limit& tub_limit);
/// Water laid on: sponged, or misted, as much as the process wants.
[[nodiscard]] Damping water_laid_on(const session::Session& session, const PaperCase& paper,
                                    bool mist);
/// A damp pack: one sheet in so many sponged with the water of its dry neighbours too.
[[nodiscard]] Damping packed(const session::Session& session, const PaperCase& paper);
/// A method of the book, stage by stage as it is written.
[[nodiscard]] Damping as_written(const session::Session& session, const PaperCase& paper,
                                 const method::Method& method);

// Shared by them:

/// How a sheet waits: covered, or on the bench where the session says so.
[[nodiscard]] method::Stage hold_of(const session::Session& session);
/// Forecast and window of a damping whose wetting and hold stand, rested `least_rest` in a pile.
void set_forecast(Damping& damping, const session::Session& session, const PaperCase& paper,
                  units::Duration least_rest);
/// The evening before, where the session asks for it.
void set_evening(Damping& damping, const session::Session& session, const PaperCase& paper);
[[nodiscard]] HalfMinutes rounded_up(units::Duration t);
[[nodiscard]] std::string minutes_text(units::Duration t);

}  // namespace dampline::planner
