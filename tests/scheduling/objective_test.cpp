#include <algorithm>
#include <stdexcept>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <dampline/scheduling/check.hpp>
#include <dampline/scheduling/objective.hpp>

#include "scheduling/support.hpp"

namespace dampline::scheduling {
namespace {

using testing::ElementsAre;
using testing::IsEmpty;

// Two sheets soak 10 and are pulled 12 to 20 after they went in, one pull of 3 at a time.
Problem two_sheets() {
  Problem problem;
  const int press = add_resource(problem, "press", 1);
  problem.source = add_activity(problem, "source", 0);
  for (int i = 0; i < 2; ++i) {
    const int soak = add_activity(problem, "soak", 10);
    const int pull = add_activity(problem, "pull", 3, {{press, 1}});
    at_least(problem, soak, pull, 12);
    at_most(problem, soak, pull, 20);
  }
  problem.sink = add_activity(problem, "sink", 0);
  after_end(problem, 2, problem.sink);
  after_end(problem, 4, problem.sink);
  problem.horizon = 60;
  return problem;
}

std::vector<Window> windows() { return {{1, 2, 12, 20}, {3, 4, 12, 20}}; }

TEST(Objective, firstTheFinishThenTheMargin) {
  const auto problem = two_sheets();
  const auto solution =
      solve_in_order(problem, {earliest_finish(), most_margin("margin", windows())});
  EXPECT_EQ(solution.result.status, Status::optimal);
  ASSERT_EQ(solution.reached.size(), 2U);
  EXPECT_EQ(solution.reached[0].value, 18);  // 12 + 3 + 3
  EXPECT_EQ(solution.reached[1].value, 0);   // the first pull has no time to spare
  EXPECT_TRUE(solution.reached[1].is_proved);
  EXPECT_THAT(check(problem, solution.result.starts), IsEmpty());
}

TEST(Objective, aToleranceOnTheFinishBuysMargin) {
  const auto problem = two_sheets();
  for (const int tolerance : {0, 1, 2, 3, 4, 5}) {
    const auto solution =
        solve_in_order(problem, {earliest_finish(tolerance), most_margin("margin", windows())});
    // Each minute of finish is one of margin, until the windows are at their middle.
    EXPECT_EQ(solution.reached[1].value, std::min(tolerance, 4)) << tolerance;
    EXPECT_LE(solution.reached[0].value, 18 + tolerance);
    EXPECT_EQ(solution.reached[0].bound, 18);
  }
}

TEST(Objective, marginFirstThenFinishThenWaiting) {
  const auto problem = two_sheets();
  const std::vector<Objective> order{most_margin("margin", windows(), 1), earliest_finish(),
                                     least_waiting("wet", {{1, 2}, {3, 4}})};
  const auto solution = solve_in_order(problem, order);
  ASSERT_EQ(solution.reached.size(), 3U);
  EXPECT_EQ(solution.reached[0].bound, 4);
  EXPECT_EQ(solution.reached[0].value, 3);
  EXPECT_EQ(solution.reached[1].value, 21);
  EXPECT_EQ(solution.reached[2].value, 30);  // 15 each, the least the margin allows
  for (const auto& reached : solution.reached) EXPECT_TRUE(reached.is_proved);
}

TEST(Objective, aMarginThatCannotBeIsInfeasible) {
  auto problem = two_sheets();
  const auto solution =
      solve_in_order(problem, {earliest_finish(), most_margin("narrow", {{1, 2, 21, 30}})});
  EXPECT_EQ(solution.result.status, Status::infeasible);
  EXPECT_THAT(solution.reached, IsEmpty());
  EXPECT_THAT(solution.result.starts, IsEmpty());
}

TEST(Objective, refusesWhatItDoesNotKnow) {
  EXPECT_THROW((void)solve_in_order(two_sheets(), {least_sum("early", {{17, 1}})}),
               std::invalid_argument);
  EXPECT_THROW((void)solve_in_order(two_sheets(), {least_sum("early", {{1, 1 << 30}})}),
               std::invalid_argument);
}

TEST(Objective, progressSaysWhichOneIsAtHand) {
  std::vector<int> seen;
  Options options;
  options.progress = [&](const Progress& progress) {
    if (seen.empty() || seen.back() != progress.objective) seen.push_back(progress.objective);
    return true;
  };
  (void)solve_in_order(two_sheets(), {earliest_finish(4), most_margin("margin", windows())},
                       options);
  EXPECT_THAT(seen, ElementsAre(0, 1));
}

std::vector<Objective> random_objectives(const Problem& problem, std::mt19937& random) {
  const auto any = [&](int low, int high) {
    return low + static_cast<int>(random() % static_cast<unsigned>(high - low + 1));
  };
  const int n = static_cast<int>(problem.activities.size());
  std::vector<Term> terms;
  for (int i = 1; i < n; ++i) {
    if (const int weight = any(-2, 3); weight != 0) terms.push_back({i, weight});
  }
  std::vector<Window> ranges;
  for (int k = any(1, 3); k > 0; --k) {
    const int least = any(-6, 0);
    ranges.push_back({any(1, n - 1), any(1, n - 1), least, least + any(4, 14)});
  }
  std::vector<Objective> order{earliest_finish(any(0, 2)), least_sum("sum", terms, any(0, 3)),
                               most_margin("margin", ranges, any(0, 1))};
  std::shuffle(order.begin(), order.end(), random);
  return order;
}

bool keeps(const Objective& objective, const std::vector<int>& starts) {
  return std::all_of(objective.windows.begin(), objective.windows.end(), [&](const Window& w) {
    const int distance =
        starts[static_cast<std::size_t>(w.to)] - starts[static_cast<std::size_t>(w.from)];
    return w.least <= distance && distance <= w.most;
  });
}

// The oracle lists all schedules and sieves them, one objective after the other.
TEST(Objective, agreesWithEnumeration) {
  std::mt19937 random(31);
  int solved = 0;
  for (int round = 0; round < 900; ++round) {
    auto problem = tests::random_problem(random, 3, 5);
    if (round % 2 == 0) tests::add_calendars(problem, random);
    if (round % 4 == 0) tests::add_changeovers(problem, random);
    problem.horizon = std::min(problem.horizon, 12);
    const auto order = random_objectives(problem, random);
    std::vector<std::vector<int>> left;
    tests::enumerate(problem, [&](const std::vector<int>& starts) { left.push_back(starts); });
    const auto solution = solve_in_order(problem, order, {.prove_clauses = true});
    SCOPED_TRACE(round);
    EXPECT_EQ(solution.result.unproved_clauses, 0);
    std::vector<long long> best;
    for (const auto& objective : order) {
      std::erase_if(left, [&](const auto& starts) { return !keeps(objective, starts); });
      if (left.empty()) break;
      const int sign = objective.kind == Objective::Kind::margin ? -1 : 1;
      const auto cost = [&](const auto& starts) {
        return sign * value_of(problem, objective, starts);
      };
      long long least = cost(left.front());
      for (const auto& starts : left) least = std::min(least, cost(starts));
      best.push_back(sign * least);
      std::erase_if(left,
                    [&](const auto& starts) { return cost(starts) > least + objective.tolerance; });
    }
    if (left.empty()) {
      EXPECT_EQ(solution.result.status, Status::infeasible);
      continue;
    }
    ++solved;
    ASSERT_EQ(solution.result.status, Status::optimal);
    for (std::size_t k = 0; k < order.size(); ++k) {
      EXPECT_EQ(solution.reached[k].bound, best[k]) << order[k].name;
      EXPECT_TRUE(solution.reached[k].is_proved);
    }
    EXPECT_EQ(solution.reached.back().value, best.back());
    EXPECT_THAT(check(problem, solution.result.starts), IsEmpty());
    EXPECT_THAT(left, testing::Contains(solution.result.starts));
  }
  EXPECT_GT(solved, 100);
}

TEST(Objective, sameSeedSamePlan) {
  const auto problem = tests::published("12x1b4.sch");
  std::vector<Term> late;
  for (int i = 1; i < problem.sink; ++i) late.push_back({i, -1});
  const std::vector<Objective> order{earliest_finish(), least_sum("late", late)};
  const auto first = solve_in_order(problem, order, {.conflicts = 6000});
  const auto second = solve_in_order(problem, order, {.conflicts = 6000});
  EXPECT_EQ(first.result.starts, second.result.starts);
  EXPECT_EQ(first.result.conflicts, second.result.conflicts);
  EXPECT_EQ(first.reached[0].value, 315);
  EXPECT_THAT(check(problem, first.result.starts), IsEmpty());
}

}  // namespace
}  // namespace dampline::scheduling
