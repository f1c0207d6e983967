#pragma once

#include <vector>

#include <dampline/scheduling/problem.hpp>

namespace dampline::scheduling {

enum class Direction { early, late };

/// Moves the listed activities as late (or early) as lags and capacities allow, keeping all others
/// where they are. The order of the list is the priority: each activity in turn goes as far as it
/// can, taking along those listed ones that its lags push; repeated until nothing moves.
/// `starts` must be a valid schedule of the problem; so is the result.
[[nodiscard]] std::vector<int> justify(const Problem& problem, std::vector<int> starts,
                                       const std::vector<int>& which, Direction direction);

/// One thing that keeps an activity from starting a unit earlier.
struct Hold {
  int activity = 0;   ///< the one that holds it
  int resource = -1;  ///< handed over at the start; -1: held by a lag
  /// Held by a lag: start of the held one minus start of the holder. Handed over: the changeover
  /// time between them.
  int lag = 0;
  bool is_pause = false;  ///< the calendar of `resource` holds it; the holder is then the source
};

/// Everything that holds activity `a` where it is: tight lags first, then tight hand-overs, each in
/// order of the activities, then a pause. Empty when it could start earlier by itself, or is the
/// source.
[[nodiscard]] std::vector<Hold> holds(const Problem& problem, const std::vector<int>& starts,
                                      int a);

/// The chain of reasons that holds activity `a` at its start: a, what holds it, what holds that ...
/// down to the source. Along tight lags and tight hand-overs, by the fewest steps; when no chain
/// reaches the source, the one that reaches furthest back in time.
[[nodiscard]] std::vector<int> why(const Problem& problem, const std::vector<int>& starts, int a);

}  // namespace dampline::scheduling
