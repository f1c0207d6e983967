#include <algorithm>
#include <stdexcept>
#include <utility>

#include <dampline/scheduling/check.hpp>
#include <dampline/scheduling/goal.hpp>
#include <dampline/scheduling/objective.hpp>
#include <dampline/scheduling/stage.hpp>

namespace dampline::scheduling {
namespace {

void refuse_unknown(const Problem& problem, const std::vector<Objective>& objectives) {
  const auto known = [&](int a) {
    return a >= 0 && a < static_cast<int>(problem.activities.size());
  };
  for (const auto& objective : objectives) {
    for (const auto& term : objective.terms) {
      if (!known(term.activity)) throw std::invalid_argument(objective.name + " knows no activity");
    }
    for (const auto& window : objective.windows) {
      if (!known(window.from) || !known(window.to)) {
        throw std::invalid_argument(objective.name + " knows no activity");
      }
    }
  }
}

/// Keeps what an objective has reached, as far as its tolerance asks.
void keep(const Objective& objective, long long value, Problem& problem,
          std::vector<KeptSum>& sums) {
  switch (objective.kind) {
    case Objective::Kind::finish:
      at_most(problem, problem.source, problem.sink, static_cast<int>(value) + objective.tolerance);
      break;
    case Objective::Kind::sum:
      sums.push_back({objective, value + objective.tolerance});
      break;
    case Objective::Kind::margin:
      keep_windows(problem, objective, std::max(static_cast<int>(value) - objective.tolerance, 0));
      break;
  }
}

}  // namespace

Objective earliest_finish(int tolerance) {
  Objective objective;
  objective.name = "finish";
  objective.tolerance = tolerance;
  return objective;
}

Objective least_sum(std::string name, std::vector<Term> terms, int tolerance) {
  return {std::move(name), Objective::Kind::sum, std::move(terms), {}, tolerance};
}

Objective least_waiting(std::string name, const std::vector<Wait>& waits, int tolerance) {
  std::vector<Term> terms;
  for (const auto& wait : waits) {
    terms.push_back({wait.to, wait.weight});
    terms.push_back({wait.from, -wait.weight});
  }
  return least_sum(std::move(name), std::move(terms), tolerance);
}

Objective most_margin(std::string name, std::vector<Window> windows, int tolerance) {
  return {std::move(name), Objective::Kind::margin, {}, std::move(windows), tolerance};
}

long long value_of(const Problem& problem, const Objective& objective,
                   const std::vector<int>& starts) {
  const auto start = [&](int i) -> long long { return starts[static_cast<std::size_t>(i)]; };
  if (objective.kind == Objective::Kind::finish) return start(problem.sink);
  long long value = 0;
  if (objective.kind == Objective::Kind::sum) {
    for (const auto& term : objective.terms) value += term.weight * start(term.activity);
    return value;
  }
  value = widest_margin(objective);
  for (const auto& window : objective.windows) {
    const long long distance = start(window.to) - start(window.from);
    value = std::min({value, distance - window.least, window.most - distance});
  }
  return value;
}

Solution solve_in_order(const Problem& problem, const std::vector<Objective>& objectives,
                        const Options& options) {
  if (const auto wrong = misfit(problem); !wrong.empty()) throw std::invalid_argument(wrong);
  refuse_unknown(problem, objectives);
  Solution solution;
  Result& all = solution.result;
  Problem kept = problem;
  if (options.deadline) at_most(kept, problem.source, problem.sink, *options.deadline);
  std::vector<KeptSum> sums;
  Options here = options;
  bool proved = true;
  for (std::size_t k = 0; k < objectives.size(); ++k) {
    const auto& objective = objectives[k];
    if (objective.kind == Objective::Kind::margin) keep_windows(kept, objective, 0);
    const auto to_come = static_cast<long long>(objectives.size() - k);
    here.conflicts = (options.conflicts - all.conflicts) / to_come;
    if (!all.starts.empty()) here.hint = all.starts;
    const auto stage = run_stage(kept, objective, sums, here, static_cast<int>(k));
    all.conflicts += stage.conflicts;
    all.unproved_clauses += stage.unproved_clauses;
    if (stage.starts.empty()) {
      // Only the first objective, or the windows of a margin, can leave nothing.
      all.status = stage.status;
      all.conflict_activities = stage.conflict_activities;
      all.starts.clear();
      all.makespan = -1;
      solution.reached.clear();
      return solution;
    }
    all.starts = stage.starts;
    const long long value = value_of(problem, objective, stage.starts);
    const bool is_proved = stage.status == Status::optimal;
    solution.reached.push_back({value, is_proved ? value : stage.bound, is_proved});
    if (objective.kind == Objective::Kind::finish) {
      all.bound = std::max(all.bound, static_cast<int>(stage.bound));
    }
    proved = proved && is_proved;
    keep(objective, value, kept, sums);
    if (stage.was_cancelled) {
      proved = false;
      break;
    }
  }
  if (objectives.empty()) return {solve(problem, options), {}};
  all.makespan = all.starts[static_cast<std::size_t>(problem.sink)];
  all.status = proved ? Status::optimal : Status::feasible;
  // A later objective may have spoilt the value within the tolerance, or bettered an unproved one.
  for (std::size_t k = 0; k < solution.reached.size(); ++k) {
    solution.reached[k].value = value_of(problem, objectives[k], all.starts);
  }
  return solution;
}

}  // namespace dampline::scheduling
