#pragma once

#include <vector>

#include <dampline/scheduling/justify.hpp>
#include <dampline/scheduling/problem.hpp>

namespace dampline::scheduling {

/// Where an activity may start.
struct Slack {
  int earliest = 0;
  int latest = 0;
};

/// How far each activity can go while the sink is no later than `finish` (at least where it is) and
/// the order of the work is kept: of two that share a resource which cannot hold everybody at once,
/// the one that is over before the other begins stays so. All others may move along. `starts` must
/// be a valid schedule.
///
/// The latest starts together are a schedule again, and so are the earliest, as long as no calendar
/// takes only part of a resource away.
[[nodiscard]] std::vector<Slack> slack(const Problem& problem, const std::vector<int>& starts,
                                       int finish);

/// Everything that keeps activity `a` from starting a unit later, all others where they are: the
/// mirror of holds(). Hold::activity is the one that needs it, Hold::lag the time from the start of
/// `a` to the start of that one. Empty for the sink and the source.
[[nodiscard]] std::vector<Hold> needs(const Problem& problem, const std::vector<int>& starts,
                                      int a);

}  // namespace dampline::scheduling
