#include <gtest/gtest.h>

#include <dampline/planner/registering.hpp>

#include "planner/scheduled.hpp"

namespace dampline::planner {
namespace {

using tests::extent;
using tests::planned;

TEST(Registering, aSheetLetGoComesBackWithinTheAllowedWait) {
  auto s = tests::solo_day();
  s.edition.between = session::Between::released;
  auto treatment = tests::soaked();
  const auto longest = [&] {
    const auto day = planned(s, treatment, extent(0, 3, 1));
    HalfMinutes most{};
    for (const auto& later : day.draft.pulls) {
      for (const auto& first : day.draft.pulls) {
        if (later.sheet != first.sheet || later.first_on_sheet || !first.first_on_sheet) continue;
        most = std::max(most, when(later.pulled, day.starts) - when(first.pulled, day.starts));
      }
    }
    return most;
  };
  const auto as_it_comes = longest();
  ASSERT_GT(as_it_comes, HalfMinutes(80));
  treatment.most_between = HalfMinutes(80);
  EXPECT_LE(longest(), HalfMinutes(80));
}

TEST(Registering, anOwnTimeIsTakenAsWrittenWhateverTheExtras) {
  auto s = tests::solo_day();
  const auto between = [&] {
    return units::in_minutes(printing_of(s, tests::craft(), {}, {}).plates[0].between);
  };
  const double usual = between();
  s.plates[0].extras = {"two colours"};
  EXPECT_GT(between(), usual);
  s.plates[0].times["ink"] = units::minutes(1);
  s.plates[0].times["wipe"] = units::minutes(1);
  const double warm = units::in_minutes(step_time(tests::craft(), "warm", s.plates[0].size));
  EXPECT_NEAR(between(), warm + 2, 1e-9);
}

TEST(Registering, theKeyGoesLastUnlessTold) {
  auto s = tests::solo_day();
  s.edition.order = {"key", "tone"};
  EXPECT_TRUE(put_in_order(s));
  EXPECT_EQ(s.edition.order, (std::vector<std::string>{"tone", "key"}));
  EXPECT_FALSE(put_in_order(s));
  s.edition.order = {"key", "tone"};
  s.edition.order_given = true;
  EXPECT_FALSE(put_in_order(s));
  EXPECT_EQ(s.edition.order.front(), "key");
}

TEST(Registering, platesOnSheetsOfTheirOwnAreLeftAsTheyStand) {
  auto s = tests::solo_day();
  s.edition.order = {"key", "tone"};
  s.edition.sheet_each = true;
  EXPECT_FALSE(put_in_order(s));
}

}  // namespace
}  // namespace dampline::planner
