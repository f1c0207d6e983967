#include <algorithm>
#include <stdexcept>

#include <dampline/scheduling/check.hpp>
#include <dampline/scheduling/goal.hpp>
#include <dampline/scheduling/search.hpp>
#include <dampline/scheduling/solve.hpp>
#include <dampline/scheduling/stage.hpp>

namespace dampline::scheduling {
namespace {

std::vector<int> spread(const Model& model, const Flat<int>& starts) {
  std::vector<int> all;
  for (int i = 0; i < model.start_of.count(); ++i) {
    all.push_back(starts[model.start_of[i]] + model.offset_of[i]);
  }
  return all;
}

/// The values of all variables of a model in a schedule of the problem; nothing when it does not
/// hold there.
std::optional<Flat<int>> gather(const Problem& problem, const Objective& objective,
                                const Model& model, const std::vector<int>& starts) {
  Flat<int> values;
  values.fit(model.starts, 0);
  for (int i = 0; i < model.start_of.count(); ++i) {
    values[model.start_of[i]] = starts[static_cast<std::size_t>(i)] - model.offset_of[i];
  }
  if (model.goal >= model.decided) {
    const long long over = value_of(problem, objective, starts) - model.goal_offset;
    values[model.goal] = static_cast<int>(model.goal_sign * over);
  }
  for (int x = 0; x < model.starts; ++x) {
    if (values[x] < model.low[x] || values[x] > model.high[x]) return std::nullopt;
  }
  return values;
}

}  // namespace

Stage run_stage(const Problem& problem, const Objective& objective,
                const std::vector<KeptSum>& sums, const Options& options, int number) {
  Built built = build(problem);
  Stage stage;
  if (!built.is_possible) {
    stage.status = Status::infeasible;
    stage.conflict_activities = built.cycle;
    return stage;
  }
  Model& model = built.model;
  for (const auto& sum : sums) keep_sum(sum.objective, sum.most, model);
  set_goal(objective, model);
  if (model.decided >= options.look_around_from) add_chooser(model);
  Search search(model, options, number);
  if (!options.hint.empty() && check(problem, options.hint).empty()) {
    if (const auto values = gather(problem, objective, model, options.hint)) search.offer(*values);
  }
  search.run();
  stage.conflicts = search.conflicts();
  stage.unproved_clauses = search.unproved();
  stage.was_cancelled = search.was_cancelled();
  const bool found = !search.best().empty();
  if (found) stage.starts = spread(model, search.best());
  if (search.is_exhausted()) {
    stage.status = found ? Status::optimal : Status::infeasible;
    if (found) stage.bound = value_of(problem, objective, stage.starts);
    return stage;
  }
  stage.status = found ? Status::feasible : Status::unknown;
  int bound = search.bound();
  if (found) bound = std::min(bound, search.best()[model.goal]);
  stage.bound = model.goal_offset + static_cast<long long>(model.goal_sign) * bound;
  return stage;
}

Result solve(const Problem& problem, const Options& options) {
  if (const auto wrong = misfit(problem); !wrong.empty()) throw std::invalid_argument(wrong);
  Problem bounded = problem;
  if (options.deadline) at_most(bounded, problem.source, problem.sink, *options.deadline);
  const auto stage = run_stage(bounded, earliest_finish(), {}, options, 0);
  Result result;
  result.status = stage.status;
  result.starts = stage.starts;
  if (!stage.starts.empty()) {
    result.makespan = stage.starts[static_cast<std::size_t>(problem.sink)];
  }
  result.bound = static_cast<int>(stage.bound);
  result.conflicts = stage.conflicts;
  result.conflict_activities = stage.conflict_activities;
  result.unproved_clauses = stage.unproved_clauses;
  return result;
}

}  // namespace dampline::scheduling
