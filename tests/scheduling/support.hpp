#pragma once

#include <iosfwd>
#include <optional>
#include <random>
#include <string>

#include <dampline/scheduling/problem.hpp>
#include <dampline/scheduling/solve.hpp>

namespace dampline::scheduling {

void PrintTo(Status status, std::ostream* out);

namespace tests {

/// A project of tests/reference/scheduling.
[[nodiscard]] Problem published(const std::string& file);

/// The least makespan by plain enumeration of all starts, from the definition alone; nothing when
/// no schedule exists. For a handful of activities.
[[nodiscard]] std::optional<int> enumerate(const Problem& problem);

/// A small random project with minimum and maximum lags; many have no schedule.
[[nodiscard]] Problem random_problem(std::mt19937& random);

/// Two activities of 3 and 2 on one bench, 10 units, with a source and a sink.
[[nodiscard]] Problem two_on_a_bench();

}  // namespace tests
}  // namespace dampline::scheduling
