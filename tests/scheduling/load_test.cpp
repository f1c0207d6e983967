#include <gtest/gtest.h>

#include <dampline/scheduling/load.hpp>
#include <dampline/scheduling/solve.hpp>

#include "scheduling/support.hpp"

namespace dampline::scheduling {
namespace {

TEST(Overloaded, neverSaysSoWhereThereIsASchedule) {
  std::mt19937 random(17);
  int said = 0;
  int refuted = 0;
  for (int round = 0; round < 2000; ++round) {
    auto problem = tests::random_problem(random);
    if (round % 3 > 0) tests::add_calendars(problem, random);
    if (round % 3 > 1) tests::add_changeovers(problem, random);
    problem.horizon = std::max(1, problem.horizon * (1 + round % 4) / 5);
    const bool is_possible = !solve(problem).starts.empty();
    const bool is_overloaded = overloaded(problem) >= 0;
    EXPECT_FALSE(is_possible && is_overloaded) << round;
    said += is_overloaded ? 1 : 0;
    refuted += is_possible ? 0 : 1;
  }
  EXPECT_GT(said, 50);
  EXPECT_GT(refuted, said);
}

// Three jobs of 10 by one pair of hands, the first no sooner than 5, the last done 4 before the
// end: 30 fit between 5 and 36, 31 not.
TEST(Overloaded, countsWhatComesBeforeAndAfter) {
  Problem problem;
  add_resource(problem, "hands", 1);
  problem.source = add_activity(problem, "source", 0);
  for (int i = 0; i < 3; ++i) add_activity(problem, "job", 10, {{0, 1}});
  problem.sink = add_activity(problem, "sink", 0);
  for (int i = 1; i <= 3; ++i) {
    at_least(problem, 0, i, 5);
    at_least(problem, i, 4, 14);
  }
  problem.horizon = 39;
  EXPECT_LT(overloaded(problem), 0);
  problem.horizon = 38;
  EXPECT_EQ(overloaded(problem), 0);
  problem.horizon = 39;
  set_capacity(problem, 0, 20, 21, 0);
  EXPECT_EQ(overloaded(problem), 0);
}

}  // namespace
}  // namespace dampline::scheduling
