#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace dampline::scheduling {

/// How much of a resource an activity holds from its start to its end.
struct Use {
  int resource = 0;
  int amount = 0;
  int kind = 0;  ///< of work, where the resource has changeover times
};

/// One piece of work. `duration` counts working time.
///
/// An instant at which some resource it uses has, by its calendar, less capacity than the activity
/// holds, is a pause for it. Work that may not pause keeps clear of pauses altogether. Work that
/// may pause begins at a working instant, stands still in pauses and ends after `duration` working
/// instants; until then it keeps every resource, except each in that resource's own pauses.
struct Activity {
  std::string name;
  int duration = 0;
  std::vector<Use> uses;
  bool may_pause = false;
};

/// start[to] >= start[from] + least, on the clock, pauses and all. A negative `least` is a maximum
/// lag the other way round: start[from] <= start[to] - least. `from_end` and `to_end` put the end
/// of the activity, as its calendar has it, in the place of its start.
struct Lag {
  int from = 0;
  int to = 0;
  int least = 0;
  bool from_end = false;
  bool to_end = false;
};

/// From this instant on a resource has this capacity.
struct Step {
  int from = 0;
  int capacity = 0;
};

/// Something of which `capacity` units can be held at once, and which comes back after use.
struct Resource {
  std::string name;
  int capacity = 0;  ///< until the first step of the calendar
  /// Opening hours, breaks, a second pair of hands for the afternoon: in order of time.
  std::vector<Step> calendar{};
  /// Row by row, `kinds` by `kinds`: of two activities on this resource, whatever comes between
  /// them, the later one starts no sooner than this after the end of the earlier one. Only where
  /// the capacity is never above 1.
  std::vector<int> changeover{};
  int kinds = 0;
};

/// A resource-constrained scheduling problem with minimum and maximum time lags, calendars and
/// changeover times.
///
/// A schedule gives every activity a start in [0, horizon], with start[source] = 0; its makespan,
/// the quantity to be minimised, is start[sink]. Time is whole units of whatever clock the caller
/// keeps. A break that moves within a span is an activity that holds all of a person.
struct Problem {
  std::vector<Activity> activities;
  std::vector<Lag> lags;
  std::vector<Resource> resources;
  int source = 0;
  int sink = 0;
  int horizon = 0;
};

/// Appends an activity and returns its index.
int add_activity(Problem& problem, std::string name, int duration, std::vector<Use> uses = {});

/// Appends a resource and returns its index.
int add_resource(Problem& problem, std::string name, int capacity);

/// start[b] - start[a] is at least `lag`.
void at_least(Problem& problem, int a, int b, int lag);

/// start[b] - start[a] is at most `lag`.
void at_most(Problem& problem, int a, int b, int lag);

/// b starts at least `lag` after the end of a.
void after_end(Problem& problem, int a, int b, int lag = 0);

/// b starts at most `lag` after the end of a.
void soon_after_end(Problem& problem, int a, int b, int lag);

/// Between `from` and `to` the resource has this capacity; before and after, what it had.
void set_capacity(Problem& problem, int resource, int from, int to, int capacity);

/// Work of kind `then` starts at least `time` after the end of work of kind `first`.
void set_changeover(Problem& problem, int resource, int first, int then, int time);

/// Time after work of kind `first` before work of kind `then` on a resource; 0 without kinds.
[[nodiscard]] int changeover_time(const Resource& resource, int first, int then);

/// What the calendar of a resource gives at an instant.
[[nodiscard]] int capacity_at(const Resource& resource, int instant);

/// The latest start any schedule of least makespan can need: each activity waits, at most, for the
/// longest thing any other one causes. [neumann2003] section 1.4 gives the bound; calendars add
/// the time until their last step.
[[nodiscard]] int safe_horizon(const Problem& problem);

/// What makes a problem meaningless (an index out of range, a negative duration, amount, capacity
/// or horizon, numbers whose sums would not fit the clock); empty when there is nothing.
[[nodiscard]] std::string misfit(const Problem& problem);

}  // namespace dampline::scheduling
