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
