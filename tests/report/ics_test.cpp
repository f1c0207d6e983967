#include <map>
#include <set>
#include <string>
#include <vector>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <dampline/planner/drying_rules.hpp>
#include <dampline/report/plan_ics.hpp>

#include "support/sample_plan.hpp"

namespace dampline::tests {
namespace {

using namespace std::chrono;
using report::Instant;

const Instant revised = sys_days(2026y / 3 / 1) + 12h;

std::string written(const planner::Plan& plan, const report::Clock& clock = sample_clock()) {
  return report::ics(report::plan_calendar(plan, clock, revised));
}

std::vector<std::string> raw_lines(const std::string& text) {
  std::vector<std::string> out;
  for (std::size_t at = 0; at < text.size();) {
    const auto end = text.find("\r\n", at);
    EXPECT_NE(end, std::string::npos) << "a line that does not end in CRLF";
    if (end == std::string::npos) break;
    out.push_back(text.substr(at, end - at));
    at = end + 2;
  }
  return out;
}

/// Unfolded lines: shares no code with the writer.
std::vector<std::string> lines(const std::string& text) {
  std::vector<std::string> out;
  for (const auto& raw : raw_lines(text)) {
    if (raw.starts_with(' ')) {
      out.back() += raw.substr(1);
    } else {
      out.push_back(raw);
    }
  }
  return out;
}

std::string unescaped(const std::string& text) {
  std::string out;
  for (std::size_t i = 0; i < text.size(); ++i) {
    if (text[i] != '\\') {
      out += text[i];
    } else {
      ++i;
      out += text[i] == 'n' ? '\n' : text[i];
    }
  }
  return out;
}

std::vector<std::string> values(const std::string& text, const std::string& name) {
  std::vector<std::string> out;
  for (const auto& line : lines(text)) {
    if (line.starts_with(name + ":")) out.push_back(line.substr(name.size() + 1));
  }
  return out;
}

bool is_utf8(const std::string& text) {
  int more = 0;
  for (const char byte : text) {
    const auto c = static_cast<unsigned char>(byte);
    if (more > 0) {
      if ((c & 0xC0U) != 0x80U) return false;
      --more;
    } else if (c >= 0x80) {
      if ((c & 0xC0U) == 0x80U) return false;
      more = c >= 0xF0 ? 3 : c >= 0xE0 ? 2 : 1;
    }
  }
  return more == 0;
}

const planner::Night night{.from = 22h, .until = 7h + 30min};

TEST(Ics, linesEndInCrlfAndAreNoLongerThan75Octets) {
  for (const auto& plan : {sample_plan(), short_plan(), hostile_plan()}) {
    const auto text = written(plan);
    bool any_folded = false;
    for (const auto& raw : raw_lines(text)) {
      EXPECT_LE(raw.size(), 75U) << raw;
      EXPECT_TRUE(is_utf8(raw)) << "a character is cut: " << raw;
      EXPECT_EQ(raw.find_first_of("\r\n"), std::string::npos);
      any_folded = any_folded || raw.starts_with(' ');
    }
    EXPECT_TRUE(any_folded);
  }
}

TEST(Ics, foldsWithinNoCharacterWhereverItFalls) {
  for (std::size_t before = 0; before < 90; ++before) {
    report::Calendar calendar{.title = "", .identity = "x", .revised = revised, .events = {}};
    const std::string summary =
        std::string(before, 'a') + "\xC3\xA9\xE6\xB9\xBF\xF0\x9F\xA6\x80" + std::string(80, 'b');
    calendar.events.push_back({"k", revised, revised + 1min, summary, "", std::nullopt});
    const auto text = report::ics(calendar);
    for (const auto& raw : raw_lines(text)) {
      EXPECT_LE(raw.size(), 75U);
      EXPECT_TRUE(is_utf8(raw)) << before;
    }
    EXPECT_THAT(values(text, "SUMMARY"), testing::ElementsAre(summary));
  }
}

TEST(Ics, escapesReadBackAsTheyWere) {
  report::Calendar calendar{.title = "", .identity = "x", .revised = revised, .events = {}};
  const std::string nasty = "a, b; c\\n not a line\nsecond: \"quoted\" \\\\ , end;";
  calendar.events.push_back({"k", revised, revised + 1min, nasty, nasty, 10min});
  const auto text = report::ics(calendar);
  EXPECT_EQ(unescaped(values(text, "SUMMARY").at(0)), nasty);
  for (const auto& value : values(text, "DESCRIPTION")) EXPECT_EQ(unescaped(value), nasty);
}

TEST(Ics, textCannotBecomeAProperty) {
  planner::Plan plan = sample_plan();
  plan.title = "x\r\nATTACH:file:///etc/passwd\r\nEND:VCALENDAR\n\nBEGIN:VALARM";
  const auto text = written(plan);
  EXPECT_TRUE(values(text, "ATTACH").empty());
  const auto ends = lines(text);
  EXPECT_EQ(std::count(ends.begin(), ends.end(), "END:VCALENDAR"), 1);
}

TEST(Ics, theSameDayPlannedAgainHasTheSameIds) {
  const auto ids = [](const planner::Plan& plan) { return values(written(plan), "UID"); };
  planner::Plan later = sample_plan();
  for (auto& step : later.steps)
    step.start += planner::HalfMinutes(20), step.end += planner::HalfMinutes(20);
  later.finish += planner::HalfMinutes(20);
  EXPECT_EQ(ids(sample_plan()), ids(later));
  const auto all = ids(sample_plan());
  EXPECT_EQ(std::set<std::string>(all.begin(), all.end()).size(), all.size());
  planner::Plan other = sample_plan();
  other.opens += 24h;
  for (const auto& id : ids(other)) EXPECT_THAT(all, testing::Not(testing::Contains(id)));
  // They must not change from one version to the next: calendars would hold every event twice.
  EXPECT_EQ(report::event_id("Salt marsh\n2026-03-14", "first-pull"),
            "first-pull.431fce417d9156e6@dampline");
}

TEST(Ics, whatWasRevisedLaterTakesThePlaceOfWhatWas) {
  const auto sequence = [](Instant at) {
    return std::stol(
        values(report::ics(report::plan_calendar(sample_plan(), sample_clock(), at)), "SEQUENCE")
            .at(0));
  };
  EXPECT_LT(sequence(revised), sequence(revised + 1min));
  EXPECT_LT(sequence(sys_days(2090y / 1 / 1)), 2147483647);
}

TEST(Ics, holdsSoakFirstPullBlottersDryFlatAndStackable) {
  const auto summaries = values(written(sample_plan()), "SUMMARY");
  EXPECT_THAT(summaries, testing::IsSupersetOf(
                             {"Salt marsh\\, two plates", "Lay sheets in the tub\\, sheets 1-4",
                              "First pull: tone\\, print 1 (proof)", "Clean up",
                              "Change the blotters", "Dry to the touch and flat: out of the boards",
                              "Do not stack without tissue before this day"}));
}

TEST(Ics, alarmsStandAfterTheEventsPropertiesAndAreWhole) {
  const auto all = lines(written(sample_plan()));
  int alarms = 0;
  for (std::size_t i = 0; i < all.size(); ++i) {
    if (all[i] != "BEGIN:VALARM") continue;
    ++alarms;
    EXPECT_EQ(all[i + 1], "ACTION:DISPLAY");
    EXPECT_TRUE(all[i + 2].starts_with("DESCRIPTION:"));
    EXPECT_TRUE(all[i + 3] == "TRIGGER:-PT10M" || all[i + 3] == "TRIGGER:PT0S") << all[i + 3];
    EXPECT_EQ(all[i + 4], "END:VALARM");
    EXPECT_EQ(all[i + 5], "END:VEVENT");
  }
  EXPECT_GE(alarms, 7);
}

TEST(Ics, remindersAreEventsThatEndWhenTheStepBegins) {
  auto calendar = report::plan_calendar(sample_plan(), sample_clock(), revised);
  calendar.reminders = true;
  const auto text = report::ics(calendar);
  EXPECT_THAT(values(text, "SUMMARY"),
              testing::Contains("In 10 min: First pull: tone\\, print 1 (proof)"));
}

TEST(Ics, nothingIsPublishedOrInvited) {
  const auto text = written(sample_plan());
  for (const char* name : {"METHOD", "ORGANIZER", "ATTENDEE"})
    EXPECT_TRUE(values(text, name).empty());
  EXPECT_THAT(values(text, "VERSION"), testing::ElementsAre("2.0"));
}

TEST(Ics, timesAreTheSameMomentsOnTheDayTheClocksChange) {
  planner::Plan plan = sample_plan();
  plan.opens = sys_days(2026y / 3 / 28) + 9h;
  const report::Clock spring{[](Instant at) {  // Lisbon: forward at 01:00 UTC on 29 March 2026
    return at < sys_days(2026y / 3 / 29) + 1h ? minutes(0) : minutes(60);
  }};
  // 16 h after the finish is 16 h in the blotters, whatever the clock on the wall says.
  const Instant finish = plan.opens + seconds(plan.finish.count() * 30);
  const Instant due = finish + 16h;
  const auto expected = planner::in_waking_hours(night, spring.offset, due);
  plan.after[1].put_off = std::chrono::floor<minutes>(expected - due);
  const auto text = written(plan, spring);
  EXPECT_EQ(values(text, "DTSTART").at(0), "20260328T090000Z");
  const auto stamp = report::rfc3339({}, expected);
  EXPECT_THAT(
      values(text, "DTSTART"),
      testing::Contains(stamp.substr(0, 4) + stamp.substr(5, 2) + stamp.substr(8, 2) + "T" +
                        stamp.substr(11, 2) + stamp.substr(14, 2) + stamp.substr(17, 2) + "Z"));
}

TEST(Ics, theNightIsSlept) {
  const report::Clock spring{
      [](Instant at) { return at < sys_days(2026y / 3 / 29) + 1h ? minutes(0) : minutes(60); }};
  const auto at = [](int h, int m) { return sys_days(2026y / 3 / 28) + hours(h) + minutes(m); };
  EXPECT_EQ(planner::in_waking_hours(night, spring.offset, at(21, 59)), at(21, 59));
  EXPECT_EQ(planner::in_waking_hours(night, spring.offset, at(22, 0)),
            sys_days(2026y / 3 / 29) + 6h + 30min);
  EXPECT_EQ(planner::in_waking_hours(night, spring.offset, at(28, 0)),
            sys_days(2026y / 3 / 29) + 6h + 30min);
  EXPECT_EQ(planner::in_waking_hours(night, spring.offset, at(7, 30)), at(7, 30));
  EXPECT_EQ(planner::in_waking_hours(night, spring.offset, at(4, 50)), at(7, 30));
}

}  // namespace
}  // namespace dampline::tests
