#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <dampline/journal/card.hpp>
#include <dampline/journal/compare.hpp>
#include <dampline/journal/measured.hpp>
#include <dampline/journal/steps.hpp>
#include <dampline/units/text.hpp>

#include "sample_entries.hpp"

// Two days at the press: right on Monday, wrong on Thursday. The readings are made up.

namespace dampline::journal {
namespace {

using namespace std::chrono_literals;
using testing::HasSubstr;
using tests::entry_at;

std::vector<Entry> monday() {
  return {
      entry_at(0, Air{units::celsius(17), units::RelativeHumidity::from_percent(58), {}, {}}),
      entry_at(1, Weighing{Weighing::When::dry, units::grams(50), {}, 1}),
      entry_at(2, Weighing{Weighing::When::dry, units::grams(40), {}, 2}),
      entry_at(3, Start{{"soak", {}, {}, "1-2", {}}}),
      entry_at(23, Finish{{"soak", {}, {}, {}, {}}}),
      entry_at(24, Weighing{Weighing::When::blotted, units::grams(80), {}, 1}),
      entry_at(25, Weighing{Weighing::When::blotted, units::grams(64), {}, 2}),
      entry_at(
          26, Length{Length::Direction::across, Length::When::dry, units::millimetres(300), {}, 1}),
      entry_at(
          27,
          Length{Length::Direction::across, Length::When::damp, units::millimetres(303), {}, 1}),
      entry_at(30, Start{{"wipe", "key", {}, {}, {}}}),
      entry_at(40, Finish{{"wipe", "key", {}, {}, {}}}),
      entry_at(41, Press{3.2, 3.2, "turns", {}}),
      entry_at(42, Ink{"bone black", {}}),
      entry_at(50, Print{1, Print::Verdict::good, {}, {}, {}}),
      entry_at(60, Print{2, Print::Verdict::good, {}, {}, {}}),
  };
}

std::vector<Entry> thursday() {
  std::vector<Entry> out{
      entry_at(0, Air{units::celsius(17), units::RelativeHumidity::from_percent(38), {}, {}}),
      entry_at(1, Weighing{Weighing::When::dry, units::grams(45), {}, {}}),
      entry_at(3, Start{{"soak", {}, {}, {}, {}}}),
      entry_at(24, Finish{{"soak", {}, {}, {}, {}}}),
      entry_at(25, Weighing{Weighing::When::blotted, units::grams(66.6), {}, {}}),
      entry_at(30, Start{{"wipe", "key", {}, {}, {}}}),
      entry_at(48, Finish{{"wipe", "key", {}, {}, {}}}),
      entry_at(41, Press{3.2, 3.6, "turns", {}}),
      entry_at(42, Ink{"bone black, stiff", {}}),
      entry_at(43, Felt{Felt::Which::catcher, Felt::Done::changed}),
      entry_at(50, Print{1, Print::Verdict::spoiled, "grey", {}, {}}),
      entry_at(60, Print{2, Print::Verdict::spoiled, "grey", {}, {}}),
      entry_at(70, Print{3, Print::Verdict::good, {}, {}, {}}),
  };
  for (auto& e : out) {
    e.time.at += 72h;
    e.day = 2026y / 3 / 17;
  }
  return out;
}

Held only(const std::vector<Entry>& entries) {
  const auto all = sessions(entries);
  EXPECT_EQ(all.size(), 1U);
  return all.front();
}

TEST(JournalSessions, areTitlesOfADayInTheOrderOfTheClock) {
  std::vector<Entry> entries{entry_at(60, Note{"c"}), entry_at(0, Note{"a"}),
                             entry_at(30, Note{"b"})};
  entries[2].session.clear();
  auto all = sessions(entries);
  ASSERT_EQ(all.size(), 1U);  // the untitled entry belongs to the one session of the day
  ASSERT_EQ(all[0].entries.size(), 3U);
  EXPECT_EQ(std::get<Note>(all[0].entries[0]->record).text, "a");
  EXPECT_EQ(std::get<Note>(all[0].entries[1]->record).text, "b");
  entries[1].session = "Heron";
  all = sessions(entries);
  ASSERT_EQ(all.size(), 3U);
  EXPECT_EQ(all[0].title, "Heron");
  EXPECT_EQ(all[1].title, "");
  EXPECT_EQ(all[2].title, "Salt marsh");
}

TEST(JournalSessions, anEntryGoesOnWithTheSessionOfItsDayOrOfTheNight) {
  const std::vector<Entry> entries{entry_at(0, Note{"a"})};
  const auto at = [&](std::chrono::minutes later) {
    auto time = entries[0].time;
    time.at += later;
    return going_on(entries, time, std::nullopt);
  };
  EXPECT_EQ(at(5h), &entries[0]);
  EXPECT_EQ(at(-5h), &entries[0]);          // written down late, of the same day
  EXPECT_EQ(at(14h + 59min), &entries[0]);  // 23:59
  EXPECT_EQ(at(15h), nullptr);              // the next day, and 15 hours on
  auto evening = entries;
  evening[0].time.at += 12h;  // 21:00
  auto night = evening[0].time;
  night.at += 6h;
  EXPECT_EQ(going_on(evening, night, std::nullopt), evening.data());
  EXPECT_EQ(going_on(evening, night, "Heron"), nullptr);
  EXPECT_EQ(going_on(evening, night, "Salt marsh"), evening.data());
}

TEST(JournalMeasured, waterAndGrowthAreOverTheSameSheetDry) {
  const auto entries = monday();
  const auto held = only(entries);
  const auto w = weighings(held);
  ASSERT_EQ(w.size(), 4U);
  EXPECT_FALSE(w[0].moisture);
  EXPECT_NEAR(w[2].moisture->parts_of_one(), 0.6, 1e-12);
  EXPECT_NEAR(w[3].moisture->parts_of_one(), 0.6, 1e-12);  // by its own 40 g, not by the mean
  const auto l = lengths(held);
  ASSERT_EQ(l.size(), 2U);
  EXPECT_NEAR(l[1].growth->percent(), 1, 1e-9);
}

// 20 degC and 13.78 degC wet: 50 % [psychrolib].
TEST(JournalMeasured, aWetBulbIsWorkedOut) {
  EXPECT_NEAR(humidity(Air{units::celsius(20), {}, units::celsius(13.7834), {}})->percent(), 50,
              0.05);
  EXPECT_FALSE(humidity(Air{units::celsius(20), {}, units::celsius(1), {}}));
  EXPECT_FALSE(humidity(Air{units::celsius(20), {}, {}, {}}));
}

TEST(JournalSteps, aFinishGoesWithTheLatestOpenStartThatFits) {
  const std::vector<Entry> entries{entry_at(0, Start{{"wipe", "key", {}, {}, {}}}),
                                   entry_at(2, Start{{"wipe", "tone", {}, {}, {}}}),
                                   entry_at(10, Finish{{"wipe", "key", {}, {}, {}}}),
                                   entry_at(14, Finish{{"wipe", {}, {}, {}, {}}}),
                                   entry_at(20, Finish{{"ink", {}, {}, {}, {}}}),
                                   entry_at(30, Start{{"soak", {}, {}, {}, {}}})};
  const auto took = steps(only(entries));
  ASSERT_EQ(took.size(), 4U);
  EXPECT_NEAR(units::in_minutes(*took[0].length()), 10, 1e-9);
  EXPECT_NEAR(units::in_minutes(*took[1].length()), 12, 1e-9);
  EXPECT_FALSE(took[2].from);
  EXPECT_FALSE(took[3].until);
}

TEST(JournalCompare, showsOnlyWhatDiffersTheLargestFirst) {
  const auto a = monday();
  const auto b = thursday();
  const auto c = compare(only(a), only(b));
  std::vector<std::string> order;
  for (const auto& d : c.differ) order.push_back(d.what);
  // Humidity 4 steps, ink 3, wiping 80 % longer 2.6, water 2.4, the right end 12.5 % higher 2.4;
  // soaking 5 % longer 0.2. Temperature, paper, dry weight and the left end are alike.
  EXPECT_EQ(order,
            (std::vector<std::string>{"humidity", "ink", "time to wipe of key",
                                      "press, right, turns", "water, blotted", "time to soak"}));
  EXPECT_EQ(c.alike, 4);
  EXPECT_EQ(c.differ[0].first, "58 %");
  EXPECT_EQ(c.differ[0].second, "38 %");
  EXPECT_EQ(c.differ[0].change, "-20 points");
  EXPECT_NEAR(c.differ[0].size, 4, 1e-9);
  EXPECT_EQ(c.differ[2].change, "+80 %");
  EXPECT_EQ(c.differ[4].change, "-0.12 g/g");
  ASSERT_EQ(c.outcome.size(), 3U);
  EXPECT_EQ(c.outcome[0].what, "good prints");
  EXPECT_EQ(c.outcome[0].second, "1");
  EXPECT_EQ(c.outcome[2].second, "grey, 2 times");
  ASSERT_EQ(c.first_only.size(), 1U);
  EXPECT_EQ(c.first_only[0].what, "growth across, damp");
  ASSERT_EQ(c.second_only.size(), 1U);
  EXPECT_EQ(text(c.second_only[0]), "catcher changed");
}

TEST(JournalCompare, aDayDiffersInNothingFromItself) {
  const auto a = monday();
  const auto c = compare(only(a), only(a));
  EXPECT_TRUE(c.differ.empty());
  EXPECT_TRUE(c.first_only.empty());
  EXPECT_TRUE(c.second_only.empty());
  EXPECT_EQ(c.alike, static_cast<int>(facts(only(a)).size() - c.outcome.size()));
}

TEST(JournalCompare, pressReadingsThroughNothingAreComparedToo) {
  const std::vector<Entry> a{entry_at(0, Press{0, -1, {}, {}})};
  const std::vector<Entry> b{entry_at(0, Press{2, 1, {}, {}})};
  const auto c = compare(only(a), only(b));
  ASSERT_EQ(c.differ.size(), 2U);
  EXPECT_EQ(c.differ[0].change, "+2.00");
}

TEST(JournalCard, hasAPartForWhatWasWrittenDownAndNoOther) {
  const auto b = thursday();
  std::string all;
  for (const auto& part : card(only(b))) {
    all += part.name + ": ";
    for (const auto& line : part.lines) all += line.text + " | ";
  }
  EXPECT_THAT(all, HasSubstr("Paper: cotton, 300 g/m2 |"));
  EXPECT_THAT(all, HasSubstr("blotted 66.6 g: 0.48 g/g above dry |"));
  EXPECT_THAT(all, HasSubstr("wipe key: 18 min |"));
  EXPECT_THAT(all, HasSubstr("the ends 0.4 apart"));
  EXPECT_THAT(all, HasSubstr("Prints: 1 good, 2 spoiled | 1 spoiled, why grey |"));
  EXPECT_EQ(all.find("Touch"), std::string::npos);
  EXPECT_EQ(all.find("marks"), std::string::npos);
}

}  // namespace
}  // namespace dampline::journal
