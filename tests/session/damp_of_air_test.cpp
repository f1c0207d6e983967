#include <cmath>

#include <gtest/gtest.h>

#include <dampline/units/text.hpp>

#include "session/sessions.hpp"
#include "support/reference_table.hpp"

namespace dampline::session {
namespace {

// [ashrae2017] ch. 1 eq. 3, turned round.
double altitude_m(double pascal) {
  return (1 - std::pow(pascal / 101325, 1 / 5.2559)) / 2.25577e-5;
}

std::string quoted(const std::string& key, double value, const std::string& unit) {
  return key + " = \"" + units::fixed(value, 4) + " " + unit + "\"\n";
}

double humidity_percent(const tests::ReferenceRow& row, const std::string& damp) {
  auto text = tests::least;
  const std::string head = "[studio]\n";
  text.insert(text.find(head) + head.size(), quoted("temperature", row.cell[0], "degC") + damp +
                                                 quoted("altitude", altitude_m(row.cell[2]), "m"));
  return tests::read_well(text).studio.humidity.percent();
}

// The table's own 0.01 K is at most 0.2 points of humidity at the temperatures of a studio.
constexpr double allowed_points = 0.2;

bool of_a_studio(const tests::ReferenceRow& row) {
  const bool high = row.cell[2] < 101325;
  return row.cell[0] >= 1 && row.cell[0] <= 45 && altitude_m(row.cell[2]) <= 5000 &&
         (high || row.cell[2] == 101325);
}

TEST(DampOfTheAir, aWetBulbAtAnAltitudeAgreesWithPsychrolib) {
  int seen = 0;
  int high = 0;
  for (const auto& row : tests::reference_table("psychrolib_points.csv")) {
    if (!of_a_studio(row) || row.cell[3] < 0) continue;
    SCOPED_TRACE("psychrolib_points.csv line " + std::to_string(row.line));
    const auto damp = quoted("wet_bulb", row.cell[3], "degC");
    EXPECT_NEAR(humidity_percent(row, damp), 100 * row.cell[1], allowed_points);
    ++seen;
    if (altitude_m(row.cell[2]) > 500) ++high;
  }
  EXPECT_GE(seen, 40);
  EXPECT_GE(high, 3);
}

TEST(DampOfTheAir, aDewPointAtAnAltitudeAgreesWithPsychrolib) {
  int seen = 0;
  for (const auto& row : tests::reference_table("psychrolib_points.csv")) {
    if (!of_a_studio(row) || std::isnan(row.cell[4])) continue;
    SCOPED_TRACE("psychrolib_points.csv line " + std::to_string(row.line));
    const auto damp = quoted("dew_point", row.cell[4], "degC");
    EXPECT_NEAR(humidity_percent(row, damp), 100 * row.cell[1], allowed_points);
    ++seen;
  }
  EXPECT_GE(seen, 30);
}

}  // namespace
}  // namespace dampline::session
