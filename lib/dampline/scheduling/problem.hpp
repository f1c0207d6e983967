#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace dampline::scheduling {

/// How much of a resource an activity holds from its start to its end.
struct Use {
  int resource = 0;
  int amount = 0;
};

/// One piece of work of fixed duration that is not interrupted once begun.
struct Activity {
  std::string name;
  int duration = 0;
  std::vector<Use> uses;
};

/// start[to] >= start[from] + least. A negative `least` is a maximum lag the other way round:
/// start[from] <= start[to] - least.
struct Lag {
  int from = 0;
  int to = 0;
  int least = 0;
};

/// Something of which `capacity` units can be held at once, and which comes back after use.
struct Resource {
  std::string name;
  int capacity = 0;
};

/// A resource-constrained scheduling problem with minimum and maximum time lags.
///
/// A schedule gives every activity a start in [0, horizon], with start[source] = 0; its makespan,
/// the quantity to be minimised, is start[sink]. Time is whole units of whatever clock the caller
/// keeps. A break is an activity that holds all of a person within a span set by two lags.
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

/// The latest start any schedule of least makespan can need: each activity waits, at most, for the
/// longest thing any other one causes. [neumann2003] section 1.4 gives the bound.
[[nodiscard]] int safe_horizon(const Problem& problem);

/// What makes a problem meaningless (an index out of range, a negative duration, amount, capacity
/// or horizon, numbers whose sums would not fit the clock); empty when there is nothing.
[[nodiscard]] std::string misfit(const Problem& problem);

}  // namespace dampline::scheduling
