#pragma once

#include <atomic>
#include <functional>
#include <optional>
#include <vector>

#include <dampline/scheduling/problem.hpp>

namespace dampline::scheduling {

/// What a solution claims. `optimal` and `infeasible` are proofs.
enum class Status { optimal, feasible, infeasible, unknown };

/// How far the search has come. `makespan` is -1 before the first schedule.
struct Progress {
  long long conflicts = 0;
  int makespan = -1;  ///< of the best schedule; -1 before the first. In solve_in_order the value
                      ///< of the objective at hand
  int bound = 0;      ///< proven for the same
  int objective = 0;  ///< which of solve_in_order
  bool has_schedule = false;
};

struct Options {
  long long conflicts = 200000;   ///< the work budget, in conflicts; never seconds
  unsigned seed = 1;              ///< same problem, seed and budget: same result
  std::optional<int> deadline{};  ///< only schedules with makespan <= deadline
  std::vector<int> hint{};        ///< a starting schedule; ignored unless it is valid
  /// Called at every better schedule and every `report_every` conflicts; false cancels.
  std::function<bool(const Progress&)> progress{};
  long long report_every = 512;
  /// Set from anywhere, another thread included, it ends the search soon; what has been found
  /// stays.
  const std::atomic<bool>* stop = nullptr;
  /// From this many starts on (rigid groups count once) the search also looks around the best
  /// schedule; smaller problems are proved sooner without.
  int look_around_from = 600;
  /// Re-proves every learnt clause by propagation from its negation. Slow; for tests.
  bool prove_clauses = false;
};

struct Result {
  Status status = Status::unknown;
  std::vector<int> starts;  ///< of the best schedule; empty when there is none
  int makespan = -1;        ///< of `starts`
  int bound = 0;            ///< no schedule (within the deadline) has a smaller makespan
  long long conflicts = 0;
  /// When the lags and the horizon alone allow nothing: the activities of a cycle of lags that
  /// ask for more time than they allow, in order.
  std::vector<int> conflict_activities;
  long long unproved_clauses = 0;  ///< learnt clauses that `prove_clauses` could not re-prove
};

/// Finds a schedule of least makespan, by lazy clause generation ([schutt2011], [schutt2013]).
///
/// Exact given enough conflicts; stopped early it returns the best schedule and a proven bound.
/// Throws std::invalid_argument when misfit(problem) finds something.
[[nodiscard]] Result solve(const Problem& problem, const Options& options = {});

}  // namespace dampline::scheduling
