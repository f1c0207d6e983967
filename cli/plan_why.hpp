#pragma once

#include <string>

#include <dampline/planner/worked_day.hpp>

#include "plan_outputs.hpp"

namespace dampline::cli {

/// `plan --why`: says why a step is where it is, as text or as the data --json asks for.
int tell_why(const std::string& step, const PlanWords& words, const session::Session& session,
             const planner::WorkedDay& day, Streams& io);

}  // namespace dampline::cli
