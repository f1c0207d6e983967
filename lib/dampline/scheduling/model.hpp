#pragma once

#include <optional>

#include <dampline/scheduling/flat.hpp>
#include <dampline/scheduling/problem.hpp>

namespace dampline::scheduling {

/// What the engine works on: rigid groups of activities became one start each.
struct Model {
  struct Arc {
    int to;      ///< half
    int length;  ///< bound[to] >= bound[from] + length
  };
  /// A piece of constant use of one resource, `offset` after the start it belongs to.
  struct Task {
    int start;
    int offset;
    int duration;
    int amount;
  };

  int starts = 0;
  int source = 0;
  int sink = 0;
  int sink_offset = 0;
  Flat<int> start_of;   ///< activity -> start
  Flat<int> offset_of;  ///< activity -> offset from it
  Flat<int> low;        ///< of each start, from the lags
  Flat<int> high;
  Flat<int> first_arc;  ///< half -> its arcs, compressed rows
  Flat<Arc> arcs;
  Flat<int> first_task;  ///< resource -> its tasks
  Flat<Task> tasks;
  Flat<int> capacity;
  int span = 1;  ///< all tasks end before this
};

struct Built {
  Model model;
  bool is_possible = true;  ///< false: the lags or a single demand allow nothing
  std::vector<int> cycle;   ///< the activities of the lags that close on themselves
};

/// Longest paths, rigid groups, compressed rows. The problem must fit.
[[nodiscard]] Built build(const Problem& problem);

}  // namespace dampline::scheduling
