#include <algorithm>
#include <map>

#include <dampline/scheduling/model.hpp>

namespace dampline::scheduling {
namespace {

/// Resource, start: offset -> step of use, of all work that never stands still.
using Changes = Flat<Flat<std::map<int, int>>>;

Changes changes_of(const Problem& problem, const Model& model) {
  Changes change;
  change.fit(static_cast<int>(problem.resources.size()));
  for (auto& row : change) row.fit(model.starts);
  for (int i = 0; i < model.start_of.count(); ++i) {
    const auto& activity = problem.activities[static_cast<std::size_t>(i)];
    if (activity.duration == 0 || model.stretch_of[i] >= 0) continue;
    for (const auto& use : activity.uses) {
      auto& steps = change[use.resource][model.start_of[i]];
      steps[model.offset_of[i]] += use.amount;
      steps[model.offset_of[i] + activity.duration] -= use.amount;
    }
  }
  return change;
}

/// Joins what the activities of one start hold of a resource into pieces of constant amount.
bool lay_pieces(const std::map<int, int>& change, int x, int capacity, Model& model) {
  bool fits = true;
  int amount = 0;
  int since = 0;
  for (const auto& [offset, step] : change) {
    if (step == 0) continue;
    if (amount > 0) {
      model.tasks.push_back({x, since, offset - since, amount, -1});
      model.span = std::max(model.span, model.high[x] + offset + 1);
    }
    amount += step;
    since = offset;
    if (amount > capacity) fits = false;
  }
  return fits;
}

/// Work that stands still in pauses stays by itself.
bool lay_stretched(const Problem& problem, int r, int capacity, Model& model) {
  bool fits = true;
  for (int i = 0; i < model.start_of.count(); ++i) {
    if (model.stretch_of[i] < 0) continue;
    const auto& activity = problem.activities[static_cast<std::size_t>(i)];
    int amount = 0;
    for (const auto& use : activity.uses) amount += use.resource == r ? use.amount : 0;
    if (amount == 0) continue;
    model.tasks.push_back(
        {model.start_of[i], model.offset_of[i], activity.duration, amount, model.stretch_of[i]});
    if (amount > capacity) fits = false;
  }
  return fits;
}

}  // namespace

bool lay_tasks(const Problem& problem, Model& model) {
  const auto change = changes_of(problem, model);
  bool fits = true;
  model.first_task.push_back(0);
  model.missing.fit(change.count());
  for (int r = 0; r < change.count(); ++r) {
    const auto& resource = problem.resources[static_cast<std::size_t>(r)];
    int capacity =
        resource.calendar.empty() || resource.calendar.front().from > 0 ? resource.capacity : 0;
    for (const auto& step : resource.calendar) capacity = std::max(capacity, step.capacity);
    model.capacity.push_back(capacity);
    for (int x = 0; x < model.starts; ++x) fits &= lay_pieces(change[r][x], x, capacity, model);
    fits &= lay_stretched(problem, r, capacity, model);
    model.first_task.push_back(model.tasks.count());
  }
  for (const auto& task : model.tasks) {
    if (task.stretch < 0) continue;
    const int end = model.end_of(task, model.high[task.start] + task.offset);
    model.span = std::max(model.span, end < never ? end + 1 : span_of(problem) + task.duration);
  }
  for (int r = 0; r < change.count(); ++r) {
    const auto& resource = problem.resources[static_cast<std::size_t>(r)];
    if (resource.calendar.empty()) continue;
    model.missing[r].fit(model.span, 0);
    for (int t = 0; t < model.span; ++t) {
      model.missing[r][t] = model.capacity[r] - capacity_at(resource, t);
    }
  }
  return fits;
}

}  // namespace dampline::scheduling
