#include <stdexcept>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <dampline/scheduling/check.hpp>
#include <dampline/scheduling/solve.hpp>

#include "scheduling/support.hpp"

namespace dampline::scheduling {
namespace {

using testing::IsEmpty;
using testing::UnorderedElementsAre;

TEST(Solve, findsTheLeastMakespanOfTwoOnABench) {
  const auto result = solve(tests::two_on_a_bench());
  EXPECT_EQ(result.status, Status::optimal);
  EXPECT_EQ(result.makespan, 5);
  EXPECT_EQ(result.bound, 5);
  EXPECT_THAT(check(tests::two_on_a_bench(), result.starts), IsEmpty());
}

// The oracle enumerates all starts from the definition and shares nothing with the solver.
TEST(Solve, agreesWithEnumerationOnSmallRandomProjects) {
  std::mt19937 random(20260301);
  int infeasible = 0;
  long long conflicts = 0;
  for (int round = 0; round < 4000; ++round) {
    const auto problem = tests::random_problem(random);
    const auto least = tests::enumerate(problem);
    const auto result = solve(problem, {.seed = static_cast<unsigned>(round)});
    conflicts += result.conflicts;
    SCOPED_TRACE(round);
    if (!least) {
      ++infeasible;
      EXPECT_EQ(result.status, Status::infeasible);
      EXPECT_THAT(result.starts, IsEmpty());
      continue;
    }
    EXPECT_EQ(result.status, Status::optimal);
    EXPECT_EQ(result.makespan, *least);
    EXPECT_EQ(result.bound, *least);
    EXPECT_THAT(check(problem, result.starts), IsEmpty());
  }
  EXPECT_GT(infeasible, 500);
  EXPECT_LT(infeasible, 3500);
  EXPECT_GT(conflicts, 1000);  // or nothing was learnt and little was tested
}

TEST(Solve, keepsADeadline) {
  auto options = Options{.deadline = 5};
  EXPECT_EQ(solve(tests::two_on_a_bench(), options).status, Status::optimal);
  options.deadline = 4;
  const auto result = solve(tests::two_on_a_bench(), options);
  EXPECT_EQ(result.status, Status::infeasible);
  EXPECT_THAT(result.starts, IsEmpty());
  EXPECT_THAT(result.conflict_activities, IsEmpty());  // it is the bench, not the lags
}

TEST(Solve, namesTheLagsThatCloseOnThemselves) {
  auto problem = tests::two_on_a_bench();
  add_activity(problem, "third", 1);
  at_least(problem, 1, 2, 4);
  at_least(problem, 2, 4, 3);
  at_most(problem, 1, 4, 6);
  const auto result = solve(problem);
  EXPECT_EQ(result.status, Status::infeasible);
  EXPECT_THAT(result.conflict_activities, UnorderedElementsAre(1, 2, 4));
}

TEST(Solve, namesTheLagsThatPassTheDeadline) {
  auto problem = tests::two_on_a_bench();
  at_least(problem, 1, 2, 6);
  const auto result = solve(problem, {.deadline = 7});
  EXPECT_EQ(result.status, Status::infeasible);
  EXPECT_THAT(result.conflict_activities, UnorderedElementsAre(problem.source, 1, 2, problem.sink));
}

TEST(Solve, aDemandAboveCapacityIsInfeasible) {
  auto problem = tests::two_on_a_bench();
  problem.activities[1].uses[0].amount = 2;
  EXPECT_EQ(solve(problem).status, Status::infeasible);
}

TEST(Solve, oneActivityMayHoldAResourceTwice) {
  auto problem = tests::two_on_a_bench();
  problem.resources[0].capacity = 2;
  problem.activities[1].uses.push_back({0, 1});
  const auto result = solve(problem);
  EXPECT_EQ(result.makespan, 5);
  EXPECT_THAT(check(problem, result.starts), IsEmpty());
}

TEST(Solve, aBreakIsAnActivityWithinASpan) {
  auto problem = tests::two_on_a_bench();
  const int pause = add_activity(problem, "break", 4, {{0, 1}});
  at_least(problem, problem.source, pause, 2);
  at_most(problem, problem.source, pause, 2);
  const auto result = solve(problem);
  EXPECT_EQ(result.status, Status::optimal);
  EXPECT_EQ(result.makespan, 9);  // short 0-2, break 2-6, long 6-9
}

TEST(Solve, rigidActivitiesMoveAsOne) {
  auto problem = tests::two_on_a_bench();
  at_least(problem, 1, 2, 5);
  at_most(problem, 1, 2, 5);
  add_activity(problem, "between", 2, {{0, 1}});
  at_least(problem, 4, problem.sink, 2);
  const auto result = solve(problem);
  EXPECT_EQ(result.status, Status::optimal);
  EXPECT_EQ(result.makespan, 7);
  EXPECT_EQ(result.starts[2] - result.starts[1], 5);
  EXPECT_EQ(result.starts[4], 3);
}

TEST(Solve, sameSeedSameResult) {
  const auto problem = tests::published("20x2.sch");
  const Options options{.conflicts = 3000, .seed = 5};
  const auto first = solve(problem, options);
  const auto second = solve(problem, options);
  EXPECT_EQ(first.starts, second.starts);
  EXPECT_EQ(first.bound, second.bound);
  EXPECT_EQ(first.conflicts, second.conflicts);
}

TEST(Solve, anotherSeedSearchesInAnotherWay) {
  const auto problem = tests::published("12x1.sch");
  const auto first = solve(problem, {.seed = 1});
  const auto second = solve(problem, {.seed = 2});
  EXPECT_EQ(first.makespan, second.makespan);
  EXPECT_NE(first.conflicts, second.conflicts);
}

TEST(Solve, aCallerMayCancelAndKeepsTheBestSchedule) {
  const auto problem = tests::published("20x2.sch");
  int schedules = 0;
  Options options;
  options.progress = [&](const Progress& progress) {
    if (progress.makespan >= 0) ++schedules;
    EXPECT_LE(progress.bound, 477);
    return schedules < 2;
  };
  const auto result = solve(problem, options);
  EXPECT_EQ(result.status, Status::feasible);
  EXPECT_EQ(schedules, 2);
  EXPECT_THAT(check(problem, result.starts), IsEmpty());
}

TEST(Solve, aHintIsTheFirstSchedule) {
  const auto problem = tests::published("12x1.sch");
  const auto best = solve(problem);
  ASSERT_EQ(best.status, Status::optimal);
  int first = -1;
  Options options{.conflicts = 0, .hint = best.starts};
  options.progress = [&](const Progress& progress) {
    if (first < 0) first = progress.makespan;
    return true;
  };
  const auto result = solve(problem, options);
  EXPECT_EQ(result.makespan, best.makespan);
  EXPECT_EQ(result.starts, best.starts);
}

TEST(Solve, aWrongHintIsIgnored) {
  const auto result = solve(tests::two_on_a_bench(), {.hint = {0, 0, 0, 0}});
  EXPECT_EQ(result.status, Status::optimal);
  EXPECT_EQ(result.makespan, 5);
}

TEST(Solve, refusesAProblemThatMakesNoSense) {
  auto problem = tests::two_on_a_bench();
  problem.lags.push_back({0, 17, 3});
  EXPECT_THROW((void)solve(problem), std::invalid_argument);
  problem = tests::two_on_a_bench();
  problem.activities[1].duration = -1;
  EXPECT_THROW((void)solve(problem), std::invalid_argument);
}

TEST(Solve, everyLearntClauseIsProvedAgainByPropagation) {
  for (const auto* file : {"12x1.sch", "ubo20_psp2.sch", "j30_psp65.sch", "j60_j609_4.sm"}) {
    const auto result = solve(tests::published(file), {.conflicts = 4000, .prove_clauses = true});
    EXPECT_GT(result.conflicts, 100) << file;
    EXPECT_EQ(result.unproved_clauses, 0) << file;
  }
  std::mt19937 random(3);
  for (int round = 0; round < 300; ++round) {
    const auto result = solve(tests::random_problem(random), {.prove_clauses = true});
    EXPECT_EQ(result.unproved_clauses, 0) << round;
  }
}

}  // namespace
}  // namespace dampline::scheduling
