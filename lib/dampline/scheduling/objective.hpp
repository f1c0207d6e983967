#pragma once

#include <string>
#include <vector>

#include <dampline/scheduling/problem.hpp>
#include <dampline/scheduling/solve.hpp>

namespace dampline::scheduling {

/// weight * start[activity]
struct Term {
  int activity = 0;
  int weight = 1;
};

/// least <= start[to] - start[from] <= most
struct Window {
  int from = 0;
  int to = 0;
  int least = 0;
  int most = 0;
};

/// weight * (start[to] - start[from])
struct Wait {
  int from = 0;
  int to = 0;
  int weight = 1;
};

/// One thing to be made as small, or for a margin as large, as it can be.
struct Objective {
  enum class Kind { finish, sum, margin };
  std::string name;
  Kind kind = Kind::finish;
  std::vector<Term> terms;      ///< of a sum
  std::vector<Window> windows;  ///< of a margin; they hold in every schedule from then on
  int tolerance = 0;            ///< later objectives may spoil this one by so much
};

/// The makespan.
[[nodiscard]] Objective earliest_finish(int tolerance = 0);

/// A weighted sum of starts: small is early; negative weights ask for late.
[[nodiscard]] Objective least_sum(std::string name, std::vector<Term> terms, int tolerance = 0);

/// A weighted sum of waiting times.
[[nodiscard]] Objective least_waiting(std::string name, const std::vector<Wait>& waits,
                                      int tolerance = 0);

/// The largest m for which every window also holds as (least + m, most - m).
[[nodiscard]] Objective most_margin(std::string name, std::vector<Window> windows,
                                    int tolerance = 0);

/// What an objective comes to in a schedule.
[[nodiscard]] long long value_of(const Problem& problem, const Objective& objective,
                                 const std::vector<int>& starts);

struct Reached {
  long long value = 0;
  long long bound = 0;  ///< no schedule that keeps the objectives before this one does better
  bool is_proved = false;
};

struct Solution {
  Result result;                 ///< `optimal`: every objective is proved; makespan as ever
  std::vector<Reached> reached;  ///< one an objective; empty when there is no schedule
};

/// Solves for the objectives in their order: each is made as good as it can be among the schedules
/// that keep those before it within their tolerance. What is left of the budget is shared equally
/// by the objectives still to come. Throws std::invalid_argument when the problem does not fit, or
/// a sum would not fit an int.
[[nodiscard]] Solution solve_in_order(const Problem& problem,
                                      const std::vector<Objective>& objectives,
                                      const Options& options = {});

}  // namespace dampline::scheduling
