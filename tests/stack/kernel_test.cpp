#include <cmath>
#include <random>

#include <gtest/gtest.h>

#include <dampline/stack/kernels.hpp>
#include <dampline/stack/semi_discrete.hpp>

#include "stack/sheet_day.hpp"

// The loops behind the solver, on every processor that this one can stand in for.
namespace dampline::stack {
namespace {

using kernel::Calls;
using kernel::System;

material::Porous paper(double grammage, material::Sizing sizing) {
  material::Stock s;
  s.sizing = sizing;
  s.grammage.value = units::grams_per_m2(grammage);
  s.thickness.value = units::millimetres(0.0018 * grammage);
  s.cobb60.value = units::grams_per_m2(32);
  s.accessible.value = units::Moisture(0.9);
  s.isotherm_scale.value = 1.1;
  s.pore_ratio.value = 3;
  s.vapour.value = units::m2_per_s(5e-7);
  return resolve_to_cobb(s);
}

const material::Porous& sized() {
  static const material::Porous p = paper(300, material::Sizing::internal);
  return p;
}
const material::Porous& thin() {
  static const material::Porous p = paper(120, material::Sizing::soft);
  return p;
}

Layer layer(const material::Porous& p, int cells, double drying, double from, double to) {
  Layer l{&p, drying, {}, graded_cells(cells, 0.3 / cells, Graded::both)};
  for (int i = 0; i < cells; ++i) l.moisture.push_back(from + (to - from) * i / (cells - 1));
  return l;
}

Face still_air(double celsius, double humidity) {
  air::Climate climate;
  climate.temperature = units::celsius(celsius);
  climate.humidity = units::RelativeHumidity(humidity);
  return {FaceKind::air,
          air_side(climate, air::face_of(air::Facing::vertical, climate.air, units::centimetres(56),
                                         units::centimetres(76)))};
}

// Air, film, sheet, film on the left, sheet, air: every kind of joint but the tub's.
Stack everything(double shift = 0) {
  Stack s;
  s.layers = {layer(sized(), 7, 0.7, 0.12 + shift, 0.33),
              layer(thin(), 5, 0.2, 0.09, 0.21 + shift)};
  s.contacts = {8e-4};
  s.left = still_air(19 + shift, 0.4);
  s.right = still_air(23, 0.6 + shift);
  s.films = {{8e-4, false}, {2e-3, true}, {4e-4, true}};
  s.kelvin = 290 + shift;
  s.back_heat = 2;
  return s;
}
Stack tub() {
  Stack s;
  s.layers = {layer(sized(), 9, 0.1, 0.6, 0.3)};
  s.left.kind = FaceKind::water;
  s.films = {{}, {2e-3, true}};
  s.fixed_temperature = true;
  return s;
}

// (diagonal I - J) x = r as the solver has it, against differences of the rates. What temperature
// does to the diffusivities inside is left out of J by design: the rows of water are checked along
// a direction that leaves temperature alone, the row of heat along any.
void expect_jacobian(const Stack& stack) {
  System k = kernel::system_of(stack);
  const auto n = static_cast<std::size_t>(k.size());
  const auto heat_row = static_cast<std::size_t>(k.kelvin_at());
  const std::vector<double> y = kernel::state_of(stack, k);
  std::mt19937 random(7);
  std::uniform_real_distribution<double> unit(-1, 1);
  std::vector<double> r(n);
  for (double& v : r) v = unit(random);
  for (int j = 0; j < k.joints; ++j) {
    // A film's own pace: a direction as long as the others would be all film.
    r[static_cast<std::size_t>(k.film_at(j))] *= k.joint[j].film ? 1e-2 : 0;
  }
  if (k.fixed_temperature) r[heat_row] = 0;
  const double diagonal = 0.5;
  k.run->rates_and_slopes(k, k.y, k.rate);
  k.run->factor(k, diagonal);
  const auto solved = [&](const std::vector<double>& right) {
    std::copy(right.begin(), right.end(), k.stage[0]);
    k.run->solve(k, k.stage[0]);
    return std::vector<double>(k.stage[0], k.stage[0] + n);
  };
  const std::vector<double> x = solved(r);
  std::vector<double> still = x;
  std::vector<double> still_r = r;
  if (!k.fixed_temperature) {
    std::vector<double> one(n, 0.0);
    one[heat_row] = 1;
    const std::vector<double> heat = solved(one);
    const double share = x[heat_row] / heat[heat_row];
    for (std::size_t i = 0; i < n; ++i) still[i] -= share * heat[i];
    still_r[heat_row] -= share;
  }
  const auto expect_row = [&](const std::vector<double>& along, const std::vector<double>& right,
                              std::size_t i) {
    const double step = 1e-7;
    std::vector<double> plus = y;
    std::vector<double> minus = y;
    for (std::size_t j = 0; j < n; ++j) {
      plus[j] += step * along[j];
      minus[j] -= step * along[j];
    }
    std::vector<double> fp(n);
    std::vector<double> fm(n);
    k.derivative(plus.data(), fp.data());
    k.derivative(minus.data(), fm.data());
    const double slope = (fp[i] - fm[i]) / (2 * step);
    const double scale = std::abs(right[i]) + std::abs(diagonal * along[i]) + std::abs(slope);
    EXPECT_NEAR(diagonal * along[i] - slope, right[i], 1e-4 * scale + 1e-12) << "row " << i;
  };
  for (std::size_t i = 0; i < n; ++i) expect_row(still, still_r, i);
  if (!k.fixed_temperature) expect_row(x, r, heat_row);
}

TEST(Kernel, jacobianIsThatOfTheFlows) {
  expect_jacobian(everything());
  expect_jacobian(tub());
}

// One step of every build and number of lanes is the plain one's to rounding.
TEST(Kernel, everyBuildTakesTheSameStep) {
  for (const bool in_tub : {false, true}) {
    std::vector<Stack> stacks;
    for (int i = 0; i < 8; ++i) stacks.push_back(in_tub ? tub() : everything(0.003 * i));
    const auto step = [&](const Calls& calls, std::span<const Stack> some) {
      System k = kernel::system_of(some, calls);
      std::fill_n(k.allowed, k.lanes, 1e-4);
      k.run->rates_and_slopes(k, k.y, k.rate);
      k.run->step(k, k.y, 0.02, k.next);
      std::vector<std::vector<double>> next;
      for (int lane = 0; lane < k.lanes; ++lane) {
        for (next.emplace_back(); next.back().size() < static_cast<std::size_t>(k.size());) {
          const auto i = static_cast<int>(next.back().size());
          next.back().push_back(k.next[i * k.lanes + lane]);
        }
      }
      return next;
    };
    for (const Calls* calls : kernel::available()) {
      SCOPED_TRACE(std::string(calls->processor) + " " + std::to_string(calls->lanes));
      const auto got = step(*calls, stacks);
      for (std::size_t lane = 0; lane < got.size(); ++lane) {
        const auto plain = step(*kernel::plain(), std::span(stacks).subspan(lane, 1)).front();
        for (std::size_t i = 0; i < plain.size(); ++i) {
          EXPECT_NEAR(got[lane][i], plain[i], 1e-12 + 1e-11 * std::abs(plain[i])) << i;
        }
      }
    }
  }
}

TEST(Kernel, refusesStacksOfDifferentShape) {
  const std::vector<Stack> stacks{everything(), tub()};
  EXPECT_THROW((void)kernel::system_of(stacks, kernel::calls(2)), std::invalid_argument);
}

}  // namespace
}  // namespace dampline::stack
