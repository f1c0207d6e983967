#pragma once

#include <set>
#include <string>
#include <vector>

#include <dampline/planner/history.hpp>

/// What remains of a day that has begun, as a scheduling problem of its own.
namespace dampline::planner {

struct Remains {
  std::set<int> lost;               ///< prints that are given up, by number; none of them begun
  std::set<std::string> ink_again;  ///< blocks of inking, done, that are done once more
  HalfMinutes until{};              ///< the horizon
  bool give_up = false;             ///< nothing more is printed: what is left is to clean up
};

struct Remaining {
  Draft draft;
  std::vector<std::string> notes;   ///< what had to give way, a sentence each
  std::set<std::string> ink_again;  ///< blocks of inking that are done once more
};

/// A draft in which what is begun is pinned to its real times and nothing else starts before now.
///
/// A block part way is split: its done steps stay where they were, a running one lasts until it is
/// expected to end, and the rest follows: at once where a sheet is out from under cover, before a
/// break even, which then begins later. Ink that has stood longer than it comfortably does is
/// printed while it may be, else the plate is inked again.
[[nodiscard]] Remaining remaining(const Morning& morning, const Craft& craft,
                                  const History& history, const Remains& remains);

}  // namespace dampline::planner
