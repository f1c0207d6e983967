#pragma once

#include <optional>

#include <dampline/scheduling/clock.hpp>
#include <dampline/scheduling/flat.hpp>
#include <dampline/scheduling/problem.hpp>

namespace dampline::scheduling {

/// What the engine works on: rigid groups of activities became one start each.
struct Model {
  struct Arc {
    int to;      ///< half
    int length;  ///< bound[to] >= bound[from] + length
  };
  /// The start, or with a stretch the end, of some work that begins `offset` after a start.
  struct Moment {
    int start;
    int offset;
    int stretch;  ///< -1: none
  };
  /// A lag in which a calendar has a say: to >= from + length.
  struct Bend {
    Moment from;
    Moment to;
    int length;
  };
  /// A piece of constant use of one resource, `offset` after the start it belongs to.
  struct Task {
    int start;
    int offset;
    int duration;
    int amount;
    int stretch;  ///< -1: ends `duration` after it began
  };
  /// A task on a resource with changeover times.
  struct Job {
    Task task;
    int resource;
    int kind;
  };
  /// Some work, `offset` after a start.
  struct Piece {
    int start;
    int offset;
    int duration;
  };
  /// The sum of weight times value is at most `most`; a half 2x has the value x, 2x+1 has -x.
  struct Sum {
    struct Term {
      int half;
      int weight;  ///< above 0
    };
    Flat<Term> terms;
    long long most = 0;
  };

  int starts = 0;   ///< all variables: the real starts, then what objectives add
  int decided = 0;  ///< the real starts; the others follow from them
  int source = 0;
  int sink = 0;
  int sink_offset = 0;
  int goal = 0;         ///< the variable to be minimised
  int goal_offset = 0;  ///< the objective is this and goal_sign times the goal
  int goal_sign = 1;
  int chooser = -1;     ///< a variable that tells neighbourhoods apart; -1: none
  Flat<int> start_of;   ///< activity -> start
  Flat<int> offset_of;  ///< activity -> offset from it
  Flat<int> low;        ///< of each start, from the lags
  Flat<int> high;
  Flat<int> first_arc;  ///< half -> its arcs, compressed rows
  Flat<Arc> arcs;
  Flat<int> first_task;  ///< resource -> its tasks
  Flat<Task> tasks;
  Flat<int> capacity;          ///< the most the calendar ever gives
  Flat<Flat<int>> missing;     ///< resource -> instant -> capacity not there; empty: no calendar
  int span = 1;                ///< all tasks end before this
  Flat<Stretch> stretches;     ///< shared by work of the same calendar and duration
  Flat<Gate> gates;            ///< shared by starts
  Flat<int> gate_of;           ///< start -> gate, or -1
  Flat<int> stretch_of;        ///< activity -> stretch, or -1
  Flat<Bend> bends;            ///< every lag that a stretch takes part in
  Flat<Flat<int>> bends_of;    ///< half -> bends to follow when it moves
  Flat<Job> jobs;              ///< resource by resource
  Flat<Flat<int>> changeover;  ///< resource -> kind * kinds + kind -> time
  Flat<int> kinds;             ///< of each resource
  Flat<Sum> sums;
  Flat<Flat<Piece>> cliques;  ///< of each, no two pieces go on at once

  /// When a task ends that starts at `start` (its own, not that of its group), and the least such
  /// start that ends at `end` or later.
  [[nodiscard]] int end_of(const Task& task, int start) const {
    return task.stretch < 0 ? start + task.duration : stretches[task.stretch].end(start);
  }
  [[nodiscard]] int reach(const Task& task, int end) const {
    return task.stretch < 0 ? end - task.duration : stretches[task.stretch].reach(end);
  }

  /// The bound of a half before anything was propagated.
  [[nodiscard]] int first_bound(int half) const {
    return (half & 1) == 0 ? low[half >> 1] : -high[half >> 1];
  }

  /// The least value of the later start of a bend, given one of the earlier start.
  [[nodiscard]] int forward(const Bend& bend, int value) const;
  /// The greatest value of the earlier start of a bend, given one of the later start.
  [[nodiscard]] int backward(const Bend& bend, int value) const;
};

struct Built {
  Model model;
  bool is_possible = true;      ///< false: the lags or a single demand allow nothing
  std::vector<int> cycle;       ///< the activities of the lags that close on themselves
  std::vector<int> cycle_lags;  ///< those lags; a limit of the horizon is left out
  int excess = 0;               ///< by how much
};

/// Longest paths, rigid groups, compressed rows. The problem must fit.
[[nodiscard]] Built build(const Problem& problem);

/// Adds to a model what calendars ask for: stretches, gates and bends.
void lay_calendars(const Problem& problem, Model& model);

/// Adds to a model what is held of the resources; false when a demand can never be met.
[[nodiscard]] bool lay_tasks(const Problem& problem, Model& model);

}  // namespace dampline::scheduling
