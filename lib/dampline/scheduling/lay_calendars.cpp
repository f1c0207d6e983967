#include <algorithm>
#include <map>
#include <utility>

#include <dampline/scheduling/model.hpp>

namespace dampline::scheduling {
namespace {

/// What an activity holds of the resources that have a calendar.
using Pattern = std::vector<std::pair<int, int>>;

Pattern pattern_of(const Problem& problem, const Activity& activity) {
  std::map<int, int> held;
  for (const auto& use : activity.uses) {
    const auto& resource = problem.resources[static_cast<std::size_t>(use.resource)];
    if (use.amount > 0 && !resource.calendar.empty()) held[use.resource] += use.amount;
  }
  return {held.begin(), held.end()};
}

/// Everything that says which values a start may not take whatever the others do.
class Bars {
 public:
  Bars(const Problem& problem, Model& model)
      : problem_(problem), model_(model), span_(span_of(problem)) {
    open_.fit(model.starts);
    stretch_of_.fit(model.start_of.count(), -1);
  }

  /// Notes the pauses of one activity, and its stretch if it may stand still in them.
  void note(int i) {
    const auto& activity = problem_.activities[static_cast<std::size_t>(i)];
    if (!has_calendar(problem_, activity)) return;
    const Working& working = working_of(pattern_of(problem_, activity), activity);
    if (activity.may_pause) stretch_of_[i] = stretch(working, activity);
    Flat<int> before;  // working instants before each one
    before.fit(span_ + activity.duration + 1, 0);
    for (int t = 0; t < before.count() - 1; ++t) before[t + 1] = before[t] + working.at(t);
    bar(model_.start_of[i], [&](int v) {
      const int start = v + model_.offset_of[i];
      if (start > problem_.horizon) return true;  // out of reach by the limits already
      if (activity.may_pause) {
        return working.at(start) && model_.stretches[stretch_of_[i]].end(start) < never;
      }
      return before[start + activity.duration] - before[start] == activity.duration;
    });
  }

  /// Keeps only those values of a start that `is_open` allows.
  template <class IsOpen>
  void bar(int x, IsOpen is_open) {
    auto& open = open_[x];
    if (open.empty()) open.fit(problem_.horizon + 1, 1);
    for (int v = 0; v < open.count(); ++v) {
      if (open[v] != 0 && !is_open(v)) open[v] = 0;
    }
  }

  [[nodiscard]] int stretch_of(int i) const { return stretch_of_[i]; }
  [[nodiscard]] Model::Moment moment(int i, bool end) const {
    return {model_.start_of[i], model_.offset_of[i], end ? stretch_of_[i] : -1};
  }

  void lay_gates() {
    std::map<Flat<char>, int> known;
    model_.gate_of.fit(model_.starts, -1);
    for (int x = 0; x < model_.starts; ++x) {
      const auto& open = open_[x];
      if (std::find(open.begin(), open.end(), 0) == open.end()) continue;
      const auto [place, is_new] = known.insert({open, model_.gates.count()});
      if (is_new) model_.gates.push_back(Gate(open));
      model_.gate_of[x] = place->second;
    }
  }

 private:
  const Working& working_of(const Pattern& pattern, const Activity& activity) {
    auto place = working_.find(pattern);
    if (place == working_.end()) {
      place = working_.emplace(pattern, Working(problem_, activity, span_)).first;
    }
    return place->second;
  }

  int stretch(const Working& working, const Activity& activity) {
    const auto key = std::pair(pattern_of(problem_, activity), activity.duration);
    const auto [place, is_new] = known_stretch_.insert({key, model_.stretches.count()});
    if (is_new) model_.stretches.push_back(Stretch(working, activity.duration));
    return place->second;
  }

