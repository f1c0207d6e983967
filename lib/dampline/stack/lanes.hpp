#pragma once

#include <span>
#include <vector>

#include <dampline/stack/stack.hpp>

namespace dampline::stack {

/// Leaves many stacks of one shape alone for `seconds`, several at a time side by side in the
/// processor's vectors: as advance() for each, at a fraction of the cost.
///
/// One shape: as many layers with as many cells, the same kinds of faces, films lying on the same
/// layers, a fixed temperature in all or in none; std::invalid_argument else. Materials, air,
/// contacts, moisture, films and temperature may differ. The stacks of one vector take their steps
/// together, as short as the most demanding of them needs, so that stacks with the same pace are
/// put side by side: the more there are, the less each costs. Each becomes what it is then;
/// outcomes in their order.
///
/// Error   that of advance() at the same tolerance.
std::vector<Outcome> advance_lanes(std::span<Stack> stacks, double seconds,
                                   const Tolerance& tolerance = {});

/// Stacks that go side by side on the processor at hand: 8, 4 or 2.
[[nodiscard]] int lanes_at_once();

}  // namespace dampline::stack
