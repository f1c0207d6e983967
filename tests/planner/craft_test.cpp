#include <gtest/gtest.h>

#include <dampline/planner/craft.hpp>

#include "planner/hand_made.hpp"

namespace dampline::planner {
namespace {

units::Size square_cm(double a, double b) { return {units::centimetres(a), units::centimetres(b)}; }

// Step times by plate size: common practice, no published source; the sums are those of the same
// trade table (ink and wipe of a 20 x 30 cm plate 16.5 to 18.5 min, solo cycle 29 min).
TEST(StepTimes, addUpToTheTradesCycle) {
  const auto craft = tests::craft();
  const auto medium = square_cm(20, 30);
  double charge = 0;
  for (const auto& kind : charging(craft, "etching", {})) {
    charge += units::in_minutes(step_time(craft, kind, medium));
  }
  EXPECT_NEAR(charge, 18.5, 0.01);
  double cycle = charge;
  for (const char* kind : {"wash-hands", "blot", "place", "pull", "lift", "lay-away"}) {
    cycle += units::in_minutes(step_time(craft, kind, medium));
  }
  EXPECT_NEAR(cycle, 29, 0.01);
}

TEST(StepTimes, growWithThePlateAndHoldAtTheEnds) {
  const auto craft = tests::craft();
  const auto minutes = [&](double a, double b) {
    return units::in_minutes(step_time(craft, "wipe", square_cm(a, b)));
  };
  EXPECT_DOUBLE_EQ(minutes(10, 15), 6.5);
  EXPECT_DOUBLE_EQ(minutes(20, 30), 12.5);
  EXPECT_DOUBLE_EQ(minutes(40, 60), 29);
  EXPECT_DOUBLE_EQ(minutes(2, 3), minutes(10, 15));
  EXPECT_DOUBLE_EQ(minutes(90, 120), minutes(40, 60));
  double last = 0;
  for (double side = 10; side < 70; side += 5) {
    EXPECT_GE(minutes(side, side), last);
    last = minutes(side, side);
  }
}

TEST(Craft, namesFileAndLineOfWhatIsWrong) {
  const auto message = [](std::string_view text) {
    try {
      (void)read_craft(text, "steps.toml");
    } catch (const DataError& e) {
      return std::string(e.what());
    }
    return std::string("no error");
  };
  EXPECT_NE(message("basis = ").find("steps.toml:1:"), std::string::npos);
  EXPECT_NE(message("basis = \"x\"").find("[step]"), std::string::npos);
  const auto bad_time = message(
      "basis = \"x\"\n[step.ink]\nwhat = \"ink\"\ncue = \"\"\nhands = \"inky\"\n"
      "times = [\"1 min\", \"2\", \"3 min\"]\n");
  EXPECT_NE(bad_time.find("steps.toml:6:"), std::string::npos) << bad_time;
  const auto falling = message(
      "basis = \"x\"\n[step.ink]\nwhat = \"ink\"\ncue = \"\"\nhands = \"inky\"\n"
      "times = [\"3 min\", \"2 min\", \"1 min\"]\n");
  EXPECT_NE(falling.find("rise"), std::string::npos) << falling;
}

TEST(Craft, readsEveryCautionWithAPlaceWhereItApplies) {
  const auto rules = read_cautions(tests::repository_file("data/cautions.toml"), "cautions.toml");
  EXPECT_GE(rules.size(), 10U);
  for (const auto& rule : rules) {
    EXPECT_FALSE(rule.text.empty());
    EXPECT_FALSE(rule.when.empty()) << rule.code;
  }
}

TEST(Charging, takesTheExtrasOfAPlate) {
  const auto craft = tests::craft();
  const auto steps = charging(craft, "etching", {"roll over"});
  EXPECT_EQ(steps.back(), "roll-over");
  EXPECT_EQ(steps.size(), charging(craft, "etching", {}).size() + 1);
  EXPECT_EQ(laying(craft, {"chine colle"}), std::vector<std::string>{"chine-colle"});
  EXPECT_TRUE(laying(craft, {}).empty());
  // Common practice, no published source: two colours on one plate take 2.5 times as long.
  EXPECT_EQ(slowed(craft, {"two colours"}, "wipe"), 2.5);
  EXPECT_EQ(slowed(craft, {"two colours"}, "pull"), 1);
}

TEST(OpenTime, ofAnUnlistedInkIsThatOfOil) {
  const auto craft = tests::craft();
  EXPECT_EQ(open_time_of(craft, "squid").comfortable, open_time_of(craft, "oil").comfortable);
  EXPECT_LT(open_time_of(craft, "water-based").comfortable, open_time_of(craft, "oil").comfortable);
}

TEST(Craft, pressHabitsAreThoseTheCatcherIsTestedWith) {
  const auto habits = tests::craft().press;
  const method::PressHabits usual;
  EXPECT_EQ(habits.newsprint, usual.newsprint);
  EXPECT_EQ(habits.newsprint_pulls, usual.newsprint_pulls);
  EXPECT_EQ(habits.aired, usual.aired);
  EXPECT_EQ(habits.lying, usual.lying);
  EXPECT_EQ(habits.clammy, usual.clammy);
}

}  // namespace
}  // namespace dampline::planner
