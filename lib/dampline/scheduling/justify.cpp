#include <algorithm>

#include <dampline/scheduling/held.hpp>
#include <dampline/scheduling/justify.hpp>

namespace dampline::scheduling {
namespace {

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
      if (may_move_[pusher] != 0) pushes_[pusher].push_back(&lag);
    }
    has_changeovers_ = std::any_of(problem.resources.begin(), problem.resources.end(),
                                   [](const Resource& resource) { return resource.kinds > 0; });
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
      for (const Lag* lag : pushes_[from]) {
        const int to = sign_ > 0 ? lag->to : lag->from;
        int needed =
            sign_ > 0 ? held_.forward(*lag, wanted_[from]) : -held_.backward(*lag, -wanted_[from]);
        if (needed <= (is_taken_[to] != 0 ? wanted_[to] : place(to))) continue;
        if (may_move_[to] == 0) return needed - place(to);
        if (to == a) return 1;  // its own push comes back: only a shorter way may do
        while (needed <= most_ && !held_.is_open(to, sign_ * needed)) ++needed;
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
    const bool fits = std::all_of(taken_.begin(), taken_.end(), [&](int i) {
      return held_.is_within(i, sign_ * wanted_[i]) && (!has_changeovers_ || has_changed(i));
    });
    if (fits) {
      for (const int i : taken_) starts_[static_cast<std::size_t>(i)] = sign_ * wanted_[i];
      return true;
    }
    for (const int i : taken_) held_.add(i, sign_ * wanted_[i], -1);
    for (const int i : taken_) held_.add(i, starts_[static_cast<std::size_t>(i)], 1);
    return false;
  }

  /// Is there time to change before and after activity i, all others where they are to be?
  [[nodiscard]] bool has_changed(int i) const {
    const auto start = [&](int k) {
      const bool moves = std::binary_search(taken_.begin(), taken_.end(), k);
      return moves ? sign_ * wanted_[k] : starts_[static_cast<std::size_t>(k)];
    };
    for (int k = 0; k < may_move_.count(); ++k) {
      const int after = changeover_time(problem_, i, k);
      const int before = changeover_time(problem_, k, i);
      if (k == i || (after == 0 && before == 0)) continue;
      if (start(k) < held_.end(i, start(i)) + after && start(i) < held_.end(k, start(k)) + before) {
        return false;
      }
    }
    return true;
  }

  const Problem& problem_;
  std::vector<int>& starts_;
  Held held_;
  bool has_changeovers_ = false;
  int sign_;
  int most_;
  Flat<char> may_move_;
  Flat<int> wanted_;
  Flat<char> is_taken_;  ///< 1 waits to push, 2 has pushed
  Flat<int> taken_;
  Flat<Flat<const Lag*>> pushes_;
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

namespace {

/// Whoever hands resources over to `a` at the instant it starts, or before a changeover.
void find_hand_overs(const Problem& problem, const std::vector<int>& starts, const Held& held,
                     int a, std::vector<Hold>& found) {
  const auto start_of = [&](int i) { return starts[static_cast<std::size_t>(i)]; };
  const int before = start_of(a) - 1;
  const auto& work = problem.activities[static_cast<std::size_t>(a)];
  for (const auto& use : work.uses) {
    const int capacity = held.offered(use.resource, before);
    if (use.amount == 0 || held.at(use.resource, before) + use.amount <= capacity) continue;
    for (int i = 0; i < static_cast<int>(starts.size()); ++i) {
      const auto& other = problem.activities[static_cast<std::size_t>(i)];
      if (i == a || other.duration == 0 || held.end(i, start_of(i)) != start_of(a)) continue;
      const bool hands_over = std::any_of(
          other.uses.begin(), other.uses.end(),
          [&](const Use& its) { return its.resource == use.resource && its.amount > 0; });
      if (hands_over) found.push_back({i, use.resource, 0});
    }
  }
  for (const auto& use : work.uses) {
    if (problem.resources[static_cast<std::size_t>(use.resource)].kinds == 0) continue;
    for (int i = 0; i < static_cast<int>(starts.size()); ++i) {
      const int time = i == a ? 0 : changeover_time(problem, i, a);
      if (time > 0 && held.end(i, start_of(i)) + time == start_of(a)) {
        found.push_back({i, use.resource, time});
      }
    }
  }
}

}  // namespace

std::vector<Hold> holds(const Problem& problem, const std::vector<int>& starts, int a) {
  std::vector<Hold> found;
  if (a == problem.source) return found;
  const Held held(problem, starts);
  const auto start_of = [&](int i) { return starts[static_cast<std::size_t>(i)]; };
  for (const auto& lag : problem.lags) {
    if (lag.to == a && lag.from != a && held.forward(lag, start_of(lag.from)) == start_of(a)) {
      found.push_back({lag.from, -1, start_of(a) - start_of(lag.from)});
    }
  }
  std::stable_sort(found.begin(), found.end(),
                   [](const Hold& x, const Hold& y) { return x.activity < y.activity; });
  const int before = start_of(a) - 1;
  const auto& work = problem.activities[static_cast<std::size_t>(a)];
  if (before < 0 || work.duration == 0) return found;
  find_hand_overs(problem, starts, held, a, found);
  for (const auto& use : work.uses) {
    if (held.offered(use.resource, before) >= use.amount) continue;
    found.push_back({problem.source, use.resource, start_of(a), true});
    break;
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
