#include <algorithm>

#include <dampline/scheduling/flat.hpp>
#include <dampline/scheduling/justify.hpp>

namespace dampline::scheduling {
namespace {

/// What is held of each resource at each instant.
class Held {
 public:
  Held(const Problem& problem, const std::vector<int>& starts) : problem_(problem) {
    int span = problem.horizon + 1;
    for (std::size_t i = 0; i < starts.size(); ++i) {
      span = std::max({span, starts[i] + problem.activities[i].duration,
                       problem.horizon + problem.activities[i].duration});
    }
    held_.fit(static_cast<int>(problem.resources.size()));
    for (auto& row : held_) row.fit(span, 0);
    for (std::size_t i = 0; i < starts.size(); ++i) add(static_cast<int>(i), starts[i], 1);
  }

  void add(int activity, int start, int sign) {
    const auto& work = problem_.activities[static_cast<std::size_t>(activity)];
    for (const auto& use : work.uses) {
      int* const held = held_[use.resource].data();
      for (int t = start; t < start + work.duration; ++t) held[t] += sign * use.amount;
    }
  }

  [[nodiscard]] bool is_within(int activity, int start) const {
    const auto& work = problem_.activities[static_cast<std::size_t>(activity)];
    return std::all_of(work.uses.begin(), work.uses.end(), [&](const Use& use) {
      const int capacity = problem_.resources[static_cast<std::size_t>(use.resource)].capacity;
      const int* const held = held_[use.resource].data();
      return std::all_of(held + start, held + start + work.duration,
                         [&](int amount) { return amount <= capacity; });
    });
  }

  [[nodiscard]] int at(int resource, int instant) const { return held_[resource][instant]; }

 private:
  const Problem& problem_;
  Flat<Flat<int>> held_;
};

/// Moves activities one way along an axis on which later (or, for early, earlier) is more.
class Mover {
 public:
  Mover(const Problem& problem, std::vector<int>& starts, const std::vector<int>& which,
        Direction direction)
      : problem_(problem),
        starts_(starts),
        held_(problem, starts),
        sign_(direction == Direction::late ? 1 : -1),
        most_(direction == Direction::late ? problem.horizon : 0) {
    const int n = static_cast<int>(starts.size());
    may_move_.fit(n, 0);
    wanted_.fit(n, 0);
    is_taken_.fit(n, 0);
    pushes_.fit(n);
    for (const int i : which) may_move_[i] = i != problem.source;
    for (const auto& lag : problem.lags) {
      const int pusher = sign_ > 0 ? lag.from : lag.to;
      const int pushed = sign_ > 0 ? lag.to : lag.from;
      if (may_move_[pusher] != 0) pushes_[pusher].push_back({pushed, lag.least});
    }
  }

  /// Moves one as far as it goes; true when it moved at all.
  bool move(int a) {
    if (may_move_[a] == 0) return false;
    int target = most_;
    while (target > place(a)) {
      const int excess = push(a, target);
      if (excess == 0 && shift()) return true;
      target -= std::max(excess, 1);
    }
    return false;
  }

 private:
  struct Push {
    int to;
    int least;
  };

  [[nodiscard]] int place(int i) const { return sign_ * starts_[static_cast<std::size_t>(i)]; }

  /// Finds what must move with `a`; returns by how much an immovable one, or the limit, is passed.
  int push(int a, int target) {
    for (const int i : taken_) is_taken_[i] = 0;
    taken_.assign(1, a);
    is_taken_[a] = 1;
    wanted_[a] = target;
    for (int next = 0; next < taken_.count(); ++next) {
      const int from = taken_[next];
      is_taken_[from] = 2;
      for (const auto& [to, least] : pushes_[from]) {
        const int needed = wanted_[from] + least;
        if (needed <= (is_taken_[to] != 0 ? wanted_[to] : place(to))) continue;
        if (may_move_[to] == 0) return needed - place(to);
        if (to == a) return 1;  // its own push comes back: only a shorter way may do
        if (needed > most_) return needed - most_;
        wanted_[to] = needed;
        if (is_taken_[to] != 1) taken_.push_back(to);
        is_taken_[to] = 1;
      }
    }
    return 0;
  }

