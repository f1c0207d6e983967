#include <cmath>

#include <gtest/gtest.h>

#include <dampline/air/psychrometrics.hpp>
#include <dampline/material/transport.hpp>
#include <dampline/stack/stack.hpp>

#include "linear_sheet.hpp"
#include "support/reference_table.hpp"

namespace dampline::stack {
namespace {

using dampline::tests::reference_table;
constexpr double kelvin = 296.15;

Stack one_sheet(const material::Porous& p, int cells, double first, double moisture,
                Graded graded = Graded::both) {
  Stack s;
  const auto share = graded_cells(cells, first, graded);
  s.layers = {
      {&p, material::Branch::desorption, std::vector<double>(share.size(), moisture), share}};
  s.films = {{}, {}};
  s.kelvin = kelvin;
  s.fixed_temperature = true;
  return s;
}

TEST(Diffusion, wettingFromBothFacesIsCranksPlaneSheet) {
  const auto table = reference_table("plane_sheet.csv");
  const double d = 1e-10;
  const double half = 2.5e-4;
  const material::Porous p =
      tests::linear_sheet(d / material::liquid_factor_si(kelvin), 0.3, 2 * half);
  for (const auto& row : table) {
    SCOPED_TRACE("plane_sheet.csv line " + std::to_string(row.line));
    Stack s = one_sheet(p, 80, 0.002, 0);
    s.left.kind = s.right.kind = FaceKind::water;
    advance(s, row.cell[0] * half * half / d, {.moisture = 1e-6});
    EXPECT_NEAR(water(s) / 0.3, row.cell[1], table.allowed);
  }
}

// A face to dry air that carries vapour off in proportion to the surface's moisture.
Face straight_face(double per_moisture) {
  Face f;
  f.kind = FaceKind::air;
  const double saturated = air::saturation_pressure_si(kelvin) / (461.5 * kelvin);
  f.air = cover_side({units::kelvin(kelvin), units::RelativeHumidity(0)}, per_moisture / saturated);
  f.air.vapour_pa = 0;
  f.air.total_pa = 1e12;  // no flow of the vapour's own
  return f;
}

TEST(Diffusion, dryingFromTheSurfaceIsCranksEvaporation) {
  const auto table = reference_table("surface_evaporation.csv");
  const double d = 1e-10;
  const double half = 2.5e-4;
  const double density = 0.3 / (2 * half);
  const material::Porous p =
      tests::linear_sheet(d / material::liquid_factor_si(kelvin), 0.3, 2 * half);
  for (const auto& row : table) {
    SCOPED_TRACE("surface_evaporation.csv line " + std::to_string(row.line));
    Stack s = one_sheet(p, 80, 0.002, 0.9);
    s.left = s.right = straight_face(row.cell[0] * density * d / half);
    advance(s, row.cell[1] * half * half / d, {.moisture = 1e-6});
    EXPECT_NEAR(1 - water(s) / (0.3 * 0.9), row.cell[2], table.allowed);
  }
}

TEST(Diffusion, usualGridIsWithinHalfAPercentOfCrank) {
  const double d = 1e-10;
  const double half = 2.5e-4;
  const material::Porous p =
      tests::linear_sheet(d / material::liquid_factor_si(kelvin), 0.3, 2 * half);
  for (const auto& row : reference_table("plane_sheet.csv")) {
    Stack s = one_sheet(p, 24, 0.008, 0);
    s.left.kind = s.right.kind = FaceKind::water;
    advance(s, row.cell[0] * half * half / d);
    EXPECT_NEAR(water(s) / 0.3, row.cell[1], 0.005) << row.cell[0];
  }
}

double uptake(int cells, double tolerance) {
  const material::Porous p = tests::linear_sheet(1e-10);
  Stack s = one_sheet(p, cells, 0.4 / cells, 0);
  s.left.kind = FaceKind::water;
  advance(s, 120, {.moisture = tolerance});
  return water(s);
}

TEST(Diffusion, finerGridsConvergeAtSecondOrder) {
  const double exact = uptake(320, 1e-8);
  const double coarse = std::abs(uptake(20, 1e-8) - exact);
  const double fine = std::abs(uptake(40, 1e-8) - exact);
  EXPECT_GT(coarse / fine, 3.0);
  EXPECT_LT(fine / exact, 2e-3);
}

TEST(Diffusion, tighterTolerancesConvergeTo) {
  const double exact = uptake(40, 1e-10);
  double before = 1;
  for (const double tolerance : {1e-3, 1e-4, 1e-5, 1e-6}) {
    const double miss = std::abs(uptake(40, tolerance) - exact);
    EXPECT_LT(miss, 0.6 * before);
    EXPECT_LT(miss, 10 * tolerance * 0.3);
    before = miss;
  }
}

// The method's order: halving every step divides the error by about sixteen, where the diffusivity
// is constant and where it triples. Steps are forced through by asking for pieces of equal length
// under a tolerance nothing exceeds.
class StepOrder : public testing::TestWithParam<double> {};
TEST_P(StepOrder, isTheFourth) {
  const double rise = GetParam();
  material::Porous p = tests::linear_sheet(1e-9);
  p.drying = p.wetting = std::make_shared<material::PorousTable>(1, [rise](double u) {
    return std::array<material::Sloped, 3>{
        {{u, 1}, {u * (1 + 0.5 * rise * u), 1 + rise * u}, {u, 1}}};
  });
  const auto after = [&](int pieces) {
    Stack s = one_sheet(p, 12, 1.0 / 12, 0);
    // A smooth start: no corner at the face.
    for (std::size_t i = 0; i < 12; ++i) {
      s.layers[0].moisture[i] =
          0.4 + 0.3 * std::cos(3.14159265358979 * (static_cast<double>(i) + 0.5) / 12);
    }
    for (int i = 0; i < pieces; ++i) advance(s, 40.0 / pieces, {.moisture = 1e3});
    return s.layers[0].moisture[0];
  };
  const double exact = after(2048);
  const double ratio = (after(16) - exact) / (after(32) - exact);
  EXPECT_GT(ratio, 12);
  EXPECT_LT(ratio, 20);
}
INSTANTIATE_TEST_SUITE_P(Diffusivity, StepOrder, testing::Values(0.0, 2.0));

// The strip of filter paper of [gerlero2022], with the diffusivity they fitted: x/sqrt(t) scales
// the profile. Long enough that its far end stays dry.
// The same moment whether the clock stops there or a watch on the sheet does.
TEST(Diffusion, watchStopsAtTheMomentItIsFor) {
  const auto p = tests::linear_sheet(1e-10);
  const auto mean = [&p](const Stack& s) { return water(s) / p.dry; };
  Stack timed = one_sheet(p, 24, 0.004, 0.1, Graded::both);
  timed.left.kind = timed.right.kind = FaceKind::water;
  advance(timed, 400);
  const double reached = mean(timed);

  Stack watched = one_sheet(p, 24, 0.004, 0.1, Graded::both);
  watched.left.kind = watched.right.kind = FaceKind::water;
  const auto short_of = [&](const Stack& s) { return reached - mean(s); };
  const Outcome o = advance(watched, 4000, {}, {}, {}, short_of);
  EXPECT_TRUE(o.stopped);
  EXPECT_NEAR(o.seconds, 400, 0.5);
  EXPECT_NEAR(mean(watched), reached, 1e-4);
  EXPECT_LT(o.balance_error, 1e-10);

  const Outcome again = advance(watched, 4000, {}, {}, {}, short_of);
  EXPECT_TRUE(again.stopped);
  EXPECT_EQ(again.seconds, 0);
}

TEST(Diffusion, imbibitionMeetsTheMeasuredProfile) {
  const auto table = reference_table("imbibition_profile.csv");
  const double length = 0.05;
  const double density = 480;
  const double saturation = 0.70 / 0.48;
  material::Porous p;
  p.dry = density * length;
  p.thickness = length;
  p.saturation = saturation;
  p.liquid = 4.660e-4 / material::liquid_factor_si(kelvin);
  p.shape = material::LiquidShape::waterleaf;
  p.wetting = std::make_shared<material::PorousTable>(
      material::retention(1, 1, saturation, material::Branch::adsorption), p.shape);
  p.drying = p.wetting;
  Stack s = one_sheet(p, 400, 0.0002, 0.025 / 0.48, Graded::left);
  s.layers[0].drying = material::Branch::adsorption;
  s.left.kind = FaceKind::water;
  const double time = 300;
  const Outcome o = advance(s, time);
  EXPECT_LT(o.balance_error, 1e-10);
  double squares = 0;
  for (const auto& row : table) {
    const double x = row.cell[0] * std::sqrt(time);
    double left = 0;
    double theta = 0.025;
    for (std::size_t i = 0; i + 1 < s.layers[0].share.size(); ++i) {
      const double here = left + 0.5 * s.layers[0].share[i] * length;
      const double next = left + (s.layers[0].share[i] + 0.5 * s.layers[0].share[i + 1]) * length;
      if (x >= here && x < next) {
        const double f = (x - here) / (next - here);
        theta = 0.48 * ((1 - f) * s.layers[0].moisture[i] + f * s.layers[0].moisture[i + 1]);
      }
      left += s.layers[0].share[i] * length;
    }
    squares += (theta - row.cell[1]) * (theta - row.cell[1]);
  }
  EXPECT_LE(std::sqrt(squares / static_cast<double>(table.rows.size())), table.allowed);
  // Sorptivity measured 1.350e-3 m/s^0.5.
  EXPECT_NEAR(-o.out_left / 1000 / std::sqrt(time) / 1.350e-3, 1, 0.02);
}

}  // namespace
}  // namespace dampline::stack
