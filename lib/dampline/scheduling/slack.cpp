#include <algorithm>

#include <dampline/scheduling/held.hpp>
#include <dampline/scheduling/slack.hpp>

namespace dampline::scheduling {
namespace {

std::size_t at(int i) { return static_cast<std::size_t>(i); }

int amount_of(const Activity& work, int resource) {
  int amount = 0;
  for (const auto& use : work.uses) amount += use.resource == resource ? use.amount : 0;
  return work.duration > 0 ? amount : 0;
}

int least_capacity(const Resource& resource) {
  int least = resource.capacity;
  for (const auto& step : resource.calendar) {
    if (step.capacity > 0) least = std::min(least, step.capacity);
  }
  return least;
}

// The lags of the problem, and one for every two that have to stay in their order.
std::vector<Lag> kept_order(const Problem& problem, const std::vector<int>& starts,
                            const Held& held) {
  auto lags = problem.lags;
  const int n = static_cast<int>(starts.size());
  for (int r = 0; r < static_cast<int>(problem.resources.size()); ++r) {
    std::vector<int> users;
    long long wanted = 0;
    for (int i = 0; i < n; ++i) {
      const int amount = amount_of(problem.activities[at(i)], r);
      if (amount > 0) users.push_back(i);
      wanted += amount;
    }
    if (wanted <= least_capacity(problem.resources[at(r)])) continue;
    for (const int i : users) {
      for (const int j : users) {
        if (i == j || held.end(i, starts[at(i)]) > starts[at(j)]) continue;
        lags.push_back({i, j, changeover_time(problem, i, j), true, false});
      }
    }
  }
  return lags;
}

// Draws every start as far as it goes one way. What goes past `starts` stops at them, so it ends.
class Drawing {
 public:
  Drawing(const Problem& problem, const Held& held, const std::vector<int>& starts)
      : problem_(problem), held_(held), starts_(starts), lags_(kept_order(problem, starts, held)) {}

  [[nodiscard]] std::vector<int> latest(int finish) const {
    std::vector<int> t(starts_.size(), problem_.horizon);
    t[at(problem_.source)] = 0;
    t[at(problem_.sink)] = std::max(finish, starts_[at(problem_.sink)]);
    for (std::size_t i = 0; i < t.size(); ++i) t[i] = opened(static_cast<int>(i), t[i], -1);
    for (bool moved = true; moved;) {
      moved = false;
      for (const auto& lag : lags_) {
        const int most = held_.backward(lag, t[at(lag.to)]);
        if (most >= t[at(lag.from)]) continue;
        t[at(lag.from)] = opened(lag.from, most, -1);
        moved = true;
      }
    }
    return t;
  }

  [[nodiscard]] std::vector<int> earliest() const {
    std::vector<int> t(starts_.size(), 0);
    for (std::size_t i = 0; i < t.size(); ++i) t[i] = opened(static_cast<int>(i), 0, 1);
    for (bool moved = true; moved;) {
      moved = false;
      for (const auto& lag : lags_) {
        const int least = held_.forward(lag, t[at(lag.from)]);
        if (least <= t[at(lag.to)]) continue;
        t[at(lag.to)] = opened(lag.to, least, 1);
        moved = true;
      }
    }
    return t;
  }

 private:
  // The nearest start that the calendars allow; the schedule itself has one.
  [[nodiscard]] int opened(int i, int start, int step) const {
    while (step * start < step * starts_[at(i)] && !held_.is_open(i, start)) start += step;
    return start;
  }

  const Problem& problem_;
  const Held& held_;
  const std::vector<int>& starts_;
  std::vector<Lag> lags_;
};

}  // namespace

std::vector<Slack> slack(const Problem& problem, const std::vector<int>& starts, int finish) {
  const Held held(problem, starts);
  const Drawing drawing(problem, held, starts);
  const auto earliest = drawing.earliest();
  const auto latest = drawing.latest(finish);
  std::vector<Slack> out(starts.size());
  for (std::size_t i = 0; i < out.size(); ++i) out[i] = {earliest[i], latest[i]};
  return out;
}

std::vector<Hold> needs(const Problem& problem, const std::vector<int>& starts, int a) {
  std::vector<Hold> found;
  if (a == problem.source || a == problem.sink) return found;
  const Held held(problem, starts);
  const auto start_of = [&](int i) { return starts[at(i)]; };
  for (const auto& lag : problem.lags) {
    if (lag.from == a && lag.to != a && held.backward(lag, start_of(lag.to)) == start_of(a)) {
      found.push_back({lag.to, -1, start_of(lag.to) - start_of(a)});
    }
  }
  std::stable_sort(found.begin(), found.end(),
                   [](const Hold& x, const Hold& y) { return x.activity < y.activity; });
  const auto& work = problem.activities[at(a)];
  if (work.duration == 0) return found;
  const int end = held.end(a, start_of(a));
  for (const auto& use : work.uses) {
    if (use.amount == 0) continue;
    const bool is_open = held.offered(use.resource, end) >= use.amount;
    if (!is_open) found.push_back({problem.sink, use.resource, end - start_of(a), true});
    const bool is_full = held.at(use.resource, end) + use.amount > held.offered(use.resource, end);
    for (int i = 0; i < static_cast<int>(starts.size()); ++i) {
      if (i == a || amount_of(problem.activities[at(i)], use.resource) == 0) continue;
      const int time = changeover_time(problem, a, i);
      const bool takes_over = is_open && is_full && start_of(i) == end;
      if (!takes_over && (time == 0 || start_of(i) != end + time)) continue;
      found.push_back({i, use.resource, start_of(i) - start_of(a)});
    }
  }
  return found;
}

}  // namespace dampline::scheduling
