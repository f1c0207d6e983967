#include <algorithm>
#include <map>

#include <gtest/gtest.h>

#include "planner/scheduled.hpp"

namespace dampline::planner {
namespace {

using std::chrono::hours;
using std::chrono::minutes;
using tests::extent;
using tests::planned;

bool uses(const Step& step, int resource) {
  return std::any_of(step.uses.begin(), step.uses.end(),
                     [&](const Use& u) { return u.resource == resource; });
}

TEST(Hours, ofAHiredPressAreKept) {
  auto s = tests::solo_day();
  s.equipment.presses[0].from = hours(11);
  s.equipment.presses[0].until = hours(16);
  const auto day = planned(s, tests::soaked(), extent(0, 2, 1));
  ASSERT_FALSE(day.steps.empty());
  const int press = 1;
  ASSERT_EQ(day.draft.resources[press].kind, ResourceKind::press);
  bool used = false;
  for (const auto& step : day.steps) {
    if (!uses(step, press)) continue;
    used = true;
    EXPECT_GE(step.start, HalfMinutes(2 * 90)) << step.id;
    EXPECT_LE(step.end, HalfMinutes(2 * 390)) << step.id;
  }
  EXPECT_TRUE(used);
  tests::expect_nothing_double_booked(day);
}

TEST(Hours, ofAHelperWhoLeavesAreKept) {
  auto s = tests::solo_day();
  s.people.push_back(s.people.front());
  s.people[0].handles_paper = false;
  s.people[1].name = "B";
  s.people[1].inks = false;
  s.people[1].until = hours(15);  // the break at one is theirs, too
  const auto day = planned(s, tests::soaked(), extent(0, 2, 1));
  ASSERT_FALSE(day.steps.empty());
  for (const auto& step : day.steps) {
    if (!uses(step, 1)) continue;
    EXPECT_LE(step.end, HalfMinutes(2 * 330)) << step.id;
  }
}

TEST(Hours, aBreakIsOnlyForThoseWhoAreThere) {
  auto s = tests::solo_day();
  s.people.push_back(s.people.front());
  s.people[1].name = "B";
  s.people[1].until = hours(13) + minutes(10);
  const auto day = planned(s, tests::soaked(), extent(0, 1, 1));
  const auto pause = std::find_if(day.steps.begin(), day.steps.end(),
                                  [](const Step& step) { return step.kind == "break"; });
  ASSERT_NE(pause, day.steps.end());
  EXPECT_EQ(pause->uses.size(), 1U);
}

TEST(Rests, leaveNobodyWorkingLongerThanAsked) {
  auto s = tests::solo_day();
  s.day.rests = session::Rests{units::minutes(60), units::minutes(5)};
  const auto day = planned(s, tests::soaked(), extent(1, 2, 1));
  ASSERT_FALSE(day.steps.empty());
  tests::expect_nothing_double_booked(day);
  const HalfMinutes finish(day.starts[static_cast<std::size_t>(day.draft.problem.sink)]);
  HalfMinutes since{};
  int rests = 0;
  for (const auto& step : day.steps) {
    if (step.kind != "short-rest" && step.kind != "break") continue;
    EXPECT_LE(step.start - since, HalfMinutes(120)) << step.id;
    EXPECT_LT(step.start, finish);
    since = step.end;
    rests += step.kind == "short-rest" ? 1 : 0;
  }
  EXPECT_LE(finish - since, HalfMinutes(120));
  EXPECT_GE(rests, 3);
}

TEST(Extras, takeTheirPlaceInTheDay) {
  auto s = tests::solo_day();
  s.plates[0].extras = {"chine colle"};
  s.plates[1].extras = {"roll over", "two colours"};
  const auto day = planned(s, tests::soaked(), extent(0, 1, 1));
  std::map<std::string, Step> by_kind;
  std::map<std::string, HalfMinutes> inking;
  for (const auto& step : day.steps) {
    by_kind[step.kind] = step;
    if (step.kind == "ink") inking[step.plate] = step.end - step.start;
  }
  EXPECT_EQ(by_kind["chine-colle"].plate, "tone");
  EXPECT_LE(by_kind["chine-colle"].end, by_kind["place"].start);
  EXPECT_EQ(by_kind["roll-over"].plate, "key");
  EXPECT_EQ(inking["key"].count(), 2.5 * inking["tone"].count());
}

TEST(Press, isTendedAfterSoManyPulls) {
  auto s = tests::solo_day();
  s.plates.resize(1);
  s.edition.order = {s.plates[0].name};
  s.equipment.presses[0].square_after = 2;
  auto treatment = tests::soaked();
  treatment.catcher_lasts = 3;
  const auto day = planned(s, treatment, extent(0, 5, 1));
  std::map<std::string, std::vector<int>> tended;
  for (const auto& step : day.steps) tended[step.kind].push_back(step.print);
  EXPECT_EQ(tended["square-blankets"], (std::vector<int>{3, 5}));
  EXPECT_EQ(tended["swap-catcher"], std::vector<int>{4});
}

TEST(Learner, takesTheTimeOfOne) {
  auto s = tests::solo_day();
  s.people[0].learner = true;
  auto slow = tests::solo_day();
  slow.people[0].pace = 1.7;  // common practice, no published source
  const auto one = draft(s, tests::craft(), tests::soaked(), extent(0, 2, 1));
  const auto two = draft(slow, tests::craft(), tests::soaked(), extent(0, 2, 1));
  for (std::size_t a = 0; a < one.problem.activities.size(); ++a) {
    EXPECT_EQ(one.problem.activities[a].duration, two.problem.activities[a].duration);
  }
}

}  // namespace
}  // namespace dampline::planner
