#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <dampline/scheduling/check.hpp>

#include "scheduling/support.hpp"

namespace dampline::scheduling {
namespace {

using testing::ElementsAre;
using testing::HasSubstr;
using testing::IsEmpty;

TEST(Check, acceptsAValidSchedule) {
  EXPECT_THAT(check(tests::two_on_a_bench(), {0, 0, 3, 5}), IsEmpty());
  EXPECT_THAT(check(tests::two_on_a_bench(), {0, 2, 0, 5}), IsEmpty());
}

TEST(Check, seesAWrongNumberOfStarts) {
  EXPECT_THAT(check(tests::two_on_a_bench(), {0, 0, 3}), ElementsAre(HasSubstr("3 starts for 4")));
}

TEST(Check, seesAStartOutsideTheHorizon) {
  EXPECT_THAT(check(tests::two_on_a_bench(), {0, 0, 3, 11}),
              ElementsAre(HasSubstr("sink starts at 11")));
  EXPECT_THAT(check(tests::two_on_a_bench(), {0, -1, 3, 5}),
              ElementsAre(HasSubstr("long starts at -1")));
}

TEST(Check, seesAMovedSource) {
  EXPECT_THAT(check(tests::two_on_a_bench(), {1, 1, 4, 6}),
              ElementsAre(HasSubstr("the source starts at 1")));
}

TEST(Check, seesALagTooShortAndOneTooLong) {
  auto problem = tests::two_on_a_bench();
  EXPECT_THAT(check(problem, {0, 0, 3, 4}),
              ElementsAre(HasSubstr("sink starts 1 after short, least allowed 2")));
  at_most(problem, 1, 2, 4);
  EXPECT_THAT(check(problem, {0, 0, 5, 8}),
              ElementsAre(HasSubstr("long starts -5 after short, least allowed -4")));
}

TEST(Check, seesAResourceHeldTwice) {
  EXPECT_THAT(check(tests::two_on_a_bench(), {0, 0, 2, 5}),
              ElementsAre(HasSubstr("bench is held 2 times at 2, capacity 1")));
}

TEST(Check, seesEachViolationAtOnce) {
  EXPECT_EQ(check(tests::two_on_a_bench(), {1, 1, 2, 3}).size(), 4U);
}

}  // namespace
}  // namespace dampline::scheduling
