#pragma once

#include <vector>

#include <dampline/planner/draft.hpp>
#include <dampline/scheduling/objective.hpp>

/// What a day is made for once its finish is fixed.
namespace dampline::planner {

/// Least risk: how far, at the least, every pull keeps from either end of its sheet's window. It
/// stands for the smallest chance of finding a sheet ready, which grows with it.
[[nodiscard]] scheduling::Objective most_margin(const Draft& draft, const Treatment& treatment);

/// Least idle wet time: sheets from water to their last pull, inked plates until theirs.
[[nodiscard]] scheduling::Objective least_idle_wet(const Draft& draft);

/// That time in a schedule, less the soak and the rest that each sheet needs.
[[nodiscard]] HalfMinutes idle_wet(const Draft& draft, const Treatment& treatment,
                                   const std::vector<int>& starts);

/// The draft's problem with a finish and a margin kept.
[[nodiscard]] scheduling::Problem kept(const Draft& draft, const Treatment& treatment,
                                       HalfMinutes finish, HalfMinutes margin);

/// Later soaks and later inking wait less; all that is asked of the problem, the draft's or one
/// that asks for more, stays.
[[nodiscard]] std::vector<int> wait_less(const scheduling::Problem& problem, const Draft& draft,
                                         const std::vector<int>& starts);

}  // namespace dampline::planner
