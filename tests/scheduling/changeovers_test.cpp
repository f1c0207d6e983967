#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <dampline/scheduling/check.hpp>
#include <dampline/scheduling/solve.hpp>

#include "scheduling/support.hpp"

namespace dampline::scheduling {
namespace {

using testing::ElementsAre;
using testing::HasSubstr;
using testing::IsEmpty;

constexpr int inky = 0;
constexpr int clean = 1;

// Two wipings and two layings of paper by one pair of hands; washing takes 3, getting inky none.
Problem hands_to_wash() {
  Problem problem;
  const int hands = add_resource(problem, "hands", 1);
  set_changeover(problem, hands, inky, clean, 3);
  problem.source = add_activity(problem, "source", 0);
  for (const auto* name : {"wipe 1", "lay 1", "wipe 2", "lay 2"}) {
    const bool is_inky = name[0] == 'w';
    add_activity(problem, name, is_inky ? 4 : 1, {{hands, 1, is_inky ? inky : clean}});
  }
  problem.sink = add_activity(problem, "sink", 0);
  for (int i = 1; i <= 4; ++i) after_end(problem, i, problem.sink);
  problem.horizon = 60;
  return problem;
}

TEST(Changeovers, cleanWorkFirstNeedsNoWash) {
  const auto problem = hands_to_wash();
  const auto result = solve(problem);
  EXPECT_EQ(result.status, Status::optimal);
  EXPECT_EQ(result.makespan, 10);
  EXPECT_THAT(check(problem, result.starts), IsEmpty());
}

TEST(Changeovers, oneWashIsBetterThanTwo) {
  auto problem = hands_to_wash();
  after_end(problem, 1, 2);
  after_end(problem, 3, 4);
  const auto result = solve(problem);
  EXPECT_EQ(result.makespan, 13);  // both wiped, washed once, both laid
  // Laid within 4 of the wiping's end there is a wash for each.
  soon_after_end(problem, 1, 2, 4);
  soon_after_end(problem, 3, 4, 4);
  const auto twice = solve(problem);
  EXPECT_EQ(twice.status, Status::optimal);
  EXPECT_EQ(twice.makespan, 16);
  EXPECT_THAT(check(problem, twice.starts), IsEmpty());
}

TEST(Changeovers, holdBetweenPartsOfOneRigidBlock) {
  auto problem = hands_to_wash();
  at_least(problem, 1, 2, 6);
  at_most(problem, 1, 2, 6);  // 2 after the end of the wiping: no time to wash
  EXPECT_EQ(solve(problem).status, Status::infeasible);
}

TEST(Changeovers, checkSeesAMissingWash) {
  const auto problem = hands_to_wash();
  EXPECT_THAT(check(problem, {0, 0, 7, 8, 15, 16}), IsEmpty());
  EXPECT_THAT(check(problem, {0, 0, 6, 8, 15, 16}),
              ElementsAre(HasSubstr("hands has no time to change between wipe 1 and lay 1")));
}

TEST(Changeovers, refusesWhatMakesNoSense) {
  auto problem = hands_to_wash();
  problem.activities[1].uses[0].kind = 2;
  EXPECT_THAT(misfit(problem), HasSubstr("of a kind that hands does not know"));
  problem = hands_to_wash();
  problem.resources[0].capacity = 2;
  EXPECT_THAT(misfit(problem), HasSubstr("capacity above 1"));
  problem = hands_to_wash();
  problem.resources[0].changeover.pop_back();
  EXPECT_THAT(misfit(problem), HasSubstr("changeover times of hands"));
}

TEST(Changeovers, aLargeMatrixGrowsFromASmallOne) {
  Problem problem;
  const int r = add_resource(problem, "hands", 1);
  set_changeover(problem, r, 0, 1, 3);
  set_changeover(problem, r, 2, 0, 5);
  EXPECT_THAT(problem.resources[0].changeover, ElementsAre(0, 3, 0, 0, 0, 0, 5, 0, 0));
}

}  // namespace
}  // namespace dampline::scheduling
