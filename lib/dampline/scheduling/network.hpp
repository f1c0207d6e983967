#pragma once

#include <vector>

#include <dampline/scheduling/flat.hpp>
#include <dampline/scheduling/problem.hpp>

namespace dampline::scheduling {

/// Lags, and the limits 0 <= start <= horizon, as arcs between activities. Of a lag in which work
/// that may pause takes part, only what holds without pauses.
struct Network {
  struct Edge {
    int from;
    int to;
    int length;
    int lag;  ///< its index in the problem; -1: a limit
  };
  int nodes = 0;
  Flat<Edge> edges;
};

[[nodiscard]] Network network_of(const Problem& problem);

struct Longest {
  Flat<int> distance;
  std::vector<int> cycle;       ///< not empty: these nodes close a cycle of positive length
  std::vector<int> cycle_lags;  ///< the lags between them; a limit is left out
  int excess = 0;               ///< length of the cycle: the time asked for and not there
};

/// Bellman-Ford with a queue of rounds; the predecessor graph gives the cycle.
[[nodiscard]] Longest longest_paths(const Network& network, int source);

/// Strongly connected groups of the arcs that are tight at the longest paths: cycles of length
/// zero, so rigid. [tarjan1972]
struct Groups {
  Flat<int> group;  ///< node -> group
  int count = 0;
};
[[nodiscard]] Groups rigid_groups(const Network& network, const Flat<int>& distance);

}  // namespace dampline::scheduling
