#include <algorithm>
#include <cmath>
#include <random>
#include <string>

#include <gtest/gtest.h>

#include <dampline/air/psychrometrics.hpp>
#include <dampline/material/catalogue.hpp>
#include <dampline/stack/cobb.hpp>
#include <dampline/stack/stack.hpp>

#include "support/reference_table.hpp"

// Ten thousand stacks of anything against anything, far beyond what a studio does: nothing is lost,
// nothing leaves its bounds, every one comes to its end.
namespace dampline::stack {
namespace {

// Sanitizers make a run some ten times slower: they see one stack in ten.
#if defined(__SANITIZE_ADDRESS__)
constexpr int each = 100;
#else
constexpr int each = 1000;
#endif
constexpr int parts = 10;  // each a test of its own, so that they run side by side
// Steps, taken and repeated together: what any stack may need, and what they need on the average.
constexpr int most_steps = 20000;
constexpr int steps_in_the_mean = 250;
constexpr double sorption_heat_at_most = 1.16e6;  // J/kg: docs/model.md, warmth

const std::vector<material::Porous>& everything() {
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

class Dice {
 public:
  explicit Dice(unsigned seed) : random_(seed) {}
  double unit() { return std::uniform_real_distribution<double>(0, 1)(random_); }
  double between(double low, double high) { return low + (high - low) * unit(); }
  double decades(double low, double high) { return low * std::pow(high / low, unit()); }
  int below(int n) { return static_cast<int>(random_() % static_cast<unsigned>(n)); }

 private:
  std::mt19937 random_;
};

air::Climate any_climate(Dice& dice) {
  air::Climate c;
  c.temperature = units::celsius(dice.between(0, 45));
  const int kind = dice.below(8);
  c.humidity = units::RelativeHumidity(kind == 0 ? 0 : kind == 1 ? 1 : dice.unit());
  c.air = static_cast<air::AirMovement>(dice.below(3));
  return c;
}

Face any_face(Dice& dice) {
  switch (dice.below(4)) {
    case 0:
      return {};
    case 1:
      return {FaceKind::water, {}};
    case 2:
      return {FaceKind::air, cover_side(any_climate(dice), dice.decades(1e-7, 1e-5))};
    default:
      break;
  }
  const air::Climate c = any_climate(dice);
  const auto facing = static_cast<air::Facing>(dice.below(3));
  return {FaceKind::air,
          air_side(c, air::face_of(facing, c.air, units::centimetres(56), units::centimetres(76)),
                   dice.decades(0.2, 5))};
}

std::vector<double> any_moisture(Dice& dice, std::size_t cells, double saturation) {
  const auto level = [&] {
    const int kind = dice.below(6);
    return kind == 0 ? 0.0 : kind == 1 ? saturation : saturation * dice.unit();
  };
  std::vector<double> u(cells, level());
  switch (dice.below(3)) {
    case 0:
      break;
    case 1: {  // a step
      const double other = level();
      const auto from = static_cast<std::ptrdiff_t>(dice.below(static_cast<int>(cells)));
      std::fill(u.begin() + from, u.end(), other);
      break;
    }
    default:
      for (double& cell : u) cell = level();
      break;
  }
  return u;
}

Film any_film(Dice& dice) {
  const int kind = dice.below(4);
  const double water = kind < 2 ? 0.0 : kind == 2 ? dice.decades(1e-9, 0.2) : dice.between(0, 0.2);
  return {water, dice.below(2) == 0};
}

struct Trial {
  Stack stack;
  double seconds = 0;
  double tolerance = 0;
};

Trial any_trial(unsigned seed) {
  Dice dice(seed);
  Trial t;
  Stack& s = t.stack;
  const int layers = 1 + dice.below(8);
  for (int l = 0; l < layers; ++l) {
    const auto& p =
        everything()[static_cast<std::size_t>(dice.below(static_cast<int>(everything().size())))];
    const int cells = static_cast<int>(std::lround(dice.decades(2, 40)));
    const double first = dice.decades(0.05, 1) / cells;
    const auto share = graded_cells(cells, first, static_cast<Graded>(dice.below(3)));
    const int way = dice.below(3);  // on one branch, on the other, between them
    const Drying drying = way < 2 ? static_cast<double>(way) : dice.unit();
    const double full = p.saturation;
    s.layers.push_back({&p, drying, any_moisture(dice, share.size(), full), share});
    s.films.push_back(any_film(dice));
    if (l > 0) s.contacts.push_back(dice.decades(1e-5, 5e-2));
  }
  s.films.push_back(any_film(dice));
  s.left = any_face(dice);
  s.right = any_face(dice);
  s.kelvin = 273.15 + dice.between(0, 45);
  s.ambient_kelvin = 273.15 + dice.between(0, 45);
  s.back_heat = dice.below(2) == 0 ? 0 : dice.between(0, 10);
  s.fixed_temperature = dice.below(5) == 0;
  t.seconds = dice.decades(1e-3, 30 * 86400.0);
  t.tolerance = dice.decades(1e-6, 1e-3);
  return t;
}

// No face can be colder than a wet one that gives off water as tightly bound as water can be, nor
// warmer than a bone-dry one that takes it up; what the ambience and the start have lies between.
struct Bounds {
  double coldest;
  double hottest;
};
Bounds bounds_of(const Stack& s) {
  Bounds b{std::min(s.kelvin, s.ambient_kelvin), std::max(s.kelvin, s.ambient_kelvin)};
  for (const Face* f : {&s.left, &s.right}) {
    if (f->kind != FaceKind::air) continue;
    const AirSide& a = f->air;
    const double wet = air::wet_bulb_si(a.air_kelvin, a.vapour_pa, a.total_pa);
    const double latent = air::latent_heat_si(wet);
    const double bound = 1 + sorption_heat_at_most / latent;
    b.coldest = std::min(b.coldest, a.air_kelvin - bound * (a.air_kelvin - wet));
    double heated = 0;
    for (std::size_t i = 0; i < AirSide::intervals; ++i) {
      heated = std::max(heated, a.transfer[4 * i] / (a.convection[4 * i] + a.radiation));
    }
    const double in_air = a.vapour_pa / (461.5 * a.air_kelvin);
    b.hottest = std::max(b.hottest, a.air_kelvin + 1.1 * bound * latent * in_air * heated);
  }
  return b;
}

class RandomStacks : public testing::TestWithParam<int> {};

TEST_P(RandomStacks, keepTheirWaterAndTheirBounds) {
  long steps = 0;
  for (int i = 0; i < each; ++i) {
    const auto seed = static_cast<unsigned>(GetParam() * 1000 + i);
    SCOPED_TRACE("stack " + std::to_string(seed));
    Trial t = any_trial(seed);
    const Bounds bounds = bounds_of(t.stack);
    Outcome o;
    ASSERT_NO_THROW(
        o = advance(t.stack, t.seconds, {.moisture = t.tolerance, .most_steps = most_steps}));
    steps += o.steps + o.rejected;
    EXPECT_EQ(o.seconds, t.seconds);
    EXPECT_LE(o.balance_error, 1e-10);
    EXPECT_TRUE(std::isfinite(o.out_left) && std::isfinite(o.out_right));
    bool inside = true;  // false for what is no number, too
    for (const Layer& l : t.stack.layers) {
      const double full = l.material->saturation;
      for (const double u : l.moisture) inside = inside && u >= 0 && u <= full;
    }
    for (const Film& f : t.stack.films) inside = inside && f.water >= 0 && std::isfinite(f.water);
    EXPECT_TRUE(inside);
    // What a step may be wrong by in temperature: advance.cpp, error.
    const double allowed = 2000 * t.tolerance;
    EXPECT_GE(t.stack.kelvin, bounds.coldest - allowed);
    EXPECT_LE(t.stack.kelvin, bounds.hottest + allowed);
  }
  EXPECT_LT(steps, static_cast<long>(steps_in_the_mean) * each);
}

INSTANTIATE_TEST_SUITE_P(Thousand, RandomStacks, testing::Range(0, parts));

// What the random stacks found, each cut down to the least that shows it.

const material::Porous& named(const std::string& name) {
  const auto read = material::read_catalogue(dampline::tests::repository_file("data/stocks.toml"),
                                             "data/stocks.toml");
  const auto& stocks = std::get<material::Catalogue>(read).stocks;
  for (std::size_t i = 0; i < stocks.size(); ++i) {
    if (stocks[i].name == name) return everything()[i];
  }
  throw std::runtime_error("no stock " + name);
}

Face room(double celsius, double percent, double scale = 1) {
  air::Climate c;
  c.temperature = units::celsius(celsius);
  c.humidity = units::RelativeHumidity(percent / 100);
  return {FaceKind::air, air_side(c,
                                  air::face_of(air::Facing::vertical, c.air, units::centimetres(56),
                                               units::centimetres(76)),
                                  scale)};
}

Stack one_sheet(const material::Porous& p, double moisture, int cells = 2) {
  Stack s;
  const auto n = static_cast<std::size_t>(cells);
  s.layers = {{&p, material::Branch::adsorption, std::vector<double>(n, moisture),
               std::vector<double>(n, 1.0 / cells)}};
  s.films = {{}, {}};
  s.fixed_temperature = true;
  return s;
}

// Dew on a full sheet is a film on the face it falls on, and no trouble to the steps.
TEST(StackExtremes, dewOnAFullSheetLiesWhereItFalls) {
  const auto& p = named("soft etching, mould-made cotton, 300 g/m2");
  Stack s = one_sheet(p, p.saturation);
  s.kelvin = 289.5;
  s.right = room(34, 79);
  const Outcome o = advance(s, 170, {.moisture = 1e-5});
  EXPECT_LT(o.out_right, -0.005);
  EXPECT_NEAR(s.films[1].water, -o.out_right, 1e-12);
  EXPECT_EQ(s.films[0].water, 0);
  EXPECT_LT(o.steps + o.rejected, 300);
}

// So too where only the cells under the face are full.
TEST(StackExtremes, dewOnAFullFaceSoaksInWithoutTrouble) {
  const auto& p = named("proofing cartridge, 160 g/m2");
  Stack s = one_sheet(p, 0.5 * p.saturation, 15);
  s.kelvin = 288.5;
  s.right = room(35, 95, 5);
  const Outcome o = advance(s, 900, {.moisture = 1e-5});
  EXPECT_LT(o.steps + o.rejected, 500);
  EXPECT_LE(o.balance_error, 1e-10);
}

// A sheet cannot give off more than it holds, however coarse the steps.
TEST(StackExtremes, boneDryAirTakesAllAndNoMore) {
  for (const double seconds : {3600.0, 86400.0, 864000.0}) {
    const auto& p = named("mould-made cotton, internal size, 250 g/m2");
    Stack s = one_sheet(p, 0.4);
    s.right = room(35, 0);
    const Outcome o = advance(s, seconds, {.moisture = 1e-3});
    EXPECT_LE(o.balance_error, 1e-10);
    EXPECT_LE(o.out_right, 0.4 * p.dry * (1 + 1e-10));
  }
}

// A month is no reason to take a step of a microsecond unchecked.
TEST(StackExtremes, fastSheetsAreFollowedThroughAMonth) {
  Stack s = one_sheet(named("newsprint, 50 g/m2"), 0, 15);
  s.layers[0].share = graded_cells(15, 0.014, Graded::right);
  s.right.kind = FaceKind::water;
  Outcome o;
  ASSERT_NO_THROW(o = advance(s, 30 * 86400.0, {.moisture = 8e-4, .most_steps = 2000}));
  EXPECT_LE(o.balance_error, 1e-10);
}

// Water that crosses a layer in microseconds, a step of hours: ten digits cancel, none is lost.
TEST(StackExtremes, hoursInOneStepLoseNothing) {
  const auto& p = named("newsprint, 50 g/m2");
  air::Climate c;
  c.temperature = units::celsius(17.7);
  c.humidity = units::RelativeHumidity(0.35);
  for (const int cells : {2, 4, 28}) {
    Stack s = one_sheet(p, p.saturation, cells);
    s.kelvin = 301;
    s.right = {FaceKind::air, cover_side(c, 1e-6)};
    EXPECT_LE(advance(s, 28000, {.moisture = 1e-3}).balance_error, 1e-10);
  }
}

}  // namespace
}  // namespace dampline::stack