  const Problem& problem_;
  Model& model_;
  int span_;
  std::map<Pattern, Working> working_;
  std::map<std::pair<Pattern, int>, int> known_stretch_;
  Flat<Flat<char>> open_;
  Flat<int> stretch_of_;
};

/// A lag into which a stretch enters: between two starts, or a bar on one.
void lay_bend(const Problem& problem, const Lag& lag, Bars& bars, Model& model) {
  const auto from = bars.moment(lag.from, lag.from_end);
  const auto to = bars.moment(lag.to, lag.to_end);
  if (from.stretch < 0 && to.stretch < 0) return;
  const auto duration = [&](int i) {
    return problem.activities[static_cast<std::size_t>(i)].duration;
  };
  const int before = lag.from_end && from.stretch < 0 ? duration(lag.from) : 0;
  const int after = lag.to_end && to.stretch < 0 ? duration(lag.to) : 0;
  const Model::Bend bend{from, to, lag.least + before - after};
  if (from.start == to.start) {
    bars.bar(from.start, [&](int v) { return model.forward(bend, v) <= v; });
    return;
  }
  model.bends_of[2 * from.start].push_back(model.bends.count());
  model.bends_of[2 * to.start + 1].push_back(model.bends.count());
  model.bends.push_back(bend);
}

void lay_jobs(const Problem& problem, Bars& bars, Model& model) {
  const int n = static_cast<int>(problem.activities.size());
  for (int r = 0; r < static_cast<int>(problem.resources.size()); ++r) {
    const auto& resource = problem.resources[static_cast<std::size_t>(r)];
    model.kinds.push_back(resource.kinds);
    model.changeover.push_back({});
    const auto& times = resource.changeover;
    if (std::all_of(times.begin(), times.end(), [](int time) { return time == 0; })) continue;
    model.changeover[r].assign(times.begin(), times.end());
    const int first = model.jobs.count();
    for (int i = 0; i < n; ++i) {
      const auto& activity = problem.activities[static_cast<std::size_t>(i)];
      for (const auto& use : activity.uses) {
        if (use.resource != r || use.amount == 0 || activity.duration == 0) continue;
        const Model::Task task{model.start_of[i], model.offset_of[i], activity.duration, use.amount,
                               bars.stretch_of(i)};
        model.jobs.push_back({task, r, use.kind});
      }
    }
    // Two jobs that move as one: only the calendar decides how far apart they are.
    for (int a = first; a < model.jobs.count(); ++a) {
      for (int b = first; b < model.jobs.count(); ++b) {
        const auto& one = model.jobs[a];
        const auto& two = model.jobs[b];
        if (a == b || one.task.start != two.task.start) continue;
        if (std::pair(one.task.offset, a) > std::pair(two.task.offset, b)) continue;
        const int gap = changeover_time(resource, one.kind, two.kind);
        bars.bar(one.task.start, [&](int v) {
          return model.end_of(one.task, v + one.task.offset) + gap <= v + two.task.offset;
        });
      }
    }
  }
}

}  // namespace

int Model::forward(const Bend& bend, int value) const {
  int time = value + bend.from.offset;
  if (bend.from.stretch >= 0) time = stretches[bend.from.stretch].end(time);
  time += bend.length;
  if (bend.to.stretch >= 0) time = stretches[bend.to.stretch].reach(time);
  return time - bend.to.offset;
}

int Model::backward(const Bend& bend, int value) const {
  int time = value + bend.to.offset;
  if (bend.to.stretch >= 0) time = stretches[bend.to.stretch].end(time);
  time -= bend.length;
  if (bend.from.stretch >= 0) time = stretches[bend.from.stretch].reach(time + 1) - 1;
  return time - bend.from.offset;
}

void lay_calendars(const Problem& problem, Model& model) {
  Bars bars(problem, model);
  for (int i = 0; i < model.start_of.count(); ++i) bars.note(i);
  model.bends_of.fit(2 * model.starts);
  for (const auto& lag : problem.lags) lay_bend(problem, lag, bars, model);
  lay_jobs(problem, bars, model);
  bars.lay_gates();
  model.stretch_of.fit(model.start_of.count(), -1);
  for (int i = 0; i < model.start_of.count(); ++i) model.stretch_of[i] = bars.stretch_of(i);
}

}  // namespace dampline::scheduling
