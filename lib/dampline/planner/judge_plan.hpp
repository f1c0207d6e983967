#pragma once

#include <vector>

#include <dampline/planner/damping.hpp>
#include <dampline/planner/day.hpp>
#include <dampline/planner/verify.hpp>

namespace dampline::planner {

/// Adds to a plan what must be said of it: warnings, cautions, assumptions, and what is left to do
/// after the day.
void judge_plan(const session::Session& session, const Knowledge& knowledge, const PaperCase& paper,
                const std::vector<CheckedPull>& pulls, bool most_proved, Plan& plan);

}  // namespace dampline::planner
