#include <stdexcept>

#include <gtest/gtest.h>

#include <dampline/air/room.hpp>

namespace dampline::air {
namespace {

LogLine reading(double hour, double celsius, double percent) {
  return {units::hours(hour), units::celsius(celsius), units::RelativeHumidity(percent / 100)};
}

TEST(Room, joinsReadingsByStraightLinesAndKeepsTheNearestOutside) {
  const Room room(Climate{}, {reading(8, 14, 60), reading(10, 18, 50)});
  EXPECT_NEAR(units::in_celsius(room.at(units::hours(9)).temperature), 16, 1e-9);
  EXPECT_NEAR(room.at(units::hours(9)).humidity.percent(), 55, 1e-9);
  EXPECT_NEAR(room.at(units::hours(1)).humidity.percent(), 60, 1e-9);
  EXPECT_NEAR(room.at(units::hours(30)).humidity.percent(), 50, 1e-9);
}

TEST(Room, spellsCoverTheTimeWithoutGapsAndStayCloseToTheReadings) {
  const Room room(Climate{}, {reading(0, 20, 50), reading(1, 20.2, 51), reading(2, 20.1, 50.5),
                              reading(3, 23, 40), reading(9, 23, 40)});
  const auto spells = room.spells(units::hours(0.5), units::hours(12));
  EXPECT_EQ(spells.front().from, units::hours(0.5));
  EXPECT_EQ(spells.back().until, units::hours(12));
  EXPECT_GT(spells.size(), 5u);
  EXPECT_LT(spells.size(), 12u);
  for (std::size_t i = 0; i < spells.size(); ++i) {
    if (i > 0) {
      EXPECT_EQ(spells[i].from, spells[i - 1].until);
    }
    for (const double share : {0.0, 0.3, 1.0}) {
      const auto t = spells[i].from + (spells[i].until - spells[i].from) * share;
      const auto there = room.at(t);
      EXPECT_NEAR(units::in_celsius(there.temperature),
                  units::in_celsius(spells[i].climate.temperature), 0.5);
      EXPECT_NEAR(there.humidity.percent(), spells[i].climate.humidity.percent(), 2.0);
    }
  }
}

TEST(Room, meanIsThatOfTheLines) {
  const Room room(Climate{}, {reading(0, 10, 40), reading(4, 20, 60)});
  EXPECT_NEAR(units::in_celsius(room.mean(units::hours(0), units::hours(4)).temperature), 15, 1e-9);
  EXPECT_NEAR(room.mean(units::hours(2), units::hours(6)).humidity.percent(), 57.5, 1e-9);
}

TEST(Room, withoutReadingsIsOneSpell) {
  const Room room{Climate{}};
  EXPECT_EQ(room.spells(units::hours(0), units::hours(9)).size(), 1u);
  EXPECT_FALSE(room.logged());
}

TEST(Room, onALaterClockIsTheSameAir) {
  const Room room(Climate{}, {reading(8, 14, 60), reading(10, 18, 50), reading(12, 20, 45)});
  const Room later = room.starting(units::hours(9));
  for (const double hour : {-3.0, 0.0, 0.4, 2.9, 20.0}) {
    const auto a = later.at(units::hours(hour));
    const auto b = room.at(units::hours(hour + 9));
    EXPECT_NEAR(a.humidity.percent(), b.humidity.percent(), 1e-9);
    EXPECT_NEAR(units::in_celsius(a.temperature), units::in_celsius(b.temperature), 1e-9);
  }
}

TEST(Room, movedKeepsItsTemperatureAndStaysInRange) {
  const Room room(Climate{}, {reading(8, 14, 60), reading(10, 18, 97), reading(11, 18, 1)});
  const Room damper = room.moved(units::RelativeHumidity(0.03));
  EXPECT_NEAR(damper.at(units::hours(8)).humidity.percent(), 63, 1e-9);
  EXPECT_NEAR(damper.at(units::hours(10)).humidity.percent(), 98, 1e-9);
  EXPECT_NEAR(units::in_celsius(damper.at(units::hours(9)).temperature), 16, 1e-9);
  const Room drier = room.moved(units::RelativeHumidity(-0.03));
  EXPECT_NEAR(drier.at(units::hours(11)).humidity.percent(), 0, 1e-9);
}

TEST(Room, refusesReadingsThatDoNotRise) {
  EXPECT_THROW(Room(Climate{}, {reading(2, 20, 50), reading(2, 20, 50)}), std::invalid_argument);
}

}  // namespace
}  // namespace dampline::air
