#pragma once

#include <map>
#include <vector>

#include <gtest/gtest.h>

#include <dampline/planner/draft.hpp>
#include <dampline/planner/lay_out.hpp>
#include <dampline/scheduling/check.hpp>
#include <dampline/scheduling/solve.hpp>

#include "planner/hand_made.hpp"

/// A day made by hand, scheduled and laid out.
namespace dampline::tests {

using namespace dampline::planner;

struct Day {
  Draft draft;
  std::vector<int> starts;
  std::vector<Step> steps;
};

inline Day planned(const session::Session& s, const Treatment& t, const Extent& extent) {
  Day day;
  day.draft = draft(s, craft(), t, extent);
  scheduling::Options options;
  options.deadline = day_length(s).count();
  const auto result = scheduling::solve(day.draft.problem, options);
  EXPECT_FALSE(result.starts.empty());
  if (result.starts.empty()) return day;
  EXPECT_TRUE(scheduling::check(day.draft.problem, result.starts).empty());
  day.starts = result.starts;
  day.steps = lay_out(day.draft, craft(), day.starts);
  return day;
}

inline Extent extent(int proofs, int prints, int batches) { return {proofs, prints, batches}; }

// From the steps alone: at no half minute is more of a resource in use than there is. A resource
// that is only counted at the end of the day (drying places) is left out.
inline void expect_nothing_double_booked(const Day& day) {
  for (std::size_t r = 0; r < day.draft.resources.size(); ++r) {
    if (day.draft.resources[r].kind == ResourceKind::drying) continue;
    std::map<int, int> change;
    for (const auto& step : day.steps) {
      for (const auto& use : step.uses) {
        if (use.resource != static_cast<int>(r)) continue;
        change[step.start.count()] += use.amount;
        change[step.end.count()] -= use.amount;
      }
    }
    int used = 0;
    for (const auto& [at, by] : change) {
      used += by;
      EXPECT_LE(used, day.draft.resources[r].capacity)
          << day.draft.resources[r].name << " at " << at;
    }
  }
}

}  // namespace dampline::tests
