#include <gtest/gtest.h>

#include <dampline/planner/craft.hpp>
#include <dampline/report/characters.hpp>
#include <dampline/report/view.hpp>
#include <dampline/report/view_parts.hpp>

#include "support/reference_table.hpp"
#include "support/sample_plan.hpp"

namespace dampline::tests {

namespace {

using planner::HalfMinutes;
using report::Round;

report::Instant noon() {
  using namespace std::chrono;
  return sys_days(year(2026) / 3 / 14) + hours(12);
}

}  // namespace

TEST(Clock, roundsAWindowInwardsAndNeverPromisesTooMuch) {
  const auto half_past = noon() + std::chrono::seconds(30);
  EXPECT_EQ(report::clock_text({}, half_past), "12:00");
  EXPECT_EQ(report::clock_text({}, half_past, Round::up), "12:01");
  EXPECT_EQ(report::clock_text({}, noon(), Round::up), "12:00");
}

TEST(Clock, tellsLocalDaysAcrossMidnight) {
  const report::Clock east = {[](report::Instant) { return std::chrono::minutes(13 * 60); }};
  EXPECT_EQ(report::date_text(east, noon()), "Sunday 15 March 2026");
  EXPECT_EQ(report::short_date_text(east, noon()), "Sun 15 Mar");
  EXPECT_EQ(report::rfc3339(east, noon()), "2026-03-15T01:00:00+13:00");
}

TEST(Clock, lengthsAreReadAtAGlance) {
  EXPECT_EQ(report::length_text(HalfMinutes(16)), "8 min");
  EXPECT_EQ(report::length_text(HalfMinutes(3)), "1.5 min");
  EXPECT_EQ(report::length_text(HalfMinutes(250)), "2 h 05 min");
  EXPECT_EQ(report::length_text(HalfMinutes(120)), "1 h");
}

TEST(View, chancesNeverClaimCertainty) {
  EXPECT_EQ(report::chance_text(units::Chance(1)), ">99 %");
  EXPECT_EQ(report::chance_text(units::Chance(0.94)), "94 %");
  EXPECT_EQ(report::chance_text(units::Chance(0)), "<1 %");
}

TEST(View, numbersRunTogether) {
  EXPECT_EQ(report::number_list({7, 1, 2, 3, 4, 2}), "1-4, 7");
  EXPECT_EQ(report::number_list({}), "");
}

TEST(View, everyKindOfStepHasAFamily) {
  for (const auto& step : sample_plan().steps) {
    EXPECT_NE(report::family_of(step.kind), report::Family::other) << step.kind;
  }
  for (const auto& [kind, step] :
       planner::read_craft(repository_file("data/steps.toml"), "steps.toml").steps) {
    EXPECT_NE(report::family_of(kind), report::Family::other) << kind;
  }
  EXPECT_EQ(report::family_of("something new"), report::Family::other);
}

TEST(View, aCueIsSaidOnceButTheTouchTestEveryTime) {
  const auto view = report::view(sample_plan(), sample_clock());
  int wipes = 0, touches = 0;
  for (const auto& block : view.steps) {
    for (const auto& row : block.rows) {
      wipes += row.cue.find("bevels and back") != std::string::npos;
      touches += row.cue.find("limp, cool, no shine") != std::string::npos;
    }
  }
  EXPECT_EQ(wipes, 1);
  EXPECT_EQ(touches, 7);
}

TEST(View, pullsOfASheetHeldInThePressAreOneGoal) {
  const auto view = report::view(sample_plan(), sample_clock());
  ASSERT_EQ(view.steps.size(), 9U);  // get ready, seven prints, clean up
  EXPECT_EQ(view.steps[0].heading, "Get ready");
  EXPECT_EQ(view.steps[1].heading, "Towards print 1 (proof): pull tone 11:01, key 11:04");
  EXPECT_EQ(view.steps[8].heading, "Last print away, clean up");
}

TEST(View, workOfTheEveningBeforeIsSetApart) {
  planner::Plan plan = sample_plan();
  planner::Step pack;
  pack.id = "pack-1";
  pack.kind = "pack";
  pack.what = "lay the damp pack";
  pack.start = HalfMinutes(-2 * 14 * 60);
  pack.end = pack.start + HalfMinutes(40);
  pack.uses = {{0, 1}};
  plan.steps.insert(plan.steps.begin(), pack);
  const auto view = report::view(plan, sample_clock());
  EXPECT_EQ(view.steps[0].heading, "Before the day: Friday 13 March 2026");
  EXPECT_EQ(view.facts[0].label, "Lay the damp pack");
  EXPECT_EQ(view.facts[0].value, "19:30");
  EXPECT_EQ(view.facts[0].note, "Fri 13 Mar");
  EXPECT_EQ(view.chart.from, HalfMinutes(0));
  EXPECT_FALSE(view.chart.before.empty());
}

TEST(View, finishingTooLateIsSaid) {
  planner::Plan plan = sample_plan();
  plan.until = plan.finish - HalfMinutes(50);
  const auto view = report::view(plan, sample_clock());
  EXPECT_TRUE(view.facts[3].alert);
  EXPECT_NE(view.facts[3].note.find("25 min over"), std::string::npos);
}

TEST(Characters, widthCountsColumnsNotBytes) {
  EXPECT_EQ(report::display_width("abc"), 3);
  EXPECT_EQ(report::display_width("Stra\u00dfe"), 6);
  EXPECT_EQ(report::display_width("e\u0301"), 1);
  EXPECT_EQ(report::display_width("\u6e7f\u7d19"), 4);
  EXPECT_EQ(report::display_width("\U0001F980"), 2);
}

TEST(Characters, cleanTextCannotSteerTheTerminalOrTurnTheLine) {
  EXPECT_EQ(report::clean("a\x1b[31mb\tc\x7f"), "a [31mb c ");
  EXPECT_EQ(report::clean("a\u202eb\u2066c"), "abc");
  EXPECT_EQ(report::clean("a\xFF"), "a\uFFFD");
  EXPECT_EQ(report::clean("\u009b31m"), " 31m");
}

TEST(Characters, asciiKeepsWhatCanBeRead) {
  EXPECT_EQ(report::ascii("Stra\u00dfe d\u00e9j\u00e0 \u0141\u00f3d\u017a 5\u201310 \u6e7f"),
            "Strasse deja Lodz 5-10 ?");
}

TEST(Characters, wrapBreaksAtSpacesAndCutsOnlyWhatDoesNotFit) {
  EXPECT_EQ(report::wrap("one two three", 7), (std::vector<std::string>{"one two", "three"}));
  EXPECT_EQ(report::wrap("abcdefgh", 3), (std::vector<std::string>{"abc", "def", "gh"}));
  EXPECT_EQ(report::wrap("at 52 % dry", 6), (std::vector<std::string>{"at", "52 %", "dry"}));
  EXPECT_EQ(report::wrap("", 5), (std::vector<std::string>{""}));
}

}  // namespace dampline::tests
