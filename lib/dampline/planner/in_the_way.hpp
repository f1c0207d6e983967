#pragma once

#include <dampline/planner/damping.hpp>
#include <dampline/planner/day.hpp>
#include <dampline/planner/fit.hpp>

namespace dampline::planner {

/// Adds to a plan who is busiest; and, when nothing fits or advice is asked for, what clashes with
/// what was asked, what would make it fit, and what one change would gain.
void add_what_is_in_the_way(const session::Session& session, const Craft& craft,
                            const PaperCase& paper, const Damping& damping, const Fit& fit,
                            const PlanOptions& options, Plan& plan);

}  // namespace dampline::planner
