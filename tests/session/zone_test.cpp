#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <dampline/session/zone.hpp>

#include "session/sessions.hpp"

namespace dampline::session {
namespace {

using namespace std::chrono_literals;
using std::chrono::minutes;
using testing::HasSubstr;

minutes clock(int hours, int mins) { return std::chrono::hours(hours) + minutes(mins); }

TEST(Zone, lisbonInMarchIsOnUtc) {
  const auto t = to_utc("Europe/Lisbon", 2026y / 3 / 14, clock(9, 48));
  EXPECT_EQ(t.kind, LocalInstant::Kind::unique);
  EXPECT_EQ(t.offset, 0min);
  EXPECT_EQ(rfc3339("Europe/Lisbon", t.at), "2026-03-14T09:48:00+00:00");
}

TEST(Zone, offsetsEastAndWestAndOfHalfHours) {
  const auto at = [](const char* zone) {
    return rfc3339(zone, to_utc(zone, 2026y / 7 / 1, clock(23, 30)).at);
  };
  EXPECT_EQ(at("Asia/Kolkata"), "2026-07-01T23:30:00+05:30");
  EXPECT_EQ(at("America/St_Johns"), "2026-07-01T23:30:00-02:30");
  EXPECT_EQ(at("Europe/Lisbon"), "2026-07-01T23:30:00+01:00");
  EXPECT_EQ(date_at("Asia/Kolkata", std::chrono::sys_days(2026y / 7 / 1) + 20h), 2026y / 7 / 2);
}

// [tzdb] In 2026 the European clocks change on 29 March and 25 October at 01:00 UTC.
TEST(Zone, springHasAnHourThatIsNot) {
  const auto t = to_utc("Europe/Berlin", 2026y / 3 / 29, clock(2, 30));
  EXPECT_EQ(t.kind, LocalInstant::Kind::skipped);
  EXPECT_EQ(t.change, clock(2, 0));
  EXPECT_EQ(t.changed, clock(3, 0));
  EXPECT_EQ(t.at, std::chrono::sys_days(2026y / 3 / 29) + 1h);
}

TEST(Zone, autumnHasAnHourTwice) {
  const auto t = to_utc("Europe/Berlin", 2026y / 10 / 25, clock(2, 30));
  EXPECT_EQ(t.kind, LocalInstant::Kind::repeated);
  EXPECT_EQ(t.at, std::chrono::sys_days(2026y / 10 / 25) + 30min);
  EXPECT_EQ(t.offset, 120min);
  EXPECT_EQ(t.change, clock(3, 0));
  EXPECT_EQ(t.changed, clock(2, 0));
}

TEST(Zone, aDayOnWhichTheClocksChangeIsAnHourShorterOrLonger) {
  Day day;
  day.date = 2026y / 3 / 29;
  day.from = clock(1, 0);
  day.until = clock(9, 0);
  day.zone = "Europe/Berlin";
  EXPECT_EQ(since_opening(day, day.until), 7h);
  day.date = 2026y / 10 / 25;
  EXPECT_EQ(since_opening(day, day.until), 9h);
  day.date = 2026y / 10 / 26;
  EXPECT_EQ(since_opening(day, day.until), 8h);
}

TEST(Zone, unknownOnesAreKnownAsSuch) {
  EXPECT_TRUE(is_zone("Europe/Lisbon"));
  for (const char* name : {"", "Mars/Phobos", "Europe/Lisbom", "../../etc/passwd", "/etc/passwd"}) {
    EXPECT_FALSE(is_zone(name)) << name;
  }
  EXPECT_EQ(nearest_zone("Europe/Lisbom"), "Europe/Lisbon");
  EXPECT_EQ(nearest_zone("lisbon"), "Europe/Lisbon");
  EXPECT_EQ(nearest_zone("New York"), "America/New_York");
  EXPECT_EQ(nearest_zone("Mars/Phobos"), std::nullopt);
  EXPECT_TRUE(is_zone(zone_of_system()));
}

TEST(Zone, aSessionInTheGapIsAnErrorThatNamesBothSides) {
  const auto text =
      tests::with("[day]", "date = 2026-03-29\nzone = \"Europe/Berlin\"\nfrom = \"02:30\"");
  const auto errors = tests::errors_in(text);
  ASSERT_EQ(errors.size(), 1U);
  EXPECT_THAT(errors[0].what, HasSubstr("there is no 02:30"));
  EXPECT_THAT(errors[0].what, HasSubstr("from 02:00 to 03:00"));
  EXPECT_EQ(errors[0].where.line, 4);
}

TEST(Zone, aSessionInTheHourThatComesTwiceSaysWhichIsMeant) {
  const auto s = tests::read_well(
      tests::with("[day]", "date = 2026-10-25\nzone = \"Europe/Berlin\"\nfrom = \"02:30\""));
  ASSERT_EQ(s.warnings.size(), 1U);
  EXPECT_THAT(s.warnings[0].what, HasSubstr("comes twice"));
  EXPECT_EQ(rfc3339(s.day.zone, opening(s.day)), "2026-10-25T02:30:00+02:00");
}

}  // namespace
}  // namespace dampline::session
