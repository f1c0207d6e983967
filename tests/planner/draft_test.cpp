#include <map>
#include <set>

#include <gtest/gtest.h>

#include <dampline/planner/draft.hpp>
#include <dampline/planner/lay_out.hpp>
#include <dampline/planner/people.hpp>
#include <dampline/scheduling/check.hpp>
#include <dampline/scheduling/solve.hpp>

#include "planner/scheduled.hpp"

namespace dampline::planner {
namespace {

using tests::Day;
using tests::expect_nothing_double_booked;
using tests::extent;
using tests::planned;

TEST(Draft, keepsEveryPersonPressAndPlateInOnePlace) {
  auto s = tests::solo_day();
  expect_nothing_double_booked(planned(s, tests::soaked(), extent(1, 3, 1)));
  s.people.push_back(s.people.front());
  s.people.back().name = "B";
  expect_nothing_double_booked(planned(s, tests::soaked(), extent(1, 4, 2)));
}

TEST(Draft, pullsEverySheetInsideItsWindow) {
  const auto s = tests::solo_day();
  const auto t = tests::soaked();
  const auto day = planned(s, t, extent(1, 3, 2));
  ASSERT_EQ(day.draft.pulls.size(), 8U);
  for (const auto& pull : day.draft.pulls) {
    const auto& sheet = day.draft.sheets[static_cast<std::size_t>(pull.sheet - 1)];
    const auto wait = when(pull.pulled, day.starts) - when(sheet.covered, day.starts);
    EXPECT_GE(wait, t.opens);
    EXPECT_LE(wait, t.closes);
    const auto soak = when(sheet.lifted, day.starts) - when(sheet.wet, day.starts);
    EXPECT_GE(soak, t.soak);
  }
}

TEST(Draft, keepsBreaksFreeOfHands) {
  const auto day = planned(tests::solo_day(), tests::soaked(), extent(1, 3, 1));
  for (const auto& step : day.steps) {
    const bool hands = !step.uses.empty() && step.uses.front().resource == 0;
    if (!hands || step.kind == "break") continue;
    EXPECT_TRUE(step.end.count() <= 420 || step.start.count() >= 500) << step.id;
  }
}

TEST(Draft, chargesEveryPlateBeforeTheSheetIsLaid) {
  const auto day = planned(tests::solo_day(), tests::soaked(), extent(1, 3, 1));
  std::map<std::string, HalfMinutes> wiped;
  for (const auto& step : day.steps) {
    const auto key = step.plate + std::to_string(step.print);
    if (step.kind == "wipe") wiped[key] = step.end;
    if (step.kind != "pull") continue;
    ASSERT_TRUE(wiped.contains(key));
    EXPECT_GE(step.start, wiped[key]);
    EXPECT_LE(step.start - wiped[key], HalfMinutes(120));  // oil ink waits an hour well
  }
}

TEST(Draft, stepIdsAreUnique) {
  const auto day = planned(tests::solo_day(), tests::soaked(), extent(1, 3, 2));
  std::set<std::string> ids;
  for (const auto& step : day.steps) {
    EXPECT_TRUE(ids.insert(step.id).second) << step.id;
    EXPECT_EQ(step.id.find(' '), std::string::npos) << step.id;
  }
}

TEST(Draft, resourcesHaveNamesOfTheirOwn) {
  auto s = tests::solo_day();
  s.plates[0].name = s.edition.order[0] = "A";  // as the person
  const auto d = draft(s, tests::craft(), tests::soaked(), extent(0, 1, 1));
  std::set<std::string> names;
  for (const auto& r : d.resources) EXPECT_TRUE(names.insert(r.name).second) << r.name;
}

TEST(Draft, aLearnerTakesLonger) {
  auto s = tests::solo_day();
  const auto usual = draft(s, tests::craft(), tests::soaked(), extent(1, 1, 1));
  s.people[0].pace = 1.7;
  const auto slow = draft(s, tests::craft(), tests::soaked(), extent(1, 1, 1));
  int usual_work = 0;
  int slow_work = 0;
  for (const auto& a : usual.problem.activities) usual_work += a.duration;
  for (const auto& a : slow.problem.activities) slow_work += a.duration;
  EXPECT_GT(slow_work, usual_work * 1.3);
}

TEST(Draft, ownTimesOfAPlateAreTakenAsWritten) {
  auto s = tests::solo_day();
  s.plates[1].times["wipe"] = units::minutes(14);
  s.people[0].pace = 1.7;
  const auto d = draft(s, tests::craft(), tests::soaked(), extent(0, 1, 1));
  int seen = 0;
  for (const auto& block : d.blocks) {
    for (const auto& part : block.parts) {
      if (part.kind != "wipe" || part.plate != "key") continue;
      ++seen;
      EXPECT_EQ(part.length, HalfMinutes(28));
    }
  }
  EXPECT_EQ(seen, 1);
}

TEST(Draft, releasedSheetsAreCoveredBetweenTheirPlates) {
  auto s = tests::solo_day();
  s.edition.between = session::Between::released;
  const auto day = planned(s, tests::soaked(), extent(0, 2, 1));
  expect_nothing_double_booked(day);
  int covered = 0;
  for (const auto& step : day.steps) covered += step.kind == "cover" ? 1 : 0;
  EXPECT_EQ(covered, 2);
}

TEST(Draft, aClassPrintsEveryPlateOnSheetsOfItsOwn) {
  auto s = tests::solo_day();
  s.edition.sheet_each = true;
  s.people.push_back(s.people.front());
  s.people.back().name = "B";
  s.equipment.presses.push_back(s.equipment.presses.front());
  s.equipment.presses.back().name = "second press";
  s.plates[0].printer = "A";
  s.plates[1].printer = "B";
  const auto day = planned(s, tests::soaked(), extent(0, 2, 1));
  EXPECT_EQ(day.draft.sheets.size(), 4U);
  expect_nothing_double_booked(day);
  for (const auto& pull : day.draft.pulls) EXPECT_EQ(pull.printer, pull.plate);
}

TEST(Draft, paperDampedTheEveningBeforeNeedsNoTub) {
  auto s = tests::solo_day();
  Treatment t;
  t.before_day = HalfMinutes(14 * 120);
  t.opens = HalfMinutes(6 * 120);
  t.closes = HalfMinutes(48 * 120);
  const auto day = planned(s, t, extent(0, 3, 1));
  for (const auto& step : day.steps) {
    EXPECT_NE(step.kind, "load");
    EXPECT_NE(step.kind, "tear");
  }
  expect_nothing_double_booked(day);
}

TEST(Teams, keepOnePairOfHandsClean) {
  auto s = tests::solo_day();
  EXPECT_TRUE(teams(s).front().alone());
  s.people.push_back(s.people.front());
  s.people.back().name = "B";
  for (const auto& team : teams(s)) EXPECT_FALSE(team.alone());
  s.people.resize(2);
  s.people[0].handles_paper = false;
  s.people[1].name = "B";
  s.people[1].inks = false;
  for (const auto& team : teams(s)) {
    EXPECT_EQ(team.inker, 0);
    EXPECT_EQ(team.handler, 1);
  }
}

}  // namespace
}  // namespace dampline::planner
