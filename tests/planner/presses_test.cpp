// One edition pulled at two presses.
#include <algorithm>
#include <map>
#include <set>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <dampline/planner/fit.hpp>
#include <dampline/planner/people.hpp>

#include "planner/scheduled.hpp"

namespace dampline::planner {
namespace {

// A inks quickly, B and C handle paper: the passes through the press are what takes the time.
session::Session quick_inking(int copies) {
  auto s = tests::solo_day();
  s.people.resize(3, s.people[0]);
  s.people[0].handles_paper = false;
  s.people[1].name = "B";
  s.people[2].name = "C";
  s.people[1].inks = s.people[2].inks = false;
  s.equipment.presses.push_back(s.equipment.presses[0]);
  s.equipment.presses[1].name = "second press";
  s.plates = {tests::plate("block", "relief")};
  s.plates[0].copies = copies;
  for (const auto& kind : charging(tests::craft(), "relief", {})) {
    s.plates[0].times[kind] = units::minutes(0.5);
  }
  s.plates[0].times["pull"] = units::minutes(8);
  s.edition.order = {"block"};
  s.edition.prints = 8;
  s.edition.proofs = 0;
  return s;
}

session::Session with_one_press(session::Session s) {
  s.equipment.presses.resize(1);
  return s;
}

Fit fitted(const session::Session& s) { return fit(s, tests::craft(), tests::soaked(), {}); }

std::map<int, std::set<int>> presses_of_prints(const Fit& found) {
  std::map<int, std::set<int>> out;
  for (const auto& step : lay_out(found.draft, tests::craft(), found.starts)) {
    if (step.print == 0) continue;
    for (const auto& use : step.uses) {
      const auto& resource = found.draft.resources[static_cast<std::size_t>(use.resource)];
      if (resource.kind == ResourceKind::press) out[step.print].insert(use.resource);
    }
  }
  return out;
}

void expect_valid(const Fit& found) {
  ASSERT_FALSE(found.starts.empty());
  EXPECT_THAT(scheduling::check(found.draft.problem, found.starts), testing::IsEmpty());
  tests::expect_nothing_double_booked(
      {found.draft, found.starts, lay_out(found.draft, tests::craft(), found.starts)});
}

std::set<int> presses_used(const Fit& found) {
  std::set<int> all;
  for (const auto& [print, presses] : presses_of_prints(found)) {
    EXPECT_EQ(presses.size(), 1U) << "print " << print << " moves from press to press";
    all.insert(presses.begin(), presses.end());
  }
  return all;
}

TEST(TwoPresses, andTwoCopiesEndADaySooner) {
  const auto s = quick_inking(2);
  const auto at_two = fitted(s);
  const auto at_one = fitted(with_one_press(s));
  expect_valid(at_two);
  expect_valid(at_one);
  EXPECT_EQ(at_two.extent.prints, 8);
  EXPECT_EQ(at_one.extent.prints, 8);
  EXPECT_EQ(presses_used(at_two).size(), 2U);
  // Eight passes of 8 min: at the least three fewer one after the other.
  EXPECT_LT(at_two.finish, at_one.finish - HalfMinutes(3 * 16));
}

TEST(TwoPresses, andTwoCopiesPullMorePrintsInAShortDay) {
  auto s = quick_inking(2);
  s.day.until = s.day.from + std::chrono::minutes(190);
  s.day.breaks.clear();
  const auto at_two = fitted(s);
  const auto at_one = fitted(with_one_press(s));
  expect_valid(at_two);
  EXPECT_GT(at_one.extent.prints, 0);
  EXPECT_GT(at_two.extent.prints, at_one.extent.prints);
}

TEST(TwoPresses, doNotHelpWhereOnePlateIsTheLimit) {
  const auto s = quick_inking(1);
  const auto at_two = fitted(s);
  expect_valid(at_two);
  EXPECT_GE(at_two.finish, fitted(with_one_press(s)).finish - HalfMinutes(2 * 16));
}

TEST(TwoPresses, aSheetHeldBetweenItsPlatesStaysAtOne) {
  auto s = quick_inking(2);
  s.plates.push_back(s.plates[0]);
  s.plates[1].name = "key";
  s.edition.order = {"block", "key"};
  s.edition.prints = 4;
  const auto found = fitted(s);
  expect_valid(found);
  EXPECT_EQ(presses_used(found).size(), 2U);
  std::map<int, std::set<int>> blocks;
  for (const auto& pull : found.draft.pulls) blocks[pull.print].insert(pull.pulled.activity);
  for (const auto& [print, visits] : blocks) EXPECT_EQ(visits.size(), 1U) << print;
}

TEST(TwoPresses, needAnotherPairOfCleanHandsAndAPressThatTakesTheSheet) {
  auto s = quick_inking(2);
  EXPECT_EQ(lanes(s).size(), 2U);
  auto hands = s;
  hands.people.resize(2);
  EXPECT_EQ(lanes(hands).size(), 1U);
  auto bed = s;
  bed.equipment.presses[1].bed = units::Size{units::centimetres(30), units::centimetres(50)};
  EXPECT_EQ(lanes(bed).size(), 1U);  // the sheet is 38 x 56 cm
  bed.equipment.presses[1].bed = units::Size{units::centimetres(60), units::centimetres(40)};
  EXPECT_EQ(lanes(bed).size(), 2U);
  auto named = s;
  named.plates[0].press = "press";
  EXPECT_EQ(lanes(named).size(), 1U);
  auto apart = s;
  apart.edition.sheet_each = true;
  EXPECT_EQ(lanes(apart).size(), 1U);
}

TEST(TwoPresses, oneHiredForTheAfternoonIsUsedFromThenOn) {
  auto s = quick_inking(2);
  s.equipment.presses[1].from = s.day.from + std::chrono::minutes(90);
  const auto found = fitted(s);
  expect_valid(found);
  EXPECT_LE(found.finish, fitted(with_one_press(s)).finish);
  const auto steps = lay_out(found.draft, tests::craft(), found.starts);
  for (const auto& step : steps) {
    for (const auto& use : step.uses) {
      const auto& resource = found.draft.resources[static_cast<std::size_t>(use.resource)];
      if (resource.name != "second press") continue;
      EXPECT_GE(step.start, HalfMinutes(180)) << step.id;
    }
  }
}

}  // namespace
}  // namespace dampline::planner
