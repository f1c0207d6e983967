#include <cmath>

#include <gtest/gtest.h>

#include <dampline/material/porous.hpp>
#include <dampline/material/transport.hpp>
#include <dampline/units/out_of_range.hpp>

#include "support/reference_table.hpp"

namespace dampline::material {
namespace {

TEST(Transport, waterRunsAsThePrintedTablesSay) {
  const auto table = tests::reference_table("water_mobility.csv");
  for (const auto& row : table) {
    SCOPED_TRACE("water_mobility.csv line " + std::to_string(row.line));
    const double kelvin = row.cell[0] + 273.15;
    EXPECT_NEAR(1e3 * water_viscosity_si(kelvin), row.cell[1], table.allowed * row.cell[1]);
    EXPECT_NEAR(1e3 * water_surface_tension_si(kelvin), row.cell[2], table.allowed * row.cell[2]);
  }
}

TEST(Transport, fortyDegreesIsHalfAsFastAgainAsTwenty) {
  EXPECT_NEAR(liquid_factor(units::celsius(40)), 1.467, 0.005);
  EXPECT_DOUBLE_EQ(liquid_factor(units::celsius(20)), 1);
  EXPECT_THROW(static_cast<void>(liquid_factor(units::celsius(80))), units::OutOfRange);
}

// D(theta) of [gerlero2022]'s function at saturations .2, .4, .6, .68 of a pore space of .7.
TEST(Transport, waterleafRisesAsTheFittedFunction) {
  const double dw = 4.660e-4;
  const auto d = [&](double theta) {
    return dw * liquid_shape_si(LiquidShape::waterleaf, theta / 0.7);
  };
  EXPECT_NEAR(d(0.2) / 5.7e-8, 1, 0.02);
  EXPECT_NEAR(d(0.4) / 1.2e-7, 1, 0.05);
  EXPECT_NEAR(d(0.6) / 6.4e-7, 1, 0.02);
  EXPECT_NEAR(d(0.68) / 7.2e-6, 1, 0.02);
}

TEST(Transport, integralIsTheAreaUnderTheShape) {
  for (const LiquidShape shape : {LiquidShape::sized, LiquidShape::waterleaf}) {
    double area = 0;
    const int n = 2000000;
    for (int i = 0; i < n; ++i) area += liquid_shape_si(shape, (i + 0.5) / n) / n;
    double pieces = 0;
    for (int i = 0; i < 1000; ++i) {
      pieces += liquid_integral_si(shape, i / 1000.0, (i + 1) / 1000.0);
    }
    EXPECT_NEAR(pieces / area, 1, 1e-4);
  }
}

Stock plain() {
  Stock s;
  s.grammage.value = units::grams_per_m2(300);
  s.thickness.value = units::millimetres(0.54);
  s.accessible.value = units::Moisture(0.8);
  s.isotherm_scale.value = 1;
  s.pore_ratio.value = 3;
  s.vapour.value = units::m2_per_s(5e-7);
  return s;
}

// Fibre-phase diffusivity of paper near 8 %: 2e-11 m2/s, one published value; vapour rules there.
TEST(Transport, vapourRulesWhenDryLiquidWhenWet) {
  Porous p = resolve(plain(), units::m2_per_s(1.3e-10));
  const double dry = diffusivity_si(p, Branch::desorption, 0.05, 296);
  const double middle = diffusivity_si(p, Branch::desorption, 0.30, 296);
  const double wet = diffusivity_si(p, Branch::desorption, 0.75, 296);
  EXPECT_GT(dry, 2 * middle);
  EXPECT_GT(wet, 2 * middle);
  p.vapour = 0;
  EXPECT_NEAR(diffusivity_si(p, Branch::desorption, 0.08, 296) / 2e-11, 1.2, 0.3);
}

TEST(Porous, refusesWhatNoPaperIs) {
  const auto liquid = units::m2_per_s(1e-10);
  Stock s = plain();
  s.grammage.value = units::grams_per_m2(3);
  EXPECT_THROW(static_cast<void>(resolve(s, liquid)), units::OutOfRange);
  s = plain();
  s.accessible.value = units::Moisture(std::nan(""));
  EXPECT_THROW(static_cast<void>(resolve(s, liquid)), units::OutOfRange);
  s = plain();
  s.pore_ratio.value = -1;
  EXPECT_THROW(static_cast<void>(resolve(s, liquid)), units::OutOfRange);
}

TEST(Porous, dryFibreIsWhatIsLeftOfTheConditionedSheet) {
  EXPECT_NEAR(units::in_grams_per_m2(dry_grammage(plain())), 300 / 1.0555, 0.05);
}

}  // namespace
}  // namespace dampline::material
