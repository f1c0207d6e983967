#pragma once

#include <dampline/planner/fit.hpp>

namespace dampline::planner {

/// What each single change would gain, found by scheduling the changed day with the paper treated
/// as before: one more person, one more copy of a plate, a second press, a larger tub, more places
/// to blot and dry, more paper, an hour more at either end, a break at another time. A shorter
/// break is not tried. `conflicts` of the options is the budget of each question put to the
/// scheduler.
[[nodiscard]] Advice advise(const session::Session& session, const Craft& craft,
                            const Treatment& treatment, const Fit& planned,
                            const FitOptions& options);

}  // namespace dampline::planner
