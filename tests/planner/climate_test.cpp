#include <cmath>

#include <gtest/gtest.h>

#include <dampline/planner/climate.hpp>

namespace dampline::planner {
namespace {

using namespace std::chrono_literals;

const units::Duration evening = units::hours(20);

session::Session a_day() {
  session::Session s;
  s.day.date = 2026y / 3 / 14;
  s.day.from = 9h + 30min;
  s.day.until = 17h + 30min;
  s.day.zone = "Europe/Vienna";
  s.studio.temperature = units::celsius(17);
  s.studio.humidity = units::RelativeHumidity(0.52);
  s.studio.altitude = units::metres(90);
  s.studio.air = air::AirMovement::still;
  return s;
}

// Half-hourly, 10 degC and an hour's worth of degrees more for each hour of the clock in Vienna.
session::Readings log_of(std::chrono::sys_days first, int days) {
  session::Readings r;
  r.file = "log.csv";
  r.zone = "Europe/Vienna";
  r.interval = 30min;
  for (int half = 0; half < 48 * days; ++half) {
    const double hour = 0.5 * (half % 48);
    r.rows.push_back({half + 2, std::chrono::sys_seconds(first) - 1h + half * 30min,
                      units::celsius(10 + hour), units::RelativeHumidity(0.4 + 0.01 * hour)});
  }
  return r;
}

StudioAir good(const session::Session& s) {
  const auto found = studio_air(s, evening);
  if (const auto* errors = std::get_if<session::InputErrors>(&found)) {
    for (const auto& e : *errors) ADD_FAILURE() << session::rendered(e);
    return {};
  }
  return std::get<StudioAir>(found);
}

TEST(StudioAir, ofOneReadingIsThatReading) {
  const auto studio = good(a_day());
  EXPECT_FALSE(studio.room.logged());
  EXPECT_FALSE(studio.logged.has_value());
  EXPECT_NEAR(units::in_celsius(studio.usual.temperature), 17, 1e-12);
  EXPECT_NEAR(units::in_si(studio.usual.pressure), 100248, 5);  // [ashrae2017] ch. 1 eq. 3
  for (auto draw : method::draws(8, 1)) {
    const auto before = draw.humidity;
    const auto room = likely_air(studio, draw).at(units::hours(12));
    EXPECT_EQ(room.humidity, method::drawn(studio.usual, draw).humidity);
    EXPECT_EQ(draw.humidity, before);
  }
}

TEST(StudioAir, ofALogIsOnTheClockOfTheDay) {
  auto s = a_day();
  s.studio.readings = "log.csv";
  s.studio.log = log_of(2026y / 3 / 14, 1);
  const auto studio = good(s);
  EXPECT_NEAR(units::in_celsius(studio.room.at(units::hours(12)).temperature), 22, 1e-9);
  EXPECT_NEAR(units::in_hours(studio.opens), 9.5, 1e-12);
  EXPECT_NEAR(units::in_celsius(studio.usual.temperature), 10 + 13.5, 1e-9);
  EXPECT_NEAR(studio.usual.humidity.percent(), 53.5, 1e-9);
  EXPECT_NEAR(units::in_si(studio.usual.pressure), 100248, 5);
  EXPECT_EQ(studio.usual.air, air::AirMovement::still);
  ASSERT_TRUE(studio.logged.has_value());
  EXPECT_NEAR(units::in_celsius(studio.logged->coldest), 19.5, 1e-9);
  EXPECT_NEAR(studio.logged->dampest.percent(), 57.5, 1e-9);
  EXPECT_NEAR(studio.scatter.percent(), 2, 1e-12);
  ASSERT_EQ(studio.logged->hours.size(), 1U);
  EXPECT_EQ(studio.logged->hours[0].from, HalfMinutes(0));
  EXPECT_EQ(studio.logged->hours[0].until, HalfMinutes(8 * 120));
}

TEST(StudioAir, ofALogScattersLessThanOneReading) {
  auto s = a_day();
  s.studio.readings = "log.csv";
  s.studio.log = log_of(2026y / 3 / 14, 1);
  const auto studio = good(s);
  for (auto draw : method::draws(16, 1)) {
    const double score = draw.humidity;
    const auto room = likely_air(studio, draw);
    const double moved = room.at(units::hours(12)).humidity.percent() - 52;
    EXPECT_NEAR(moved, 2 / 1.2815515655 * std::clamp(score, -2.5, 2.5), 1e-6);
    EXPECT_EQ(room.at(units::hours(12)).temperature, studio.room.at(units::hours(12)).temperature);
    // What else is made of the draw moves alike.
    EXPECT_NEAR(
        method::drawn(studio.usual, draw).humidity.percent() - studio.usual.humidity.percent(),
        moved, 1e-6);
  }
}

TEST(StudioAir, thatIsDampedTheEveningBeforeReachesBackToIt) {
  auto s = a_day();
  s.damping.evening_before = true;
  s.studio.readings = "log.csv";
  s.studio.log = log_of(2026y / 3 / 13, 2);
  const auto studio = good(s);
  ASSERT_EQ(studio.logged->hours.size(), 1U);
  EXPECT_EQ(studio.logged->hours[0].from, HalfMinutes(-static_cast<int>(13.5 * 120)));
  EXPECT_NEAR(units::in_celsius(studio.room.at(units::hours(-4)).temperature), 30, 1e-9);
  EXPECT_NEAR(units::in_celsius(studio.usual.temperature), 23.5, 1e-9);  // of the working hours
}

// Vienna's clocks go from 02:00 to 03:00 on 29 March 2026: the room's clock goes by real time and
// shows the opening hour at opening.
TEST(StudioAir, ofADayWhenTheClocksChangeAgreesAtOpening) {
  auto s = a_day();
  s.day.date = 2026y / 3 / 29;
  s.studio.readings = "log.csv";
  auto log = log_of(2026y / 3 / 28, 2);
  // 10:00 summer time on the 29th is 08:00 UTC.
  const auto ten = std::chrono::sys_seconds(std::chrono::sys_days(2026y / 3 / 29)) + 8h;
  units::Temperature then{};
  for (const auto& row : log.rows) {
    if (row.at == ten) then = row.temperature;
  }
  s.studio.log = log;
  const auto studio = good(s);
  EXPECT_EQ(studio.room.at(units::hours(10)).temperature, then);
}

TEST(StudioAir, ofAFrozenOrMissingLogIsAnError) {
  auto s = a_day();
  s.studio.readings = "log.csv";
  EXPECT_TRUE(std::holds_alternative<session::InputErrors>(studio_air(s, evening)));
  auto log = log_of(2026y / 3 / 14, 1);
  for (auto& row : log.rows) row.temperature = units::celsius(-1);
  s.studio.log = log;
  const auto found = studio_air(s, evening);
  ASSERT_TRUE(std::holds_alternative<session::InputErrors>(found));
  EXPECT_NE(std::get<session::InputErrors>(found).front().what.find("within 0 to 45 degC"),
            std::string::npos);
}

}  // namespace
}  // namespace dampline::planner
