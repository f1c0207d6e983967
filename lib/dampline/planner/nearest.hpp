#pragma once

#include <functional>
#include <optional>
#include <string>
#include <vector>

#include <dampline/planner/fit.hpp>

namespace dampline::planner {

/// How the paper is treated in a changed session; none: it does not get ready.
using Retreat = std::function<std::optional<Treatment>(const session::Session&)>;

/// The smallest change of each single thing that lets `rounds` rounds fit, each found by
/// scheduling the changed day: fewer prints (those planned), a later end and an earlier start
/// (quarters of an hour, six hours at most), more hands, a break at another time, a larger tub,
/// more paper or drying places, sheets held covered, more days. What no change within these bounds
/// mends is left out.
[[nodiscard]] std::vector<NearestDay> nearest_days(const session::Session& session,
                                                   const Craft& craft, const Treatment& treatment,
                                                   int rounds, int planned, const Retreat& retreat,
                                                   const FitOptions& options);

}  // namespace dampline::planner
