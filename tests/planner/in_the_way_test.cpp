#include <algorithm>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <dampline/planner/advice.hpp>
#include <dampline/planner/bottleneck.hpp>
#include <dampline/planner/changed_day.hpp>
#include <dampline/planner/clash.hpp>
#include <dampline/planner/demands.hpp>
#include <dampline/planner/lay_out.hpp>
#include <dampline/planner/nearest.hpp>
#include <dampline/scheduling/check.hpp>
#include <dampline/scheduling/solve.hpp>
#include <dampline/session/clock_time.hpp>

#include "planner/hand_made.hpp"

namespace dampline::planner {
namespace {

using scheduling::Status;
using testing::Contains;
using testing::ElementsAre;
using testing::HasSubstr;
using testing::IsEmpty;
using testing::UnorderedElementsAre;

const FitOptions budget{5000, 1};

session::ClockTime clock(int hours, int minutes) {
  return std::chrono::hours(hours) + std::chrono::minutes(minutes);
}

// Half past nine to half past eleven.
session::Session two_hours() {
  auto s = tests::solo_day();
  s.day.until = clock(11, 30);
  s.day.breaks.clear();
  s.edition.prints = 10;
  s.edition.proofs = 0;
  return s;
}

Status fits(const session::Session& s, const Treatment& t, int rounds) {
  return rounds_fit(s, tests::craft(), t, rounds, {20000, 1});
}

std::optional<Clash> clash_of(const session::Session& s, const Treatment& t, int rounds,
                              int planned) {
  return clash(s, tests::craft(), t, rounds, planned, budget);
}

// Leaves one of the demands out of the problem itself and solves it; the rest of the set is kept,
// and everything that is not in the set is left out.
Status without(const session::Session& s, const Treatment& t, const Extent& extent,
               const std::vector<std::string>& set, const std::string& left_out) {
  const auto d = draft(s, tests::craft(), t, extent);
  const auto day = demanded(s, tests::craft(), t, d, false);
  std::vector<bool> keeps;
  for (const auto& demand : day.demands) {
    keeps.push_back(demand.label != left_out &&
                    std::find(set.begin(), set.end(), demand.label) != set.end());
  }
  const auto problem = scheduling::relaxed(day.problem, day.demands, keeps);
  const auto result = scheduling::solve(problem);
  if (result.starts.empty()) return result.status;
  EXPECT_THAT(scheduling::check(problem, result.starts), IsEmpty());
  return Status::feasible;
}

TEST(Demanded, keepsTheProblemAsItIs) {
  const auto s = tests::solo_day();
  for (const int prints : {1, 2, 3}) {
    const auto d = draft(s, tests::craft(), tests::soaked(), {1, prints, 1});
    const auto day = demanded(s, tests::craft(), tests::soaked(), d, false);
    EXPECT_EQ(scheduling::solve(day.problem).makespan, scheduling::solve(d.problem).makespan);
  }
}

TEST(Demanded, leavingABreakOutGivesNobodyASecondPairOfHands) {
  auto s = tests::solo_day();
  const auto d = draft(s, tests::craft(), tests::soaked(), {0, 2, 1});
  const auto day = demanded(s, tests::craft(), tests::soaked(), d, false);
  std::vector<bool> keeps;
  for (const auto& demand : day.demands) keeps.push_back(!demand.label.starts_with("the break"));
  s.day.breaks.clear();
  const auto no_break = draft(s, tests::craft(), tests::soaked(), {0, 2, 1});
  EXPECT_EQ(scheduling::solve(scheduling::relaxed(day.problem, day.demands, keeps)).makespan,
            scheduling::solve(no_break.problem).makespan);
}

TEST(Clash, twoHoursForTenPrintsLackTimeOrHandsOrFewerPrints) {
  const auto s = two_hours();
  const auto t = tests::soaked();
  ASSERT_EQ(fits(s, t, 1), Status::infeasible);
  const auto found = clash_of(s, t, 1, 0);
  ASSERT_TRUE(found);
  EXPECT_TRUE(found->is_minimal);
  EXPECT_THAT(found->demands, Contains("out by 11:30"));
  EXPECT_EQ(without(s, t, {0, 1, 1}, found->demands, ""), Status::infeasible);
  for (const auto& demand : found->demands) {
    EXPECT_EQ(without(s, t, {0, 1, 1}, found->demands, demand), Status::feasible) << demand;
  }
}

TEST(Clash, theNumberOfPrintsIsADemandWhereSomeFit) {
  auto s = tests::solo_day();
  s.edition.prints = 10;
  s.edition.proofs = 2;
  const auto t = tests::soaked();
  const auto found = clash_of(s, t, 12, 5);
  ASSERT_TRUE(found);
  EXPECT_TRUE(found->is_minimal);
  EXPECT_THAT(found->demands, UnorderedElementsAre("10 prints and 2 proofs", "out by 17:30",
                                                   "one pair of hands: A"));
  // Each left out in the session itself: a plan.
  EXPECT_EQ(fits(s, t, 5), Status::feasible);
  auto long_day = ending(s, t, clock(24, 0));
  EXPECT_EQ(fits(long_day.session, t, 12), Status::feasible);
}

TEST(Clash, aBreakThatCutsEveryWindowIsNamed) {
  auto s = two_hours();
  s.day.until = clock(14, 0);
  s.day.breaks = {{clock(10, 45), units::minutes(120)}};
  auto t = tests::soaked();
  t.closes = HalfMinutes(100);  // a sheet blotted before the break is too dry after it
  ASSERT_EQ(fits(s, t, 1), Status::infeasible);
  const auto found = clash_of(s, t, 1, 0);
  ASSERT_TRUE(found);
  EXPECT_TRUE(found->is_minimal);
  EXPECT_THAT(found->demands, Contains("the break at 10:45 for 2 h"));
  for (const auto& demand : found->demands) {
    EXPECT_EQ(without(s, t, {0, 1, 1}, found->demands, demand), Status::feasible) << demand;
  }
  s.day.breaks.clear();  // and in the session itself
  EXPECT_EQ(fits(s, t, 1), Status::feasible);
}

TEST(Clash, aTubThatIsTooSmallIsNamed) {
  auto s = tests::solo_day();
  s.day.breaks.clear();
  s.equipment.tub->sheets = 1;
  s.edition.prints = 4;
  s.edition.proofs = 0;
  auto t = tests::soaked();
  t.soak = HalfMinutes(200);
  t.soak_most = HalfMinutes(400);
  ASSERT_EQ(fits(s, t, 4), Status::infeasible);
  ASSERT_EQ(fits(s, t, 1), Status::feasible);
  const auto found = clash_of(s, t, 4, 1);
  ASSERT_TRUE(found);
  EXPECT_TRUE(found->is_minimal);
  EXPECT_THAT(found->demands, Contains("a tub for 1 sheet"));
  EXPECT_EQ(fits(with_tub(s, t, 8).session, t, 4), Status::feasible);
}

TEST(Clash, sheetsHeldOnTheBenchDryBeforeTheHandsAreThere) {
  auto s = tests::solo_day();
  s.damping.hold = session::Hold::bench;
  auto t = tests::soaked();
  t.drawn_singly = true;
  t.opens = HalfMinutes(0);
  t.closes = HalfMinutes(2);
  ASSERT_EQ(fits(s, t, 1), Status::infeasible);
  const auto found = clash_of(s, t, 1, 0);
  ASSERT_TRUE(found);
  EXPECT_TRUE(found->is_minimal);
  EXPECT_THAT(found->demands,
              Contains(HasSubstr("hold = \"bench\": each sheet ready until 1 min")));
  for (const auto& demand : found->demands) {
    EXPECT_EQ(without(s, t, {1, 0, 1}, found->demands, demand), Status::feasible) << demand;
  }
}

TEST(Clash, paperAndPlacesToDryAreCounted) {
  auto s = tests::solo_day();
  s.edition.prints = 10;
  s.paper.sheets = 5;
  const auto found = clash_of(s, tests::soaked(), 11, 4);
  ASSERT_TRUE(found);
  EXPECT_THAT(found->demands, ElementsAre("10 prints and 1 proof", "5 sheets of paper"));
}

TEST(Clash, thereIsNoneInADayThatFits) {
  EXPECT_FALSE(clash_of(tests::solo_day(), tests::soaked(), 2, 0));
}

std::vector<NearestDay> near(const session::Session& s, const Treatment& t, int rounds,
                             int planned) {
  const Retreat as_covered = [](const session::Session&) { return tests::soaked(); };
  return nearest_days(s, tests::craft(), t, rounds, planned, as_covered, budget);
}

const NearestDay* starting(const std::vector<NearestDay>& days, const std::string& words) {
  const auto found = std::find_if(days.begin(), days.end(), [&](const NearestDay& day) {
    return day.change.starts_with(words);
  });
  return found == days.end() ? nullptr : &*found;
}

TEST(NearestDay, eachWorksAndAQuarterLessDoesNot) {
  auto s = tests::solo_day();
  s.edition.prints = 6;
  s.edition.proofs = 0;
  const auto t = tests::soaked();
  ASSERT_NE(fits(s, t, 6), Status::feasible);
  const auto days = near(s, t, 6, 5);
  ASSERT_NE(starting(days, "5 prints instead of 6 prints"), nullptr);
  const auto* later = starting(days, "out by ");
  ASSERT_NE(later, nullptr);
  const auto end = session::clock_time_from(later->change.substr(7, 5));
  ASSERT_TRUE(end);
  EXPECT_EQ(fits(ending(s, t, *end).session, t, 6), Status::feasible);
  if (later->is_proved) {
    const auto less = *end - std::chrono::minutes(15);
    EXPECT_EQ(fits(ending(s, t, less).session, t, 6), Status::infeasible);
  }
  const auto* sooner = starting(days, "in from ");
  ASSERT_NE(sooner, nullptr);
  const auto begin = session::clock_time_from(sooner->change.substr(8, 5));
  ASSERT_TRUE(begin);
  EXPECT_EQ(fits(opening(s, t, *begin).session, t, 6), Status::feasible);
  EXPECT_NE(starting(days, "2 such days"), nullptr);
}

TEST(NearestDay, aSheetOnTheBenchIsCovered) {
  auto s = tests::solo_day();
  s.damping.hold = session::Hold::bench;
  auto t = tests::soaked();
  t.drawn_singly = true;
  t.opens = HalfMinutes(0);
  t.closes = HalfMinutes(2);
  EXPECT_NE(starting(near(s, t, 1, 0), "hold = \"covered\""), nullptr);
}

TEST(Advice, saysWhatTheChangedDayComesTo) {
  auto s = tests::solo_day();
  s.edition.prints = 6;
  const auto t = tests::soaked();
  const auto planned = fit(s, tests::craft(), t, budget);
  const auto advice = advise(s, tests::craft(), t, planned, budget);
  ASSERT_FALSE(advice.changes.empty());
  EXPECT_TRUE(std::is_sorted(advice.changes.begin(), advice.changes.end(),
                             [](const auto& a, const auto& b) { return a.gain > b.gain; }));
  const auto& by_hand = advice.changes;
  const auto found = std::find_if(by_hand.begin(), by_hand.end(), [](const auto& change) {
    return change.change == "one more person for ink and paper";
  });
  ASSERT_NE(found, by_hand.end());
  const auto with = with_person(s, t, true);
  const auto again = fit(with.session, tests::craft(), t, budget);
  EXPECT_EQ(found->prints, again.extent.prints);
  EXPECT_GT(found->gain, 0);
  EXPECT_EQ(found->finish, again.finish);
  for (const auto& change : by_hand) {
    EXPECT_TRUE(change.gain > 0 || change.gain_time > HalfMinutes(0)) << change.change;
  }
  // One sheet goes through one press: a second one gains nothing.
  EXPECT_THAT(advice.idle, Contains("a second press"));
}

TEST(Bottleneck, isTheBusiestOfWhatIsTakenFromTheSteps) {
  const auto s = tests::solo_day();
  const auto plan = fit(s, tests::craft(), tests::soaked(), budget);
  const auto steps = lay_out(plan.draft, tests::craft(), plan.starts);
  const auto all = utilisation(plan.draft, steps, plan.finish);
  ASSERT_FALSE(all.empty());
  const auto& hands = all.front();
  EXPECT_EQ(plan.draft.resources[static_cast<std::size_t>(hands.resource)].name, "A");
  HalfMinutes busy{};
  HalfMinutes pauses{};
  for (const auto& step : steps) {
    for (const auto& use : step.uses) {
      if (use.resource != hands.resource) continue;
      (step.kind == "break" ? pauses : busy) += step.end - step.start;
    }
  }
  EXPECT_EQ(hands.busy, busy);
  EXPECT_EQ(hands.available, plan.finish - pauses);
  for (const auto& each : all) EXPECT_LE(each.busy, each.available);
  EXPECT_THAT(bottleneck_sentence(plan.draft.resources, all),
              HasSubstr("The bottleneck: A's hands"));
}

}  // namespace
}  // namespace dampline::planner
