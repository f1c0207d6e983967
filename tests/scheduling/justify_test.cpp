#include <numeric>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <dampline/scheduling/check.hpp>
#include <dampline/scheduling/justify.hpp>

#include "scheduling/support.hpp"

namespace dampline::scheduling {
namespace {

using testing::ElementsAre;
using testing::IsEmpty;

using tests::morning;

TEST(Justify, movesOnlyTheListedOnesAsFarAsTheLagsAllow) {
  const auto problem = morning();
  const std::vector<int> starts{0, 0, 5, 10, 20};
  ASSERT_THAT(check(problem, starts), IsEmpty());
  EXPECT_THAT(justify(problem, starts, {2}, Direction::late), ElementsAre(0, 0, 7, 10, 20));
  EXPECT_THAT(justify(problem, starts, {1, 2}, Direction::late), ElementsAre(0, 0, 7, 10, 20));
  EXPECT_THAT(justify(problem, starts, {4}, Direction::early), ElementsAre(0, 0, 5, 10, 12));
}

TEST(Justify, takesAlongWhatItsLagsPush) {
  const auto problem = morning();
  const std::vector<int> starts{0, 0, 5, 10, 20};
  // The soak may go to 8 only with the pull, and the pull only with the wiping.
  EXPECT_THAT(justify(problem, starts, {1, 2, 3}, Direction::late), ElementsAre(0, 8, 15, 18, 20));
  EXPECT_THAT(justify(problem, {0, 8, 15, 18, 20}, {3, 2, 1}, Direction::early),
              ElementsAre(0, 0, 5, 10, 20));
}

TEST(Justify, priorityDecidesWhoGoesLast) {
  const auto problem = tests::two_on_a_bench();
  EXPECT_THAT(justify(problem, {0, 0, 3, 8}, {1, 2}, Direction::late), ElementsAre(0, 5, 3, 8));
  EXPECT_THAT(justify(problem, {0, 0, 3, 8}, {2, 1}, Direction::late), ElementsAre(0, 3, 6, 8));
}

TEST(Justify, keepsEverySolvedScheduleValidAndMovesOneWay) {
  std::mt19937 random(21);
  int moved = 0;
  for (int round = 0; round < 900; ++round) {
    auto problem = tests::random_problem(random);
    if (round % 3 > 0) tests::add_calendars(problem, random);
    if (round % 3 > 1) tests::add_changeovers(problem, random);
    const auto result = solve(problem);
    if (result.starts.empty()) continue;
    std::vector<int> all(problem.activities.size());
    std::iota(all.begin(), all.end(), 0);
    all.pop_back();
    const auto late = justify(problem, result.starts, all, Direction::late);
    const auto early = justify(problem, late, all, Direction::early);
    EXPECT_THAT(check(problem, late), IsEmpty());
    EXPECT_THAT(check(problem, early), IsEmpty());
    for (std::size_t i = 0; i < late.size(); ++i) {
      EXPECT_GE(late[i], result.starts[i]);
      EXPECT_LE(early[i], late[i]);
      moved += late[i] > result.starts[i] ? 1 : 0;
    }
    EXPECT_EQ(late.back(), result.makespan);
  }
  EXPECT_GT(moved, 300);
}

TEST(Why, followsLagsToTheSource) {
  auto problem = morning();
  at_least(problem, 0, 1, 4);
  EXPECT_THAT(why(problem, {0, 4, 9, 14, 16}, 4), ElementsAre(4, 3, 1, 0));
  EXPECT_THAT(why(problem, {0, 4, 9, 14, 16}, 2), ElementsAre(2, 3, 1, 0));  // a maximum lag
}

TEST(Why, followsHandOvers) {
  auto problem = tests::two_on_a_bench();
  at_least(problem, 0, 1, 1);
  const auto held = holds(problem, {0, 1, 4, 6}, 2);
  ASSERT_EQ(held.size(), 1U);
  EXPECT_EQ(held[0].activity, 1);
  EXPECT_EQ(held[0].resource, 0);
  EXPECT_THAT(why(problem, {0, 1, 4, 6}, 3), ElementsAre(3, 2, 1, 0));
}

TEST(Why, namesPausesAndChangeovers) {
  auto problem = tests::two_on_a_bench();
  problem.horizon = 20;
  set_capacity(problem, 0, 2, 4, 0);
  set_changeover(problem, 0, 0, 1, 2);
  problem.activities[1].uses[0].kind = 1;
  const std::vector<int> starts{0, 8, 4, 11};  // short 4-6, washed, long 8-11
  ASSERT_THAT(check(problem, starts), IsEmpty());
  const auto after_wash = holds(problem, starts, 1);
  ASSERT_EQ(after_wash.size(), 1U);
  EXPECT_EQ(after_wash[0].activity, 2);
  EXPECT_EQ(after_wash[0].lag, 2);
  const auto after_pause = holds(problem, starts, 2);
  ASSERT_EQ(after_pause.size(), 1U);
  EXPECT_TRUE(after_pause[0].is_pause);
  EXPECT_EQ(after_pause[0].activity, problem.source);
  EXPECT_THAT(why(problem, starts, 3), ElementsAre(3, 1, 2, 0));
}

TEST(Why, endsWhereNothingHolds) {
  const auto problem = tests::two_on_a_bench();
  EXPECT_THAT(why(problem, {0, 1, 4, 6}, 3), ElementsAre(3, 2, 1));
  EXPECT_THAT(holds(problem, {0, 1, 4, 6}, 1), IsEmpty());
  EXPECT_THAT(why(problem, {0, 1, 4, 6}, 0), ElementsAre(0));
}

// Each step of a chain is a tight lag or a tight hand-over of the schedule.
TEST(Why, everyStepIsTight) {
  const auto problem = tests::published("20x2.sch");
  const auto result = solve(problem, {.conflicts = 500});
  ASSERT_FALSE(result.starts.empty());
  for (int a = 0; a < static_cast<int>(result.starts.size()); a += 7) {
    const auto chain = why(problem, result.starts, a);
    ASSERT_EQ(chain.front(), a);
    for (std::size_t i = 1; i < chain.size(); ++i) {
      const auto held = static_cast<std::size_t>(chain[i - 1]);
      const auto by = static_cast<std::size_t>(chain[i]);
      bool is_tight = result.starts[by] + problem.activities[by].duration == result.starts[held];
      for (const auto& lag : problem.lags) {
        is_tight = is_tight || (lag.from == chain[i] && lag.to == chain[i - 1] &&
                                result.starts[held] - result.starts[by] == lag.least);
      }
      EXPECT_TRUE(is_tight) << held << " by " << by;
    }
  }
}

}  // namespace
}  // namespace dampline::scheduling
