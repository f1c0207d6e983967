#include <cmath>
#include <random>

#include <gtest/gtest.h>

#include <dampline/material/catalogue.hpp>
#include <dampline/stack/kernels.hpp>
#include <dampline/stack/lanes.hpp>

#include "stack/sheet_day.hpp"
#include "support/reference_table.hpp"

namespace dampline::stack {
namespace {

using tests::DaySheet;
using tests::DayStage;

const std::vector<material::Porous>& papers() {
  static const auto all = [] {
    const auto read = material::read_catalogue(dampline::tests::repository_file("data/stocks.toml"),
                                               "data/stocks.toml");
    std::vector<material::Porous> resolved;
    for (const auto& stock : std::get<material::Catalogue>(read).stocks) {
      resolved.push_back(resolve_to_cobb(stock));
    }
    return resolved;
  }();
  return all;
}

// Any sheet in any state at a stage of its day, in air of its own.
Stack random_stack(DayStage stage, std::mt19937& random) {
  std::uniform_real_distribution<double> unit(0, 1);
  const material::Porous& p = papers()[random() % papers().size()];
  DaySheet s = tests::day_sheet(p, 16, unit(random) * p.saturation);
  s.climate.temperature = units::celsius(10 + 20 * unit(random));
  s.climate.humidity = units::RelativeHumidity(0.2 + 0.7 * unit(random));
  s.air_scale = 0.5 + unit(random);
  s.contact_scale = 0.5 + unit(random);
  s.kelvin = 285 + 10 * unit(random);
  if (random() % 2 == 0) s.film_upper = 0.03 * unit(random);
  if (random() % 2 == 0) s.film_lower = 0.03 * unit(random);
  return tests::begin(stage, s).stack;
}

// Stacks side by side become what each becomes by itself, however many there are.
TEST(Lanes, agreeWithOneByOne) {
  std::mt19937 random(20261125);
  const int together = lanes_at_once();
  for (const DayStage stage :
       {DayStage::tub, DayStage::drain, DayStage::blot, DayStage::covered, DayStage::bench}) {
    for (const int n : {1, 2, 3, together, together + 1, 3 * together - 1}) {
      SCOPED_TRACE(std::to_string(n) + " at stage " + std::to_string(static_cast<int>(stage)));
      std::vector<Stack> side_by_side;
      for (int i = 0; i < n; ++i) side_by_side.push_back(random_stack(stage, random));
      std::vector<Stack> alone = side_by_side;
      const double seconds = 0.1 * tests::day_seconds[static_cast<int>(stage)];
      const Tolerance tolerance{.moisture = 1e-5};
      const auto outcomes = advance_lanes(side_by_side, seconds, tolerance);
      ASSERT_EQ(outcomes.size(), alone.size());
      for (std::size_t i = 0; i < alone.size(); ++i) {
        const Outcome one = advance(alone[i], seconds, tolerance);
        EXPECT_LT(outcomes[i].balance_error, 1e-10);
        EXPECT_EQ(outcomes[i].seconds, one.seconds);
        double dry = 0;
        for (std::size_t l = 0; l < alone[i].layers.size(); ++l) {
          const Layer& a = alone[i].layers[l];
          const Layer& b = side_by_side[i].layers[l];
          const double d = a.material->dry;
          dry += d;
          EXPECT_NEAR(water(a) / d, water(b) / d, 2e-4) << "layer " << l;
          EXPECT_NEAR(a.drying.weight, b.drying.weight, 0.02);
          for (const double u : b.moisture) {
            EXPECT_GE(u, 0);
            EXPECT_LE(u, b.material->saturation);
          }
        }
        EXPECT_NEAR(outcomes[i].out_left, one.out_left, 2e-4 * dry);
        EXPECT_NEAR(outcomes[i].out_right, one.out_right, 2e-4 * dry);
        EXPECT_NEAR(side_by_side[i].kelvin, alone[i].kelvin, 0.05);
      }
    }
  }
}

TEST(Lanes, takeNoneAndNoTime) {
  std::vector<Stack> none;
  EXPECT_TRUE(advance_lanes(none, 10).empty());
  std::mt19937 random(1);
  std::vector<Stack> one{random_stack(DayStage::bench, random)};
  EXPECT_EQ(advance_lanes(one, 0).front().steps, 0);
}

TEST(Lanes, refuseStacksOfDifferentShape) {
  std::mt19937 random(1);
  std::vector<Stack> two{random_stack(DayStage::bench, random),
                         random_stack(DayStage::blot, random)};
  EXPECT_THROW(advance_lanes(two, 10), std::invalid_argument);
}

}  // namespace
}  // namespace dampline::stack
