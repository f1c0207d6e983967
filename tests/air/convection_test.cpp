#include <cmath>
#include <stdexcept>
#include <utility>
#include <vector>

#include <gtest/gtest.h>

#include <dampline/air/convection.hpp>
#include <dampline/air/psychrometrics.hpp>
#include <dampline/units/out_of_range.hpp>

#include "support/reference_table.hpp"

namespace dampline::air {
namespace {

double nusselt(const tests::ReferenceRow& row) {
  const double first = row.cell[1];
  const double prandtl = row.cell[2];
  if (row.field[0] == "level unstable") return nusselt_level_unstable(first * prandtl);
  if (row.field[0] == "level stable") return nusselt_level_stable(first * prandtl);
  if (row.field[0] == "forced") return nusselt_forced(first, prandtl);
  throw std::runtime_error("no such correlation: " + row.field[0]);
}

TEST(Correlations, giveThePublishedTestValues) {
  const auto table = tests::reference_table("convection_correlations.csv");
  for (const auto& row : table) {
    SCOPED_TRACE(row.line);
    EXPECT_NEAR(nusselt(row), row.cell[3], table.allowed * row.cell[3]);
  }
}

// The laminar form against the same authors' form for all Ra (from memory):
// (0.825 + 0.387 Ra^1/6 / (1 + (0.492/Pr)^9/16)^8/27)^2. Ratios to two digits from docs/model.md;
// at 1e8, where a hung sheet stands, the laminar form is the lower by 15 %.
TEST(Correlations, laminarVerticalPlateIsThisFarFromTheFullForm) {
  const std::vector<std::pair<double, double>> ratio{
      {1e5, 1.07}, {1e6, 1.02}, {1e7, 0.95}, {1e8, 0.85}};
  for (const auto& [rayleigh, expected] : ratio) {
    const double full =
        std::pow(0.825 + 0.387 * std::pow(rayleigh, 1.0 / 6) /
                             std::pow(1 + std::pow(0.492 / 0.71, 9.0 / 16), 8.0 / 27),
                 2);
    EXPECT_NEAR(nusselt_vertical(rayleigh, 0.71) / full, expected, 0.015) << rayleigh;
  }
}

Boundary wet_at(double air_c, double humidity, double surface_c) {
  return {.air_kelvin = air_c + 273.15,
          .air_vapour_pa = humidity * saturation_pressure_si(air_c + 273.15),
          .surface_kelvin = surface_c + 273.15,
          .surface_vapour_pa = saturation_pressure_si(surface_c + 273.15),
          .total_pa = 101325};
}

TEST(Convection, quietPoolEvaporatesAsPublished) {
  const auto table = tests::reference_table("pool_evaporation.csv");
  // A 2 m square of water, no draught: area over perimeter 0.5 m.
  const Face pool{Facing::up, 0.5, 2, {0, 1}};
  for (const auto& row : table) {
    SCOPED_TRACE(row.line);
    const auto b = wet_at(row.cell[1], row.cell[2], row.cell[0]);
    const double density =
        air_density_si(0.5 * (b.air_kelvin + b.surface_kelvin),
                       0.5 * (b.air_vapour_pa + b.surface_vapour_pa), b.total_pa);
    const double loss =
        3.6e6 * evaporation_si(vapour_transfer_si(convection_si(pool, b), density), b);
    EXPECT_NEAR(loss, row.cell[3], table.allowed * row.cell[3]);
  }
}

TEST(Convection, coldFaceDownShedsItsAirAndFaceUpKeepsIt) {
  const auto b = wet_at(20, 0.5, 16);
  const auto side = units::centimetres(56);
  const auto at = [&](Facing f) {
    return convection_si(face_of(f, AirMovement::still, side, side), b);
  };
  EXPECT_GT(at(Facing::down), at(Facing::vertical));
  EXPECT_GT(at(Facing::vertical), at(Facing::up));
}

TEST(Convection, rimGetsMoreThanTheWholeFace) {
  const auto b = wet_at(20, 0.5, 16);
  const auto whole = face_of(Facing::vertical, AirMovement::ordinary, units::centimetres(56),
                             units::centimetres(76));
  const auto rim = rim_of(whole, units::centimetres(2));
  const double ratio = convection_si(rim, b) / convection_si(whole, b);
  EXPECT_GT(ratio, 2);
  EXPECT_LT(ratio, std::sqrt(76.0 / 2));
}

// ISO 6946 inside surface resistances less the radiation of eps 0.9 leave 2.5, 5.0 and 0.7 W/(m2 K)
// (from memory) for a wall, a ceiling losing heat and a floor: whole building surfaces.
TEST(Convection, hungSheetIsNearTheBuildingStandardForAWall) {
  const auto face = face_of(Facing::vertical, AirMovement::ordinary, units::centimetres(56),
                            units::centimetres(76));
  EXPECT_NEAR(convection_si(face, wet_at(20, 0.5, 16)), 2.5, 0.5);
}

TEST(Radiation, isThatOfABlackRoomTimesEmissivity) {
  EXPECT_NEAR(radiation_si(291.15, 291.15), 5.3, 0.05);  // 4 x 0.95 x sigma T^3 at 18 degC
}

TEST(Convection, refusesWhatItDoesNotKnow) {
  const auto face =
      face_of(Facing::up, AirMovement::still, units::centimetres(56), units::centimetres(76));
  const Climate room;
  EXPECT_GT(convection(face, room, units::celsius(16)), 0);
  EXPECT_THROW((void)convection(face, room, units::celsius(80)), units::OutOfRange);
  Face long_face = face;
  long_face.forced_length_m = 5;
  long_face.natural_length_m = 5;
  EXPECT_THROW((void)convection(long_face, room, units::celsius(16)), units::OutOfRange);
}

}  // namespace
}  // namespace dampline::air
