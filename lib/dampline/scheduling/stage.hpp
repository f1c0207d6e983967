#pragma once

#include <vector>

#include <dampline/scheduling/objective.hpp>

namespace dampline::scheduling {

/// A sum that an earlier objective has settled.
struct KeptSum {
  Objective objective;
  long long most = 0;
};

struct Stage {
  Status status = Status::unknown;
  std::vector<int> starts;
  long long bound = 0;  ///< of the objective
  long long conflicts = 0;
  std::vector<int> conflict_activities;
  long long unproved_clauses = 0;
  bool was_cancelled = false;
};

/// One search for one objective; `number` is its place in the order. The problem must fit; the
/// deadline of the options is left to the caller.
[[nodiscard]] Stage run_stage(const Problem& problem, const Objective& objective,
                              const std::vector<KeptSum>& sums, const Options& options, int number);

}  // namespace dampline::scheduling
