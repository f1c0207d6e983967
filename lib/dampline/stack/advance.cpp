#include <algorithm>
#include <numbers>
#include <utility>

#include <dampline/stack/outcome.hpp>
#include <dampline/stack/semi_discrete.hpp>
#include <dampline/stack/stack.hpp>
#include <dampline/stack/walk.hpp>

namespace dampline::stack {

using kernel::System;
using kernel::Walk;

namespace {

// The moment within the step at which `left` first falls to zero, to a thousandth of it or 0.1 s.
template <typename Left>
double moment(Walk& walk, const Left& left) {
  double sooner = 0;
  double later = walk.length();
  while (later - sooner > std::max(1e-3 * walk.length(), 0.1)) {
    const double middle = 0.5 * (sooner + later);
    walk.between(middle);
    (left() > 0 ? sooner : later) = middle;
  }
  return later;
}

// Looks at every step for what Outcome::events tells. While nothing happens it compares one number
// a joint and one a layer.
class Lookout {
 public:
  explicit Lookout(const System& k) : k_(k) {
    for (int l = 0; l < k.layers; ++l) lags_.push_back(lagging(l, k.y));
  }

  void look(Walk& walk, std::vector<Event>& events) {
    const std::size_t told = events.size();
    const auto tell = [&](Change change, int at, const auto& left) {
      events.push_back({change, at, walk.time() + moment(walk, left)});
    };
    for (int j = 0; j < k_.joints; ++j) {
      const int at = k_.film_at(j);
      if (k_.y[at] > half_bare && !(k_.next[at] > half_bare)) {
        tell(Change::film_gone, j, [&] { return k_.seen[at] - half_bare; });
      }
    }
    for (int l = 0; l < k_.layers; ++l) {
      int& lags = lags_[static_cast<std::size_t>(l)];
      if (lags == none || below(lags, k_.next)) continue;
      lags = lagging(l, k_.next);
      if (lags != none) continue;
      tell(Change::layer_full, l, [&] { return lagging(l, k_.seen) == none ? 0.0 : 1.0; });
    }
    std::sort(events.begin() + static_cast<std::ptrdiff_t>(told), events.end(),
              [](const Event& a, const Event& b) { return a.seconds < b.seconds; });
  }

 private:
  static constexpr int none = -1;
  static constexpr double half_bare = kernel::patchy * std::numbers::ln2;  // kg/m2

  [[nodiscard]] bool below(int cell, const double* y) const {
    return y[cell] < 0.999 * k_.cap[cell];
  }
  [[nodiscard]] int lagging(int layer, const double* y) const {
    for (int i = k_.layer[layer].first; i < k_.layer[layer].last; ++i) {
      if (below(i, y)) return i;
    }
    return none;
  }

  const System& k_;
  std::vector<int> lags_;  // by layer: a cell that is not full yet
};

void hold_within(const System& k, double* y) {
  for (int i = 0; i < k.cells; ++i) y[i] = std::clamp(y[i], 0.0, k.cap[i]);
  for (int j = 0; j < k.joints; ++j) y[k.film_at(j)] = std::max(0.0, y[k.film_at(j)]);
}

}  // namespace

Outcome advance(Stack& stack, double seconds, const Tolerance& tolerance,
                const std::vector<double>& times, const Observer& observer, const Watch& until) {
  if (!(seconds > 0)) return {};
  if (until && !(until(stack) > 0)) return {.stopped = true};
  System k = kernel::system_of(stack);
  const double before = water(stack);
  Walk walk(k, seconds, tolerance, !times.empty() || until);
  Lookout lookout(k);
  std::vector<Event> events;
  std::size_t sample = 0;
  while (walk.step()) {
    if (until) {
      const auto left_at = [&](const double* state) {
        kernel::put_back(stack, k, state);
        return until(stack);
      };
      if (!(left_at(k.next) > 0)) {
        walk.stop_at(moment(walk, [&] { return left_at(k.seen); }));
      }
    }
    lookout.look(walk, events);
    while (observer && sample < times.size() && times[sample] <= walk.time() + walk.length()) {
      walk.between(std::max(0.0, times[sample] - walk.time()));
      hold_within(k, k.seen);
      kernel::put_back(stack, k, k.seen);
      observer(times[sample], stack);
      ++sample;
    }
    walk.go();
  }
  Outcome o = kernel::outcome_of(stack, k, walk, before);
  o.events = std::move(events);
  return o;
}

}  // namespace dampline::stack