  /// Carries out what push() found, if the resources allow it.
  bool shift() {
    std::sort(taken_.begin(), taken_.end());
    taken_.erase(std::unique(taken_.begin(), taken_.end()), taken_.end());
    for (const int i : taken_) held_.add(i, starts_[static_cast<std::size_t>(i)], -1);
    for (const int i : taken_) held_.add(i, sign_ * wanted_[i], 1);
    const bool fits = std::all_of(taken_.begin(), taken_.end(),
                                  [&](int i) { return held_.is_within(i, sign_ * wanted_[i]); });
    if (fits) {
      for (const int i : taken_) starts_[static_cast<std::size_t>(i)] = sign_ * wanted_[i];
      return true;
    }
    for (const int i : taken_) held_.add(i, sign_ * wanted_[i], -1);
    for (const int i : taken_) held_.add(i, starts_[static_cast<std::size_t>(i)], 1);
    return false;
  }

  const Problem& problem_;
  std::vector<int>& starts_;
  Held held_;
  int sign_;
  int most_;
  Flat<char> may_move_;
  Flat<int> wanted_;
  Flat<char> is_taken_;  ///< 1 waits to push, 2 has pushed
  Flat<int> taken_;
  Flat<Flat<Push>> pushes_;
};

}  // namespace

std::vector<int> justify(const Problem& problem, std::vector<int> starts,
                         const std::vector<int>& which, Direction direction) {
  Mover mover(problem, starts, which, direction);
  for (bool moved = true; moved;) {
    moved = false;
    for (const int a : which) moved = mover.move(a) || moved;
  }
  return starts;
}

std::vector<Hold> holds(const Problem& problem, const std::vector<int>& starts, int a) {
  std::vector<Hold> found;
  if (a == problem.source) return found;
  const auto start_of = [&](int i) { return starts[static_cast<std::size_t>(i)]; };
  for (const auto& lag : problem.lags) {
    if (lag.to == a && lag.from != a && start_of(a) == start_of(lag.from) + lag.least) {
      found.push_back({lag.from, -1, lag.least});
    }
  }
  std::stable_sort(found.begin(), found.end(),
                   [](const Hold& x, const Hold& y) { return x.activity < y.activity; });
  const int before = start_of(a) - 1;
  if (before < 0) return found;
  const auto& work = problem.activities[static_cast<std::size_t>(a)];
  if (work.duration == 0) return found;
  const Held held(problem, starts);
  for (const auto& use : work.uses) {
    const int capacity = problem.resources[static_cast<std::size_t>(use.resource)].capacity;
    if (use.amount == 0 || held.at(use.resource, before) + use.amount <= capacity) continue;
    for (int i = 0; i < static_cast<int>(starts.size()); ++i) {
      const auto& other = problem.activities[static_cast<std::size_t>(i)];
      if (i == a || other.duration == 0 || start_of(i) + other.duration != start_of(a)) continue;
      const bool hands_over = std::any_of(
          other.uses.begin(), other.uses.end(),
          [&](const Use& its) { return its.resource == use.resource && its.amount > 0; });
      if (hands_over) found.push_back({i, use.resource, 0});
    }
  }
  return found;
}

std::vector<int> why(const Problem& problem, const std::vector<int>& starts, int a) {
  Flat<int> parent;
  parent.fit(static_cast<int>(starts.size()), -1);
  parent[a] = a;
  std::vector<int> seen{a};
  int end = a;
  for (std::size_t next = 0; next < seen.size(); ++next) {
    const int at = seen[next];
    if (starts[static_cast<std::size_t>(at)] < starts[static_cast<std::size_t>(end)]) end = at;
    if (at == problem.source) {
      end = at;
      break;
    }
    for (const auto& hold : holds(problem, starts, at)) {
      if (parent[hold.activity] >= 0) continue;
      parent[hold.activity] = at;
      seen.push_back(hold.activity);
    }
  }
  std::vector<int> chain;
  for (int at = end;; at = parent[at]) {
    chain.push_back(at);
    if (at == a) break;
  }
  std::reverse(chain.begin(), chain.end());
  return chain;
}

}  // namespace dampline::scheduling
