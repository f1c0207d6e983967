#pragma once

#include <string>
#include <vector>

#include <dampline/scheduling/problem.hpp>

namespace dampline::scheduling {

/// Everything that is wrong with a schedule, in words; empty when it keeps every start, lag,
/// capacity, calendar and changeover time. Written from the definition alone: it shares no code
/// with the solver.
[[nodiscard]] std::vector<std::string> check(const Problem& problem,
                                             const std::vector<int>& starts);

}  // namespace dampline::scheduling
