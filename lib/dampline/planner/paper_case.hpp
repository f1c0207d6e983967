#pragma once

#include <dampline/planner/climate.hpp>
#include <dampline/planner/damping.hpp>
#include <dampline/planner/look_up.hpp>
#include <dampline/size/register.hpp>

/// A session's paper, room and work as damping and register are worked out for it.
namespace dampline::planner {

[[nodiscard]] PaperCase paper_case(const session::Session& session, const Knowledge& knowledge,
                                   const Subject& subject, const StudioAir& studio,
                                   const PlanOptions& options);

/// What a session's words mean to the register.
[[nodiscard]] size::Grain grain_of(session::Grain grain);
[[nodiscard]] size::Locate locate_of(session::Locate locate);

}  // namespace dampline::planner
