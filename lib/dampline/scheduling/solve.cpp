#include <algorithm>
#include <stdexcept>

#include <dampline/scheduling/check.hpp>
#include <dampline/scheduling/model.hpp>
#include <dampline/scheduling/search.hpp>
#include <dampline/scheduling/solve.hpp>

namespace dampline::scheduling {
namespace {

std::vector<int> spread(const Model& model, const Flat<int>& starts) {
  std::vector<int> all;
  for (int i = 0; i < model.start_of.count(); ++i) {
    all.push_back(starts[model.start_of[i]] + model.offset_of[i]);
  }
  return all;
}

}  // namespace

Result solve(const Problem& problem, const Options& options) {
  if (const auto wrong = misfit(problem); !wrong.empty()) throw std::invalid_argument(wrong);
  Problem bounded = problem;
  if (options.deadline) at_most(bounded, problem.source, problem.sink, *options.deadline);
  const Built built = build(bounded);
  Result result;
  if (!built.is_possible) {
    result.status = Status::infeasible;
    result.conflict_activities = built.cycle;
    return result;
  }
  const Model& model = built.model;
  Search search(model, options);
  if (!options.hint.empty() && check(bounded, options.hint).empty()) {
    Flat<int> starts;
    starts.fit(model.starts, 0);
    for (int i = 0; i < model.start_of.count(); ++i) {
      starts[model.start_of[i]] = options.hint[static_cast<std::size_t>(i)] - model.offset_of[i];
    }
    search.offer(starts);
  }
  search.run();
  result.conflicts = search.conflicts();
  result.unproved_clauses = search.unproved();
  const bool found = !search.best().empty();
  if (found) {
    result.starts = spread(model, search.best());
    result.makespan = result.starts[static_cast<std::size_t>(problem.sink)];
  }
  if (search.is_exhausted()) {
    result.status = found ? Status::optimal : Status::infeasible;
    result.bound = found ? result.makespan : 0;
  } else {
    result.status = found ? Status::feasible : Status::unknown;
    result.bound = search.bound() + model.sink_offset;
    if (found) result.bound = std::min(result.bound, result.makespan);
  }
  return result;
}

}  // namespace dampline::scheduling
