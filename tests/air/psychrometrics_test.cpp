#include <cmath>
#include <stdexcept>

#include <gtest/gtest.h>

#include <dampline/air/psychrometrics.hpp>
#include <dampline/units/out_of_range.hpp>

#include "support/reference_table.hpp"

namespace dampline::air {
namespace {

using units::celsius;
using units::in_celsius;
using units::in_si;
using units::pascal;
using units::RelativeHumidity;

double saturation_at(double c) { return in_si(saturation_pressure(celsius(c))); }

void expect_saturation(const std::string& file) {
  const auto table = tests::reference_table(file);
  for (const auto& row : table) {
    SCOPED_TRACE(file + " line " + std::to_string(row.line));
    EXPECT_NEAR(saturation_at(row.cell[0]), row.cell[1], table.allowed * row.cell[1]);
  }
}

TEST(SaturationPressure, agreesWithTheHandbook) { expect_saturation("saturation_pressure.csv"); }

TEST(SaturationPressure, agreesWithAnotherFormula) {
  expect_saturation("saturation_pressure_hyland.csv");
}

TEST(SaturationPressure, agreesWithAPrintedTableUpTo35DegC) {
  const auto table = tests::reference_table("saturation_pressure_printed.csv");
  for (const auto& row : table) {
    if (row.cell[0] > 35) continue;
    SCOPED_TRACE(row.line);
    EXPECT_NEAR(saturation_at(row.cell[0]), row.cell[1], table.allowed * row.cell[1]);
  }
}

// A known miss: the older table is lower, by what the file's head says.
TEST(SaturationPressure, isAboveThePrintedTableFrom40DegC) {
  for (const auto& row : tests::reference_table("saturation_pressure_printed.csv")) {
    if (row.cell[0] < 40) continue;
    SCOPED_TRACE(row.line);
    const double excess = saturation_at(row.cell[0]) / row.cell[1] - 1;
    EXPECT_GT(excess, 0.0005);
    EXPECT_LT(excess, 0.0008);
  }
}

TEST(SaturationPressure, refusesWhatItDoesNotKnow) {
  EXPECT_THROW((void)saturation_pressure(celsius(-41)), units::OutOfRange);
  EXPECT_THROW((void)saturation_pressure(celsius(101)), units::OutOfRange);
  EXPECT_THROW((void)saturation_pressure(celsius(std::nan(""))), units::OutOfRange);
}

TEST(SaturationPressure, slopeIsItsDerivative) {
  for (double k = 240; k < 370; k += 7) {
    const double difference =
        (saturation_pressure_si(k + 0.01) - saturation_pressure_si(k - 0.01)) / 0.02;
    EXPECT_NEAR(saturation_slope_si(k), difference, 1e-6 * difference) << k;
  }
}

TEST(DewPoint, invertsTheSaturationPressure) {
  for (double c = -39; c < 100; c += 3.7) {
    EXPECT_NEAR(in_celsius(dew_point(saturation_pressure(celsius(c)))), c, 1e-8);
  }
  EXPECT_THROW((void)dew_point(pascal(0)), units::OutOfRange);
  EXPECT_THROW((void)dew_point(pascal(-5)), units::OutOfRange);
}

TEST(MoistAir, agreesWithPsychrolib) {
  const auto table = tests::reference_table("psychrolib_points.csv");
  EXPECT_GE(table.rows.size(), 55U);
  for (const auto& row : table) {
    SCOPED_TRACE("psychrolib_points.csv line " + std::to_string(row.line));
    const auto state =
        state_from({.temperature = celsius(row.cell[0]), .humidity = RelativeHumidity(row.cell[1])},
                   pascal(row.cell[2]));
    EXPECT_NEAR(in_celsius(state.wet_bulb), row.cell[3], 0.01);
    ASSERT_TRUE(state.dew_point.has_value());
    if (!std::isnan(row.cell[4])) {
      EXPECT_NEAR(in_celsius(*state.dew_point), row.cell[4], 0.01);
    }
    EXPECT_NEAR(state.humidity_ratio.parts_of_one(), row.cell[5], table.allowed * row.cell[5]);
    EXPECT_NEAR(in_si(state.density), row.cell[6], table.allowed * row.cell[6]);
  }
}

double example(const tests::ReferenceRow& row) {
  const auto& quantity = row.field[0];
  const auto t = celsius(row.cell[1]);
  const auto p = pascal(row.cell[3]);
  if (quantity.ends_with("at W 0.02")) {
    const double vapour = vapour_pressure_si(0.02, in_si(p));
    const double density = in_si(air_density(t, pascal(vapour), p));
    return quantity.starts_with("density") ? density : 1.02 / density;
  }
  const auto s = state_from({.temperature = t, .wet_bulb = celsius(row.cell[2])}, p);
  const double ratio = s.humidity_ratio.parts_of_one();
  if (quantity == "humidity ratio") return ratio;
  if (quantity == "dew point") return in_celsius(s.dew_point.value());
  if (quantity == "relative humidity") return s.humidity.parts_of_one();
  if (quantity == "volume") return (1 + ratio) / in_si(s.density);
  throw std::runtime_error("no such quantity: " + quantity);
}

TEST(MoistAir, agreesWithWorkedExamples) {
  for (const auto& row : tests::reference_table("moist_air_examples.csv")) {
    SCOPED_TRACE("moist_air_examples.csv line " + std::to_string(row.line));
    EXPECT_NEAR(example(row), row.cell[4], row.cell[5]);
  }
}

// A known miss: no enhancement factor, so saturated air holds 0.3 to 0.6 % less than the
// handbook's.
TEST(MoistAir, holdsSlightlyLessThanRealAir) {
  const auto table = tests::reference_table("saturation_humidity_ratio.csv");
  for (const auto& row : table) {
    SCOPED_TRACE(row.line);
    const double ratio =
        humidity_ratio(saturation_pressure(celsius(row.cell[0])), pascal(101325)).parts_of_one();
    EXPECT_LT(ratio / row.cell[1] - 1, -0.002);
    EXPECT_GT(ratio / row.cell[1] - 1, -table.allowed);
  }
}

TEST(StandardAtmosphere, agreesWithThePublishedTable) {
  const auto table = tests::reference_table("standard_atmosphere.csv");
  for (const auto& row : table) {
    EXPECT_NEAR(in_si(standard_atmosphere(units::metres(row.cell[0]))), row.cell[1], table.allowed);
  }
  EXPECT_THROW((void)standard_atmosphere(units::metres(20000)), units::OutOfRange);
}

// [massman1998] and [monteith2013] (2.12e-5 (T/273.15)^1.75, 2.471e-5 m2/s at 25 degC) differ by
// 3.3 %: that much is not known.
TEST(VapourDiffusivity, isWithinTheSpreadOfTwoSources) {
  const double here = in_si(vapour_diffusivity(celsius(25), pascal(101325)));
  EXPECT_NEAR(here, 2.552e-5, 0.001e-5);
  EXPECT_NEAR(here / 2.471125e-5, 1.033, 0.001);
}

TEST(StateFrom, anyTwoReadingsGiveTheSameAir) {
  for (const double c : {3.0, 12.0, 20.0, 31.0, 45.0}) {
    for (const double h : {0.08, 0.35, 0.5, 0.9, 1.0}) {
      for (const double p : {101325.0, 70000.0}) {
        const auto a =
            state_from({.temperature = celsius(c), .humidity = RelativeHumidity(h)}, pascal(p));
        const auto same = [&](const AirState& b, const char* pair) {
          SCOPED_TRACE(std::string(pair) + " at " + std::to_string(c) + ", " + std::to_string(h));
          EXPECT_NEAR(in_si(b.temperature), in_si(a.temperature), 1e-5);
          EXPECT_NEAR(b.humidity.parts_of_one(), h, 1e-6);
          EXPECT_NEAR(in_si(b.wet_bulb), in_si(a.wet_bulb), 1e-5);
          EXPECT_NEAR(in_si(b.density), in_si(a.density), 1e-7);
        };
        const auto dew = a.dew_point;
        ASSERT_TRUE(dew);
        same(state_from({.temperature = celsius(c), .wet_bulb = a.wet_bulb}, pascal(p)), "T wet");
        same(state_from({.temperature = celsius(c), .dew_point = dew}, pascal(p)), "T dew");
        if (h < 1) {
          same(state_from({.wet_bulb = a.wet_bulb, .dew_point = dew}, pascal(p)), "wet dew");
        }
        if (in_celsius(a.wet_bulb) < -19.9) continue;
        same(state_from({.humidity = RelativeHumidity(h), .wet_bulb = a.wet_bulb}, pascal(p)),
             "RH wet");
        same(state_from({.humidity = RelativeHumidity(h), .dew_point = dew}, pascal(p)), "RH dew");
      }
    }
  }
}

TEST(StateFrom, refusesOneOrThreeReadingsAndContradictions) {
  const auto p = pascal(101325);
  EXPECT_THROW((void)state_from({.temperature = celsius(20)}, p), std::invalid_argument);
  EXPECT_THROW(
      (void)state_from(
          {.temperature = celsius(20), .humidity = RelativeHumidity(0.5), .dew_point = celsius(9)},
          p),
      std::invalid_argument);
  EXPECT_THROW((void)state_from({.temperature = celsius(20), .wet_bulb = celsius(21)}, p),
               units::OutOfRange);
  EXPECT_THROW((void)state_from({.temperature = celsius(20), .dew_point = celsius(21)}, p),
               units::OutOfRange);
  // drier than perfectly dry air would read
  EXPECT_THROW((void)state_from({.temperature = celsius(40), .wet_bulb = celsius(5)}, p),
               units::OutOfRange);
  EXPECT_THROW(
      (void)state_from({.temperature = celsius(20), .humidity = RelativeHumidity(std::nan(""))}, p),
      units::OutOfRange);
  EXPECT_THROW(
      (void)state_from({.temperature = celsius(20), .humidity = RelativeHumidity(0.5)}, pascal(5)),
      units::OutOfRange);
  // no temperature up to 60 degC has 1 % humidity with a dew point of 20 degC
  EXPECT_THROW((void)state_from({.humidity = RelativeHumidity(0.01), .dew_point = celsius(20)}, p),
               units::OutOfRange);
}

TEST(StateFrom, dryAirHasNoDewPoint) {
  const auto s =
      state_from({.temperature = celsius(20), .humidity = RelativeHumidity(0)}, pascal(101325));
  EXPECT_FALSE(s.dew_point.has_value());
  EXPECT_EQ(s.humidity_ratio.parts_of_one(), 0);
}

}  // namespace
}  // namespace dampline::air
