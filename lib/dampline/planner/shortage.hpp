#pragma once

#include <vector>

#include <dampline/planner/draft.hpp>
#include <dampline/planner/plan.hpp>

namespace dampline::planner {

/// What the whole edition asked for would need more of than the day has, most pressing first:
/// sheets, drying places, each person's hands, each press. When every single resource would do and
/// only their order does not fit, says which one is busiest.
[[nodiscard]] std::vector<Shortage> short_of(const session::Session& session, const Craft& craft,
                                             const Treatment& treatment);

}  // namespace dampline::planner
