#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <dampline/scheduling/check.hpp>
#include <dampline/scheduling/clock.hpp>
#include <dampline/scheduling/solve.hpp>

#include "scheduling/support.hpp"

namespace dampline::scheduling {
namespace {

using testing::ElementsAre;
using testing::HasSubstr;
using testing::IsEmpty;

// Wipe 3 and pull 4 by one printer who is away from 5 to 8 and goes home at 14; pull after wipe.
Problem short_day() {
  Problem problem;
  const int printer = add_resource(problem, "printer", 1);
  set_capacity(problem, printer, 5, 8, 0);
  problem.resources[0].calendar.push_back({14, 0});
  problem.source = add_activity(problem, "source", 0);
  const int wipe = add_activity(problem, "wipe", 3, {{printer, 1}});
  const int pull = add_activity(problem, "pull", 4, {{printer, 1}});
  problem.sink = add_activity(problem, "sink", 0);
  after_end(problem, wipe, pull);
  after_end(problem, pull, problem.sink);
  problem.horizon = 40;
  return problem;
}

TEST(Calendar, setCapacityKeepsWhatComesAfter) {
  Problem problem;
  const int r = add_resource(problem, "bench", 3);
  set_capacity(problem, r, 10, 20, 1);
  set_capacity(problem, r, 15, 30, 0);
  const auto& bench = problem.resources[0];
  EXPECT_EQ(capacity_at(bench, 9), 3);
  EXPECT_EQ(capacity_at(bench, 10), 1);
  EXPECT_EQ(capacity_at(bench, 14), 1);
  EXPECT_EQ(capacity_at(bench, 15), 0);
  EXPECT_EQ(capacity_at(bench, 29), 0);
  EXPECT_EQ(capacity_at(bench, 30), 3);
  EXPECT_EQ(misfit(problem), "there are no activities");
}

TEST(Calendar, aStretchEndsAfterTheWorkingInstantsAndTurnsRound) {
  const auto problem = short_day();
  const Working working(problem, problem.activities[2], span_of(problem));
  const Stretch stretch(working, 4);
  EXPECT_EQ(stretch.end(0), 4);
  EXPECT_EQ(stretch.end(2), 9);   // 2 3 4, pause 5 6 7, 8
  EXPECT_EQ(stretch.end(6), 12);  // a start in the pause counts as one at 8
  EXPECT_EQ(stretch.end(10), 14);
  EXPECT_EQ(stretch.end(11), never);
  for (int s = 0; s <= 10; ++s) {
    EXPECT_LE(stretch.reach(stretch.end(s)), s);
    EXPECT_EQ(stretch.end(stretch.reach(stretch.end(s))), stretch.end(s));
  }
  EXPECT_EQ(stretch.reach(13), 9);
  EXPECT_EQ(stretch.reach(10), 3);
}

TEST(Calendar, workThatMayNotPauseWaitsForTheEndOfThePause) {
  const auto problem = short_day();
  const auto result = solve(problem);
  EXPECT_EQ(result.status, Status::optimal);
  EXPECT_THAT(result.starts, ElementsAre(0, testing::Le(2), 8, 12));
  EXPECT_THAT(check(problem, result.starts), IsEmpty());
}

TEST(Calendar, workThatMayPauseGoesOnAfterIt) {
  auto problem = short_day();
  problem.activities[2].may_pause = true;
  const auto result = solve(problem);
  EXPECT_EQ(result.status, Status::optimal);
  EXPECT_THAT(result.starts, ElementsAre(0, 0, 3, 10));
  EXPECT_THAT(check(problem, result.starts), IsEmpty());
}

TEST(Calendar, aPauseMayBeKeptShort) {
  auto problem = short_day();
  problem.activities[2].may_pause = true;
  soon_after_end(problem, 2, 2, -7);  // from start to end 7 at least: the pause lies inside
  EXPECT_EQ(solve(problem).makespan, 10);
  problem = short_day();
  problem.activities[2].may_pause = true;
  problem.lags.push_back({2, 2, -6, true, false});  // 6 at most: no pause inside
  EXPECT_EQ(solve(problem).makespan, 12);
}

TEST(Calendar, whatIsHeldStaysHeldInThePauseOfAnother) {
  auto problem = short_day();
  const int press = add_resource(problem, "press", 1);
  problem.activities[2].may_pause = true;
  problem.activities[2].uses.push_back({press, 1});
  add_activity(problem, "square blankets", 2, {{press, 1}});
  at_least(problem, problem.source, 4, 5);
  at_most(problem, problem.source, 4, 7);
  const auto result = solve(problem);  // the blankets take the pause, so the pull comes after it
  EXPECT_EQ(result.makespan, 12);
  EXPECT_THAT(check(problem, result.starts), IsEmpty());
}

TEST(Calendar, aDayThatIsTooShortIsInfeasible) {
  auto problem = short_day();
  problem.activities[2].duration = 7;
  EXPECT_EQ(solve(problem).status, Status::infeasible);
  problem.activities[2].may_pause = true;  // 2 + 6 are left after wiping
  EXPECT_EQ(solve(problem).makespan, 13);
  problem.activities[2].duration = 9;
  EXPECT_EQ(solve(problem).status, Status::infeasible);
}

TEST(Calendar, checkSeesWhatIsWrong) {
  auto problem = short_day();
  EXPECT_THAT(check(problem, {0, 0, 8, 12}), IsEmpty());
  EXPECT_THAT(check(problem, {0, 3, 8, 12}),
              ElementsAre(HasSubstr("wipe meets a pause at 5"), HasSubstr("held 1 times at 5")));
  problem.activities[2].may_pause = true;
  EXPECT_THAT(check(problem, {0, 0, 3, 10}), IsEmpty());
  EXPECT_THAT(check(problem, {0, 0, 3, 9}),
              ElementsAre(HasSubstr("sink starts -1 after the end of pull, least allowed 0")));
  EXPECT_THAT(check(problem, {0, 0, 5, 12}), ElementsAre(HasSubstr("pull meets a pause at 5")));
  EXPECT_THAT(check(problem, {0, 0, 11, 20}), ElementsAre(HasSubstr("pull never ends")));
  EXPECT_THAT(check(problem, {0, 2, 3, 20}),
              ElementsAre(HasSubstr("pull starts -2 after the end of wipe"),
                          HasSubstr("held 2 times at 3")));
}

TEST(Calendar, refusesCalendarsThatMakeNoSense) {
  auto problem = short_day();
  problem.resources[0].calendar = {{8, 1}, {5, 0}};
  EXPECT_THAT(misfit(problem), HasSubstr("not in order"));
  problem.resources[0].calendar = {{8, -1}};
  EXPECT_THAT(misfit(problem), HasSubstr("out of range"));
}

// The oracle enumerates all starts from the definition and shares nothing with the solver.
void expect_enumerated(bool calendars, bool changeovers, unsigned seed, int rounds) {
  std::mt19937 random(seed);
  int infeasible = 0;
  long long conflicts = 0;
  for (int round = 0; round < rounds; ++round) {
    auto problem = tests::random_problem(random);
    if (calendars) tests::add_calendars(problem, random);
    if (changeovers) tests::add_changeovers(problem, random);
    const auto least = tests::enumerate(problem);
    const auto result = solve(problem, {.prove_clauses = true});
    conflicts += result.conflicts;
    SCOPED_TRACE(round);
    EXPECT_EQ(result.unproved_clauses, 0);
    if (!least) {
      ++infeasible;
      EXPECT_EQ(result.status, Status::infeasible);
      continue;
    }
    EXPECT_EQ(result.status, Status::optimal);
    EXPECT_EQ(result.makespan, *least);
    EXPECT_EQ(result.bound, *least);
    EXPECT_THAT(check(problem, result.starts), IsEmpty());
  }
  EXPECT_GT(infeasible, rounds / 10);
  EXPECT_LT(infeasible, rounds * 9 / 10);
  EXPECT_GT(conflicts, rounds / 10);  // or nothing was learnt and little was tested
}

TEST(Calendar, agreesWithEnumeration) { expect_enumerated(true, false, 11, 2000); }

TEST(Changeovers, agreeWithEnumeration) { expect_enumerated(false, true, 12, 2000); }

TEST(Changeovers, agreeWithEnumerationUnderCalendars) { expect_enumerated(true, true, 13, 2000); }

}  // namespace
}  // namespace dampline::scheduling
