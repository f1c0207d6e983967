#include <algorithm>

#include <dampline/scheduling/held.hpp>

namespace dampline::scheduling {
namespace {

const Activity& work_of(const Problem& problem, int i) {
  return problem.activities[static_cast<std::size_t>(i)];
}

}  // namespace

Held::Held(const Problem& problem, const std::vector<int>& starts)
    : problem_(problem), span_(problem.horizon + 1) {
  const int n = static_cast<int>(starts.size());
  const int calendars = span_of(problem);
  stretch_of_.fit(n, -1);
  for (int i = 0; i < n; ++i) {
    const auto& work = work_of(problem, i);
    const int start = std::max(starts[static_cast<std::size_t>(i)], problem.horizon);
    span_ = std::max(span_, start + work.duration + 1);
    if (!has_calendar(problem, work)) continue;
    span_ = std::max(span_, calendars + work.duration + 1);
    if (!work.may_pause) continue;
    stretch_of_[i] = stretches_.count();
    stretches_.push_back(Stretch(Working(problem, work, calendars), work.duration));
  }
  held_.fit(static_cast<int>(problem.resources.size()));
  offered_.fit(held_.count());
  for (int r = 0; r < held_.count(); ++r) {
    const auto& resource = problem.resources[static_cast<std::size_t>(r)];
    held_[r].fit(span_, 0);
    if (resource.calendar.empty()) continue;
    offered_[r].fit(span_, resource.capacity);
    for (const auto& step : resource.calendar) {
      for (int t = step.from; t < span_; ++t) offered_[r][t] = step.capacity;
    }
  }
  for (int i = 0; i < n; ++i) add(i, starts[static_cast<std::size_t>(i)], 1);
}

void Held::add(int activity, int start, int sign) {
  const int until = std::min(end(activity, start), span_);
  for (const auto& use : work_of(problem_, activity).uses) {
    int* const held = held_[use.resource].data();
    for (int t = start; t < until; ++t) {
      if (!stands_still(use, activity, t)) held[t] += sign * use.amount;
    }
  }
}

bool Held::is_within(int activity, int start) const {
  if (!is_open(activity, start)) return false;
  const int until = end(activity, start);
  for (const auto& use : work_of(problem_, activity).uses) {
    const auto& held = held_[use.resource];
    for (int t = start; t < until; ++t) {
      if (held[t] > offered(use.resource, t) && !stands_still(use, activity, t)) return false;
    }
  }
  return true;
}

int Held::end(int activity, int start) const {
  const int s = stretch_of_[activity];
  return s < 0 ? start + work_of(problem_, activity).duration : stretches_[s].end(start);
}

int Held::reach(int activity, int end) const {
  const int s = stretch_of_[activity];
  return s < 0 ? end - work_of(problem_, activity).duration : stretches_[s].reach(end);
}

bool Held::is_open(int activity, int start) const {
  const auto& work = work_of(problem_, activity);
  if (work.duration == 0) return true;
  if (start < 0 || end(activity, start) > span_) return false;
  const int until = stretch_of_[activity] < 0 ? start + work.duration : start + 1;
  return std::all_of(work.uses.begin(), work.uses.end(), [&](const Use& use) {
    const auto& offered = offered_[use.resource];
    return offered.empty() || std::all_of(offered.data() + start, offered.data() + until,
                                          [&](int capacity) { return capacity >= use.amount; });
  });
}

int Held::forward(const Lag& lag, int start) const {
  const int time = (lag.from_end ? end(lag.from, start) : start) + lag.least;
  return lag.to_end ? reach(lag.to, time) : time;
}

int Held::backward(const Lag& lag, int start) const {
  const int time = (lag.to_end ? end(lag.to, start) : start) - lag.least;
  return lag.from_end ? reach(lag.from, time + 1) - 1 : time;
}

int changeover_time(const Problem& problem, int first, int then) {
  int time = 0;
  if (work_of(problem, first).duration == 0 || work_of(problem, then).duration == 0) return time;
  for (const auto& a : work_of(problem, first).uses) {
    for (const auto& b : work_of(problem, then).uses) {
      const auto& resource = problem.resources[static_cast<std::size_t>(a.resource)];
      if (a.resource != b.resource || a.amount == 0 || b.amount == 0) continue;
      time = std::max(time, changeover_time(resource, a.kind, b.kind));
    }
  }
  return time;
}

}  // namespace dampline::scheduling
