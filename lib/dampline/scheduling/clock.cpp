#include <algorithm>

#include <dampline/scheduling/clock.hpp>

namespace dampline::scheduling {

bool has_calendar(const Problem& problem, const Activity& activity) {
  return activity.duration > 0 &&
         std::any_of(activity.uses.begin(), activity.uses.end(), [&](const Use& use) {
           const auto& resource = problem.resources[static_cast<std::size_t>(use.resource)];
           return use.amount > 0 && !resource.calendar.empty();
         });
}

int span_of(const Problem& problem) {
  int last = problem.horizon;
  for (const auto& resource : problem.resources) {
    if (!resource.calendar.empty()) last = std::max(last, resource.calendar.back().from);
  }
  return last + 1;
}

Working::Working(const Problem& problem, const Activity& activity, int span) {
  works_.fit(span, 1);
  for (int r = 0; r < static_cast<int>(problem.resources.size()); ++r) {
    const auto& resource = problem.resources[static_cast<std::size_t>(r)];
    if (resource.calendar.empty()) continue;
    int amount = 0;
    for (const auto& use : activity.uses) amount += use.resource == r ? use.amount : 0;
    int capacity = resource.capacity;
    auto step = resource.calendar.begin();
    for (int t = 0; t < span && amount > 0; ++t) {
      while (step != resource.calendar.end() && step->from <= t) capacity = (step++)->capacity;
      if (capacity < amount) works_[t] = 0;
    }
  }
}

Stretch::Stretch(const Working& working, int duration)
    : duration_(duration), goes_on_(working.at(working.table().count())) {
  const int span = working.table().count();
  end_.fit(span, never);
  // Two hands over the working instants, `duration` of them apart.
  Flat<int> instants;
  for (int t = 0; t < span; ++t) {
    if (working.at(t)) instants.push_back(t);
  }
  const int inside = instants.count();
  for (int t = span; goes_on_ && t < span + duration; ++t) instants.push_back(t);
  for (int i = 0, start = 0; i < inside; ++i) {
    const int last = i + duration - 1;
    const int end = last < instants.count() ? instants[last] + 1 : never;
    for (; start <= instants[i]; ++start) end_[start] = end;
  }
  // Starts after the last working instant within the span.
  const int tail = inside == 0 ? 0 : instants[inside - 1] + 1;
  for (int start = tail; goes_on_ && start < span; ++start) end_[start] = span + duration;
}

int Stretch::reach(int end) const {
  const auto found = std::lower_bound(end_.begin(), end_.end(), end);
  if (found != end_.end()) return static_cast<int>(found - end_.begin());
  return goes_on_ ? std::max(end_.count(), end - duration_) : end_.count();
}

Gate::Gate(const Flat<char>& is_open) {
  const int n = is_open.count();
  next_.fit(n, n);
  previous_.fit(n, -1);
  for (int v = n - 1, open = n; v >= 0; --v) {
    if (is_open[v] != 0) open = v;
    next_[v] = open;
  }
  for (int v = 0, open = -1; v < n; ++v) {
    if (is_open[v] != 0) open = v;
    previous_[v] = open;
  }
}

}  // namespace dampline::scheduling
