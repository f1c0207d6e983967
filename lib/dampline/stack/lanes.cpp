#include <algorithm>
#include <numeric>
#include <optional>

#include <dampline/stack/kernels.hpp>
#include <dampline/stack/lanes.hpp>
#include <dampline/stack/outcome.hpp>
#include <dampline/stack/semi_discrete.hpp>
#include <dampline/stack/walk.hpp>

namespace dampline::stack {

namespace {

void advance_some(std::optional<kernel::System>& system, std::span<Stack* const> stacks,
                  std::span<Outcome> outcomes, double seconds, const Tolerance& tolerance,
                  const kernel::Calls& calls) {
  if (system && system->run == &calls && kernel::fits(*system, stacks)) {
    kernel::refill(*system, stacks);
  } else {
    system.emplace(kernel::system_of(stacks, calls));
  }
  kernel::System& k = *system;
  std::vector<double> before;
  for (const Stack* s : stacks) before.push_back(water(*s));
  kernel::Walk walk(k, seconds, tolerance);
  while (walk.step()) walk.go();
  for (std::size_t i = 0; i < stacks.size(); ++i) {
    outcomes[i] = kernel::outcome_of(*stacks[i], k, walk, before[i], static_cast<int>(i));
  }
}

// What sets the pace of a stack's steps, first and second: how soon the world, or the sheet beyond
// a contact, has done its work, and how long water takes through the slowest layer. Only the order
// matters: it puts stacks that want the same steps side by side.
struct Pace {
  double outside = 0;
  double inside = 0;
};
Pace pace_of(const Stack& s) {
  if (s.layers.empty()) return {};
  const material::Porous* slowest = s.layers.front().material;
  for (const Layer& l : s.layers) {
    if (l.material->liquid < slowest->liquid) slowest = l.material;
  }
  const double held = water(s);
  const double through = held * held / slowest->liquid;
  if (!s.contacts.empty()) return {s.contacts.front(), through};
  const Face& face = s.left.kind == FaceKind::sealed ? s.right : s.left;
  if (face.kind == FaceKind::water) return {through, slowest->saturation};
  constexpr double room_pa = 2300;  // saturation in a room
  constexpr std::size_t middle = 4 * (AirSide::intervals / 2);
  return {held / (face.air.transfer[middle] * std::max(room_pa - face.air.vapour_pa, 1.0)),
          through};
}

// By the first pace, and within so many neighbours by the second.
std::vector<std::size_t> by_pace(std::span<const Stack> stacks, std::size_t neighbours) {
  std::vector<Pace> pace;
  for (const Stack& s : stacks) pace.push_back(pace_of(s));
  std::vector<std::size_t> order(stacks.size());
  std::iota(order.begin(), order.end(), std::size_t{0});
  std::stable_sort(order.begin(), order.end(),
                   [&](std::size_t a, std::size_t b) { return pace[a].outside < pace[b].outside; });
  for (std::size_t from = 0; from < order.size(); from += neighbours) {
    const std::span some =
        std::span(order).subspan(from, std::min(neighbours, order.size() - from));
    std::stable_sort(some.begin(), some.end(),
                     [&](std::size_t a, std::size_t b) { return pace[a].inside < pace[b].inside; });
  }
  return order;
}

}  // namespace

int lanes_at_once() { return kernel::available().back()->lanes; }

std::vector<Outcome> advance_lanes(std::span<Stack> stacks, double seconds,
                                   const Tolerance& tolerance) {
  std::vector<Outcome> outcomes(stacks.size());
  if (!(seconds > 0)) return outcomes;
  const auto widest = static_cast<std::size_t>(lanes_at_once());
  const std::vector<std::size_t> order = by_pace(stacks, widest * widest);
  std::vector<Stack*> ordered;
  for (const std::size_t i : order) ordered.push_back(&stacks[i]);
  std::vector<Outcome> some(widest);
  std::optional<kernel::System> system;
  for (std::size_t done = 0; done < stacks.size();) {
    // The last few go by the narrowest vectors that hold them: lanes to spare cost as much as
    // others.
    const auto left = static_cast<int>(stacks.size() - done);
    const kernel::Calls* fitting = kernel::available().back();
    for (const kernel::Calls* c : kernel::available()) {
      if (c->lanes >= left && c->lanes <= fitting->lanes) fitting = c;
    }
    const auto n = static_cast<std::size_t>(std::min(left, fitting->lanes));
    advance_some(system, std::span(ordered).subspan(done, n), some, seconds, tolerance, *fitting);
    for (std::size_t i = 0; i < n; ++i) outcomes[order[done + i]] = some[i];
    done += n;
  }
  return outcomes;
}

}  // namespace dampline::stack
