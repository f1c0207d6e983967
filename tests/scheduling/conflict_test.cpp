#include <stdexcept>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <dampline/scheduling/conflict.hpp>

#include "scheduling/support.hpp"

namespace dampline::scheduling {
namespace {

using testing::ElementsAre;
using testing::IsEmpty;
using testing::UnorderedElementsAre;

// Four sheets share a tub of two for 10 each; all must be out by 15, and a fifth thing may go
// wrong.
struct Morning {
  Problem problem;
  std::vector<Demand> demands;
};

Morning morning() {
  Morning m;
  auto& p = m.problem;
  const int tub = add_resource(p, "tub", 2);
  const int hands = add_resource(p, "hands", 1);
  set_capacity(p, hands, 4, 6, 0);
  p.source = add_activity(p, "source", 0);
  for (int i = 0; i < 4; ++i) add_activity(p, "soak", 10, {{tub, 1}});
  const int ink = add_activity(p, "ink", 3, {{hands, 1}});
  p.sink = add_activity(p, "sink", 0);
  for (int i = 1; i <= 5; ++i) after_end(p, i, p.sink);
  p.horizon = 100;
  m.demands.push_back({.label = "tub holds 2", .resources = {tub}});
  m.demands.push_back({.label = "break at 4", .calendars = {hands}});
  at_most(p, p.source, p.sink, 15);
  m.demands.push_back({.label = "done by 15", .lags = {static_cast<int>(p.lags.size()) - 1}});
  at_least(p, p.source, ink, 3);
  m.demands.push_back({.label = "ink after 3", .lags = {static_cast<int>(p.lags.size()) - 1}});
  return m;
}

TEST(Conflict, namesTheTubAndTheDeadline) {
  const auto m = morning();
  const auto conflict = find_conflict(m.problem, m.demands);
  EXPECT_EQ(conflict.status, Status::infeasible);
  EXPECT_TRUE(conflict.is_minimal);
  EXPECT_THAT(conflict.demands, ElementsAre(0, 2));
  EXPECT_THAT(conflict.cycle, IsEmpty());
}

TEST(Conflict, namesACalendar) {
  auto m = morning();
  m.problem.resources[0].capacity = 4;
  m.problem.lags[5].least = -8;  // done by 8, but soaking takes 10
  m.problem.activities[1].duration = m.problem.activities[2].duration = 2;
  m.problem.activities[3].duration = m.problem.activities[4].duration = 2;
  const auto conflict = find_conflict(m.problem, m.demands);
  EXPECT_TRUE(conflict.is_minimal);
  EXPECT_THAT(conflict.demands, ElementsAre(1, 2, 3));
}

TEST(Conflict, givesTheExactCycleOfLags) {
  auto m = morning();
  auto& p = m.problem;
  const int first = static_cast<int>(p.lags.size());
  at_least(p, 1, 2, 5);
  at_most(p, 1, 2, 9);
  at_least(p, 2, 3, 6);
  at_most(p, 1, 3, 8);
  m.demands.push_back({.label = "window of sheet 2", .lags = {first, first + 1}});
  m.demands.push_back({.label = "window of sheet 3", .lags = {first + 2}});
  m.demands.push_back({.label = "open time", .lags = {first + 3}});
  const auto conflict = find_conflict(p, m.demands);
  EXPECT_TRUE(conflict.is_minimal);
  EXPECT_THAT(conflict.demands, ElementsAre(4, 5, 6));
  EXPECT_THAT(conflict.cycle, UnorderedElementsAre(first, first + 2, first + 3));
  EXPECT_EQ(conflict.excess, 3);  // 5 + 6 against 8
  EXPECT_EQ(conflict.conflicts, 0);
}

TEST(Conflict, theFinishMayBeToBlame) {
  auto m = morning();
  m.demands[2].lags.clear();
  m.demands[2].finish = true;
  m.problem.lags.erase(m.problem.lags.begin() + 5);
  m.demands[3].lags = {5};
  EXPECT_EQ(find_conflict(m.problem, m.demands).status, Status::feasible);
  EXPECT_THAT(find_conflict(m.problem, m.demands, {.deadline = 15}).demands, ElementsAre(0, 2));
}

TEST(Conflict, saysWhenItCouldNotProveTheLeast) {
  const auto problem = tests::published("j30_psp213.sch");  // infeasible, not by lags alone
  std::vector<Demand> demands;
  for (int r = 0; r < static_cast<int>(problem.resources.size()); ++r) {
    demands.push_back(
        {.label = problem.resources[static_cast<std::size_t>(r)].name, .resources = {r}});
  }
  const auto all = find_conflict(problem, demands);
  EXPECT_EQ(all.status, Status::infeasible);
  EXPECT_TRUE(all.is_minimal);
  EXPECT_FALSE(all.demands.empty());
  const auto none = find_conflict(problem, demands, {.conflicts = 1});
  EXPECT_FALSE(none.is_minimal);
}

TEST(Conflict, refusesADemandForWhatDoesNotExist) {
  auto m = morning();
  m.demands[0].resources = {9};
  EXPECT_THROW((void)find_conflict(m.problem, m.demands), std::invalid_argument);
}

// The oracle enumerates: the set has no schedule, and without any one of its demands there is one.
TEST(Conflict, isMinimalByEnumeration) {
  std::mt19937 random(41);
  int seen = 0;
  for (int round = 0; round < 400; ++round) {
    auto problem = tests::random_problem(random, 3, 5);
    if (round % 2 == 0) tests::add_calendars(problem, random);
    if (round % 3 == 0) tests::add_changeovers(problem, random);
    problem.horizon = std::min(problem.horizon, 10);
    std::vector<Demand> demands;
    for (int r = 0; r < static_cast<int>(problem.resources.size()); ++r) {
      demands.push_back({.label = "capacity", .resources = {r}});
      demands.push_back({.label = "calendar", .calendars = {r}});
      demands.push_back({.label = "changeovers", .changeovers = {r}});
    }
    for (int i = 0; i + 1 < static_cast<int>(problem.lags.size()); i += 2) {
      demands.push_back({.label = "lags", .lags = {i, i + 1}});
    }
    const auto conflict = find_conflict(problem, demands);
    SCOPED_TRACE(round);
    EXPECT_EQ(conflict.status == Status::feasible, tests::enumerate(problem).has_value());
    if (conflict.status != Status::infeasible) continue;
    ++seen;
    EXPECT_TRUE(conflict.is_minimal);
    std::vector<bool> keeps(demands.size(), false);
    for (const int d : conflict.demands) keeps[static_cast<std::size_t>(d)] = true;
    EXPECT_FALSE(tests::enumerate(relaxed(problem, demands, keeps)));
    for (const int d : conflict.demands) {
      keeps[static_cast<std::size_t>(d)] = false;
      EXPECT_TRUE(tests::enumerate(relaxed(problem, demands, keeps)));
      keeps[static_cast<std::size_t>(d)] = true;
    }
  }
  EXPECT_GT(seen, 50);
}

}  // namespace
}  // namespace dampline::scheduling
