#pragma once

#include <functional>
#include <iosfwd>
#include <optional>
#include <random>
#include <string>
#include <vector>

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

/// Every schedule, in the order of enumeration.
void enumerate(const Problem& problem, const std::function<void(const std::vector<int>&)>& visit);

/// A small random project with minimum and maximum lags; many have no schedule. Of 5 to 8
/// activities, or as many as said, beside source and sink.
[[nodiscard]] Problem random_problem(std::mt19937& random);
[[nodiscard]] Problem random_problem(std::mt19937& random, int fewest, int most);

/// Gives the resources of a random project pauses, lets about half of the activities stand still
/// in them, and ties some lags to ends.
void add_calendars(Problem& problem, std::mt19937& random);

/// Gives the one-at-a-time resources of a random project kinds and times between them.
void add_changeovers(Problem& problem, std::mt19937& random);

/// Two activities of 3 and 2 on one bench, 10 units, with a source and a sink.
[[nodiscard]] Problem two_on_a_bench();

/// soak 10, pull 2 by the same hands as wipe 3; soak to pull 10 to 14; wipe to pull at most 5.
[[nodiscard]] Problem morning();

}  // namespace tests
}  // namespace dampline::scheduling
