#include <functional>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <dampline/session/logged_air.hpp>
#include <dampline/session/zone.hpp>

namespace dampline::session {
namespace {

using namespace std::chrono_literals;
using std::chrono::sys_days;
using std::chrono::sys_seconds;
using testing::Contains;
using testing::HasSubstr;
using testing::IsEmpty;

const sys_days today = 2026y / 3 / 14;

// Lisbon keeps UTC in March, so clock hours are hours since midnight.
WantedAir working_hours() {
  return {.zero = today,
          .from = units::hours(9.5),
          .until = units::hours(17.5),
          .zone = "Europe/Lisbon"};
}

struct Air {
  double celsius;
  double percent;
};

// Readings of some days from hour to hour, every so many minutes.
Readings log_of(int first_day, int last_day, double from, double until, double minutes,
                const std::function<Air(int day, double hour)>& air) {
  Readings r;
  r.file = "log.csv";
  r.zone = "Europe/Lisbon";
  r.interval = std::chrono::seconds(static_cast<int>(minutes * 60));
  int line = 1;
  for (int day = first_day; day <= last_day; ++day) {
    for (double hour = from; hour < until - 1e-9; hour += minutes / 60) {
      const auto a = air(day, hour);
      r.rows.push_back({++line,
                        sys_seconds(sys_days(2026y / 3 / day)) +
                            std::chrono::seconds(static_cast<int>(hour * 3600 + 0.5)),
                        units::celsius(a.celsius), units::RelativeHumidity(a.percent / 100)});
    }
  }
  return r;
}

double celsius(const HoursAir& air, double hour) {
  return units::in_celsius(air::Room({}, air.lines).at(units::hours(hour)).temperature);
}
double percent(const HoursAir& air, double hour) {
  return air::Room({}, air.lines).at(units::hours(hour)).humidity.percent();
}

std::string told(const HoursAir& air, const Readings& r, const WantedAir& wanted) {
  std::string out;
  for (const auto& line : described(air, r, wanted)) out += line + "\n";
  for (const auto& d : doubts(air, r, wanted)) out += "doubt: " + d.what + "\n";
  return out;
}

TEST(LoggedAir, aCoveredDayIsTheLogItself) {
  const auto r = log_of(14, 14, 8, 19, 30, [](int, double h) { return Air{h, 40 + h}; });
  const auto wanted = working_hours();
  const auto air = air_for(r, wanted);
  ASSERT_EQ(air.hours.size(), 1U);
  EXPECT_EQ(air.hours[0].basis, AirBasis::logged);
  EXPECT_EQ(air.rows, 17);
  EXPECT_NEAR(celsius(air, 12.25), 12.25, 1e-6);
  EXPECT_NEAR(percent(air, 12.25), 52.25, 1e-6);
  EXPECT_THAT(doubts(air, r, wanted), IsEmpty());
  EXPECT_EQ(told(air, r, wanted),
            "log.csv has 22 readings, one every 30 min; 17 of them lie in the hours planned.\n"
            "09:30 to 17:30: as logged.\n");
}

TEST(LoggedAir, aGapOfTwoHoursIsBridgedAndToldWithItsLines) {
  auto r = log_of(14, 14, 8, 19, 30, [](int, double h) { return Air{h, 50}; });
  r.rows.erase(r.rows.begin() + 7, r.rows.begin() + 10);  // 11:30 to 12:30
  r.gaps = {{r.rows[6].at, r.rows[7].at, r.rows[6].line, r.rows[7].line}};
  const auto wanted = working_hours();
  const auto air = air_for(r, wanted);
  EXPECT_EQ(air.hours.size(), 1U);
  EXPECT_NEAR(celsius(air, 12), 12, 1e-6);
  EXPECT_THAT(told(air, r, wanted),
              HasSubstr("No reading from 11:00 to 13:00 (lines 8 and 12): a straight line joins"));
}

TEST(LoggedAir, overALongGapTheNearestReadingStands) {
  auto r = log_of(14, 14, 8, 19, 60, [](int, double h) { return Air{h, 50}; });
  r.rows.erase(r.rows.begin() + 3, r.rows.begin() + 7);  // 11:00 to 14:00; left: 10:00, 15:00
  const auto wanted = working_hours();
  const auto air = air_for(r, wanted);
  ASSERT_EQ(air.hours.size(), 3U);
  EXPECT_EQ(air.hours[1].basis, AirBasis::nearest);
  EXPECT_NEAR(units::in_hours(air.hours[1].from), 11, 1e-9);
  EXPECT_NEAR(units::in_hours(air.hours[1].until), 14, 1e-9);
  EXPECT_NEAR(celsius(air, 12.4), 10, 1e-3);
  EXPECT_NEAR(celsius(air, 12.6), 15, 1e-3);
  EXPECT_THAT(told(air, r, wanted), HasSubstr("doubt: log.csv has no reading near 11:00 to 14:00"));
}

TEST(LoggedAir, aDayNotLoggedIsTheMeanOfTheOthersByTheHour) {
  // 15, 16 and 17 degC warmer than the hour is late: a mean of 16 and a standard deviation of 1.
  const auto r = log_of(10, 12, 0, 24, 20, [](int day, double h) {
    return Air{std::floor(h) + day - 1 - 9, 44 + 2.0 * day - 20};
  });
  const auto wanted = working_hours();
  const auto air = air_for(r, wanted);
  ASSERT_EQ(air.hours.size(), 1U);
  EXPECT_EQ(air.hours[0].basis, AirBasis::typical);
  EXPECT_EQ(air.rows, 0);
  ASSERT_EQ(air.days.size(), 3U);
  EXPECT_NEAR(celsius(air, 12.5), 13, 1e-6);  // at half past: the mean of that hour
  EXPECT_NEAR(celsius(air, 13.0), 13.5, 1e-6);
  EXPECT_NEAR(percent(air, 12.5), 46, 1e-6);
  ASSERT_TRUE(air.spread_known);
  EXPECT_NEAR(units::in_si(air.temperature_spread), 1.2816, 1e-3);
  EXPECT_NEAR(air.humidity_spread.percent(), 2 * 1.2816, 2e-3);
  EXPECT_THAT(told(air, r, wanted),
              HasSubstr("09:30 to 17:30: a typical day, the mean by the clock hour of the readings "
                        "of 10 to 12 March; 8 of 10 hours lie within 1.3 K and 3 % RH of it."));
}

TEST(LoggedAir, hoursNotLoggedYetFollowTheOtherDays) {
  auto r = log_of(12, 13, 0, 24, 30, [](int, double) { return Air{18, 60}; });
  const auto morning = log_of(14, 14, 8, 11, 30, [](int, double) { return Air{14, 50}; });
  r.rows.insert(r.rows.end(), morning.rows.begin(), morning.rows.end());
  const auto wanted = working_hours();
  const auto air = air_for(r, wanted);
  ASSERT_EQ(air.hours.size(), 2U);
  EXPECT_EQ(air.hours[0].basis, AirBasis::logged);
  EXPECT_NEAR(units::in_hours(air.hours[0].until), 11.5, 1e-9);
  EXPECT_NEAR(celsius(air, 10), 14, 1e-6);
  EXPECT_NEAR(celsius(air, 15), 18, 1e-6);
}

TEST(LoggedAir, aTypicalDayIsOfTheFourteenNearestDays) {
  const auto r = log_of(20, 31, 0, 24, 60, [](int, double) { return Air{18, 60}; });
  auto early = log_of(1, 10, 0, 24, 60, [](int, double) { return Air{12, 60}; });
  early.rows.insert(early.rows.end(), r.rows.begin(), r.rows.end());
  const auto wanted = working_hours();
  const auto air = air_for(early, wanted);
  ASSERT_EQ(air.days.size(), 14U);
  EXPECT_EQ(air.days.front(), 2026y / 3 / 3);
  EXPECT_EQ(air.days.back(), 2026y / 3 / 25);
}

TEST(LoggedAir, theEveningBeforeIsOnTheSameClock) {
  const auto r = log_of(13, 14, 0, 24, 30, [](int day, double h) {
    return Air{day == 13 ? 10 + h / 10 : 20.0, 50};
  });
  auto wanted = working_hours();
  wanted.from = units::hours(-4);
  const auto air = air_for(r, wanted);
  EXPECT_EQ(air.hours.size(), 1U);
  EXPECT_NEAR(celsius(air, -4), 12, 1e-6);
  EXPECT_THAT(told(air, r, wanted), HasSubstr("13 March 20:00 to 17:30: as logged."));
}

TEST(LoggedAir, readingsCloseTogetherAreAveraged) {
  int n = 0;
  const auto r = log_of(14, 14, 8, 19, 1.0 / 6, [&](int, double) {
    return Air{17 + (++n % 2 == 0 ? 1.0 : -1.0), 50};
  });
  const auto wanted = working_hours();
  const auto air = air_for(r, wanted);
  EXPECT_EQ(air.lines.size(), 11U * 12);
  EXPECT_NEAR(celsius(air, 12.34), 17, 1e-6);
  EXPECT_THAT(told(air, r, wanted), HasSubstr("Readings are averaged over 5 min."));
}

TEST(LoggedAir, frostAndHeatAreNotUsedAndTold) {
  auto r = log_of(14, 14, 8, 19, 30, [](int, double h) { return Air{h == 12 ? 50.0 : 17.0, 50}; });
  const auto wanted = working_hours();
  const auto air = air_for(r, wanted);
  EXPECT_NEAR(celsius(air, 12), 17, 1e-6);
  EXPECT_THAT(told(air, r, wanted),
              HasSubstr("doubt: 1 reading of log.csv outside 0 to 45 degC is not used"));
  for (auto& row : r.rows) row.temperature = units::celsius(-3);
  EXPECT_THAT(air_for(r, wanted).lines, IsEmpty());
}

TEST(LoggedAir, anotherSeasonIsDoubtful) {
  auto r = log_of(1, 3, 0, 24, 60, [](int, double) { return Air{17, 50}; });
  for (auto& row : r.rows) row.at -= std::chrono::hours(24 * 60);
  const auto wanted = working_hours();
  EXPECT_THAT(told(air_for(r, wanted), r, wanted), HasSubstr("71 days from the day planned"));
}

}  // namespace
}  // namespace dampline::session
