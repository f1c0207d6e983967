#include <cmath>
#include <random>

#include <gtest/gtest.h>

#include <dampline/air/psychrometrics.hpp>
#include <dampline/material/catalogue.hpp>
#include <dampline/material/transport.hpp>
#include <dampline/stack/cobb.hpp>
#include <dampline/stack/stack.hpp>
#include <dampline/stack/water_table.hpp>

#include "support/reference_table.hpp"

namespace dampline::stack {
namespace {

const std::vector<material::Porous>& sheets() {
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

Face random_air(std::mt19937& random) {
  std::uniform_real_distribution<double> unit(0, 1);
  air::Climate climate;
  climate.temperature = units::celsius(8 + 25 * unit(random));
  climate.humidity = units::RelativeHumidity(0.05 + 0.93 * unit(random));
  climate.air = static_cast<air::AirMovement>(random() % 3);
  if (random() % 4 == 0) return {FaceKind::air, cover_side(climate, 1e-5)};
  return {FaceKind::air, air_side(climate,
                                  air::face_of(static_cast<air::Facing>(random() % 3), climate.air,
                                               units::centimetres(56), units::centimetres(76)),
                                  0.5 + unit(random))};
}

// One to five layers of anything against anything: nothing is lost, nothing leaves its bounds.
TEST(Stack, anythingAgainstAnythingKeepsItsWaterAndItsBounds) {
  std::mt19937 random(20261125);
  std::uniform_real_distribution<double> unit(0, 1);
  for (int trial = 0; trial < 200; ++trial) {
    SCOPED_TRACE("trial " + std::to_string(trial));
    Stack s;
    const std::size_t layers = 1 + random() % 5;
    for (std::size_t l = 0; l < layers; ++l) {
      const material::Porous& p = sheets()[random() % sheets().size()];
      const int cells = 4 + static_cast<int>(random() % 24);
      const auto share = graded_cells(cells, 0.3 / cells, static_cast<Graded>(random() % 3));
      const auto branch =
          random() % 2 == 0 ? material::Branch::adsorption : material::Branch::desorption;
      std::vector<double> moisture(share.size(), unit(random) * p.saturation);
      if (random() % 3 == 0) {
        for (double& u : moisture) u = unit(random) * p.saturation;
      }
      s.layers.push_back({&p, branch, moisture, share});
      s.films.push_back({random() % 2 == 0 ? 0.0 : 0.06 * unit(random), random() % 2 == 0});
      if (l > 0) s.contacts.push_back(std::pow(10, -4 + 3 * unit(random)));
    }
    s.films.push_back({random() % 2 == 0 ? 0.0 : 0.06 * unit(random), true});
    for (Face* f : {&s.left, &s.right}) {
      const auto kind = random() % 3;
      if (kind == 1) f->kind = FaceKind::water;
      if (kind == 2) *f = random_air(random);
    }
    s.kelvin = 283 + 20 * unit(random);
    s.back_heat = 5 * unit(random);
    const double seconds = std::pow(10, 4.8 * unit(random));
    Outcome o;
    ASSERT_NO_THROW(o = advance(s, seconds));
    EXPECT_LT(o.balance_error, 1e-10);
    for (const Layer& l : s.layers) {
      for (const double u : l.moisture) {
        ASSERT_GE(u, 0);
        ASSERT_LE(u, l.material->saturation);
      }
    }
    for (const Film& f : s.films) EXPECT_GE(f.water, 0);
    EXPECT_TRUE(std::isfinite(s.kelvin));
  }
}

// Layers in touch for long come to one potential, not to one moisture.
TEST(Stack, layersInTouchComeToOnePotential) {
  const material::Porous& a = sheets()[0];
  const material::Porous& b = sheets()[sheets().size() / 2];
  Stack s;
  const auto share = graded_cells(12, 0.03, Graded::both);
  s.layers = {{&a, material::Branch::desorption, std::vector<double>(12, 0.5), share},
              {&b, material::Branch::adsorption, std::vector<double>(12, 0.1), share}};
  s.contacts = {1e-3};
  s.films = {{}, {}, {}};
  advance(s, 40 * 86400.0);
  const double wa = a.drying->reference(s.layers[0].moisture[6]).value;
  const double wb = b.wetting->reference(s.layers[1].moisture[6]).value;
  EXPECT_NEAR(wa, wb, 1e-3);
}

TEST(Stack, waterTableIsWhatItTables) {
  for (double kelvin = 260; kelvin < 330; kelvin += 0.37) {
    const auto v = kernel::water_table().at(kelvin);
    EXPECT_NEAR(v.saturation_pa / air::saturation_pressure_si(kelvin), 1, 1e-7);
    EXPECT_NEAR(v.liquid_factor / material::liquid_factor_si(kelvin), 1, 1e-7);
  }
}

TEST(Stack, gradedCellsFillTheLayer) {
  for (const Graded g : {Graded::left, Graded::right, Graded::both}) {
    for (const int n : {2, 3, 7, 24, 60}) {
      const auto share = graded_cells(n, 0.3 / n, g);
      double sum = 0;
      for (const double w : share) {
        EXPECT_GT(w, 0);
        sum += w;
      }
      EXPECT_NEAR(sum, 1, 1e-12);
      const double one = g == Graded::right ? share.back() : share.front();
      if (n > 2) {
        EXPECT_NEAR(one, 0.3 / n, 1e-12) << n << " cells";
      }
    }
  }
}

TEST(Stack, refusesWhatIsNoStack) {
  Stack s;
  EXPECT_THROW(advance(s, 10), std::invalid_argument);
}

}  // namespace
}  // namespace dampline::stack
