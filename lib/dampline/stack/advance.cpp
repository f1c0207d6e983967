#include <algorithm>

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
  Walk walk(k, seconds, tolerance);
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
    while (observer && sample < times.size() && times[sample] <= walk.time() + walk.length()) {
      walk.between(std::max(0.0, times[sample] - walk.time()));
      hold_within(k, k.seen);
      kernel::put_back(stack, k, k.seen);
      observer(times[sample], stack);
      ++sample;
    }
    walk.go();
  }
  return kernel::outcome_of(stack, k, walk, before);
}

}  // namespace dampline::stack
