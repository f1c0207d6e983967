#include <cmath>
#include <numbers>

#include <gtest/gtest.h>

#include <dampline/air/convection.hpp>
#include <dampline/stack/stack.hpp>

#include "stack/linear_sheet.hpp"

// When films went and layers got full, against what is known in closed form.
namespace dampline::stack {
namespace {

Stack even(const material::Porous& p, double moisture, int cells = 40) {
  Stack s;
  const auto n = static_cast<std::size_t>(cells);
  s.layers = {{&p, 1.0, std::vector<double>(n, moisture), std::vector<double>(n, 1.0 / cells)}};
  s.films = {{}, {}};
  s.fixed_temperature = true;
  return s;
}

constexpr double half_bare = 0.00069;  // kg/m2: where a film counts as gone

// A film on a full sheet, sealed below, in still air: all that evaporates is film, at one rate, for
// where the sheet is bare the film feeds it.
TEST(Events, aFilmOnASheetThatDrinksNothingGoesAtItsMassOverTheRate) {
  const auto p = tests::linear_sheet(1e-7);
  const Face air{FaceKind::air, cover_side(air::Climate{}, 5e-3)};
  Stack thick = even(p, p.saturation);
  thick.left = air;
  thick.films[0].water = 1.0;
  const double rate = advance(thick, 600).out_left / 600;
  ASSERT_GT(rate, 0);

  constexpr double mass = 0.050;  // kg/m2
  Stack s = even(p, p.saturation);
  s.left = air;
  s.films[0].water = mass;
  const Outcome o = advance(s, 2 * mass / rate);
  ASSERT_EQ(o.events.size(), 1);
  EXPECT_EQ(o.events[0].change, Change::film_gone);
  EXPECT_EQ(o.events[0].at, 0);
  EXPECT_NEAR(o.events[0].seconds, (mass - half_bare) / rate, 0.005 * mass / rate);
}

// A half space drinks 2 (u_full - u) rho sqrt(D t/pi) from a surface kept full [crank1975]
// eq. 3.15.
TEST(Events, aFilmThatSoaksInGoesByTheSquareOfItsMass) {
  constexpr double diffusivity = 1e-11;
  constexpr double mass = 0.030;  // of 0.3 kg/m2 at a dry density of 600 kg/m3
  const auto p = tests::linear_sheet(diffusivity);
  Stack s = even(p, 0);
  s.layers[0].share = graded_cells(40, 0.002, Graded::left);
  s.films[0].water = mass;
  const double expected =
      std::numbers::pi / diffusivity * std::pow((mass - half_bare) / (2 * p.dry / p.thickness), 2);
  const Outcome o = advance(s, 2 * expected);
  ASSERT_EQ(o.events.size(), 1);
  EXPECT_EQ(o.events[0].change, Change::film_gone);
  EXPECT_EQ(o.events[0].at, 0);
  EXPECT_NEAR(o.events[0].seconds, expected, 0.01 * expected);
}

// Both faces full: the middle lacks 4/pi exp(-pi^2 D t/l^2) of what it lacked [crank1975] eq. 4.17.
TEST(Events, aSheetInTheTubGetsFullWhenItsMiddleDoes) {
  constexpr double diffusivity = 1e-10;
  const auto p = tests::linear_sheet(diffusivity);
  Stack s = even(p, 0, 80);
  s.left.kind = s.right.kind = FaceKind::water;
  const double square = std::pow(p.thickness / std::numbers::pi, 2);
  const double expected = square / diffusivity * std::log(4 / (std::numbers::pi * 0.001));
  const Outcome o = advance(s, 2 * expected);
  ASSERT_EQ(o.events.size(), 1);
  EXPECT_EQ(o.events[0].change, Change::layer_full);
  EXPECT_EQ(o.events[0].at, 0);
  EXPECT_NEAR(o.events[0].seconds, expected, 0.005 * expected);
}

// Each on its own layer or joint, in the order of time; nothing is told of what was so from the
// start, nor of what lies after a stop.
TEST(Events, areToldInOrderAndOnlyOfWhatHappened) {
  const auto slow = tests::linear_sheet(2e-11);
  const auto fast = tests::linear_sheet(1e-9);
  Stack s = even(fast, fast.saturation);
  const Stack below = even(slow, 0);
  s.layers.push_back(below.layers[0]);
  s.contacts = {0};
  s.films = {{}, {}, {0.020, false}};
  const Outcome o = advance(s, 3600);
  ASSERT_EQ(o.events.size(), 1);
  EXPECT_EQ(o.events[0].at, 2);

  Stack stopped = even(slow, 0);
  stopped.films[0].water = 0.020;
  const double before = 0.5 * o.events[0].seconds;
  EXPECT_TRUE(advance(stopped, before).events.empty());
  const Outcome later = advance(stopped, 3600);
  ASSERT_EQ(later.events.size(), 1);
  EXPECT_NEAR(before + later.events[0].seconds, o.events[0].seconds, 0.3);
}

}  // namespace
}  // namespace dampline::stack
