#include <algorithm>

#include <dampline/stack/kernels.hpp>
#include <dampline/stack/lanes.hpp>
#include <dampline/stack/outcome.hpp>
#include <dampline/stack/semi_discrete.hpp>
#include <dampline/stack/walk.hpp>

namespace dampline::stack {

namespace {

void advance_some(std::span<Stack> stacks, std::span<Outcome> outcomes, double seconds,
                  const Tolerance& tolerance, const kernel::Calls& calls) {
  kernel::System k = kernel::system_of(stacks, calls);
  std::vector<double> before;
  for (const Stack& s : stacks) before.push_back(water(s));
  kernel::Walk walk(k, seconds, tolerance);
  while (walk.step()) walk.go();
  for (std::size_t i = 0; i < stacks.size(); ++i) {
    outcomes[i] = kernel::outcome_of(stacks[i], k, walk, before[i], static_cast<int>(i));
  }
}

}  // namespace

int lanes_at_once() { return kernel::available().back()->lanes; }

std::vector<Outcome> advance_lanes(std::span<Stack> stacks, double seconds,
                                   const Tolerance& tolerance) {
  std::vector<Outcome> outcomes(stacks.size());
  if (!(seconds > 0)) return outcomes;
  for (std::size_t done = 0; done < stacks.size();) {
    // The last few go by the narrowest vectors that hold them: lanes to spare cost as much as
    // others.
    const auto left = static_cast<int>(stacks.size() - done);
    const kernel::Calls* fitting = kernel::available().back();
    for (const kernel::Calls* c : kernel::available()) {
      if (c->lanes >= left && c->lanes <= fitting->lanes) fitting = c;
    }
    const auto some = static_cast<std::size_t>(std::min(left, fitting->lanes));
    advance_some(stacks.subspan(done, some), std::span(outcomes).subspan(done, some), seconds,
                 tolerance, *fitting);
    done += some;
  }
  return outcomes;
}

}  // namespace dampline::stack
