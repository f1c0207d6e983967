#include <random>

#include <gtest/gtest.h>

#include <dampline/material/catalogue.hpp>
#include <dampline/stack/cobb.hpp>
#include <dampline/stack/stack.hpp>

#include "support/reference_table.hpp"

// Which way things go, on two hundred sheets taken at random: laws, whatever the constants.
namespace dampline::stack {
namespace {

constexpr int sheets = 200;
constexpr int cells = 16;

struct Made {
  double grammage;  // g/m2
  double density;   // g/cm3
  double cobb;      // g/m2
};

class Dice {
 public:
  explicit Dice(unsigned seed) : random_(seed) {}
  double between(double low, double high) {
    return std::uniform_real_distribution<double>(low, high)(random_);
  }
  // Takes less than half of what it can hold in the minute of its Cobb value.
  Made sheet() {
    Made m{between(100, 400), between(0.35, 0.75), 0};
    m.cobb = m.grammage * between(0.06, 0.30);
    return m;
  }

 private:
  std::mt19937 random_;
};

material::Porous porous(const Made& m) {
  static const auto read = material::read_catalogue(
      dampline::tests::repository_file("data/stocks.toml"), "data/stocks.toml");
  const auto& catalogue = std::get<material::Catalogue>(read);
  const auto made =
      material::describe(catalogue, {.grammage = units::grams_per_m2(m.grammage),
                                     .thickness = units::millimetres(m.grammage / m.density / 1000),
                                     .cobb60 = units::grams_per_m2(m.cobb),
                                     .furnish = material::Furnish::cotton,
                                     .making = material::Making::mould,
                                     .sizing = material::Sizing::internal});
  return resolve_to_cobb(std::get<material::Described>(made).stock);
}

Layer layer(const material::Porous& p, material::Branch branch, double moisture) {
  const auto share = graded_cells(cells, 0.01, Graded::both);
  return {&p, branch, std::vector<double>(share.size(), moisture), share};
}

double mean(const Layer& l) { return water(l) / l.material->dry; }

// Seconds in the tub until nine tenths of what the sheet takes in are in.
double soaked_after(const material::Porous& p) {
  Stack s;
  s.layers = {layer(p, material::Branch::adsorption, 0.06)};
  s.films = {{}, {}};
  s.left.kind = s.right.kind = FaceKind::water;
  s.fixed_temperature = true;
  const double aim = 0.06 + 0.9 * (p.saturation - 0.06);
  return advance(s, 30 * 86400.0, {.moisture = 1e-4}, {}, {},
                 [&](const Stack& now) { return aim - mean(now.layers[0]); })
      .seconds;
}

TEST(Monotone, thickerSheetsSoakSlower) {
  Dice dice(1);
  for (int i = 0; i < sheets; ++i) {
    Made m = dice.sheet();
    const double thin = soaked_after(porous(m));
    m.grammage *= dice.between(1.1, 2);
    EXPECT_GT(soaked_after(porous(m)), thin) << i;
  }
}

TEST(Monotone, higherCobbSoaksFaster) {
  Dice dice(2);
  for (int i = 0; i < sheets; ++i) {
    Made m = dice.sheet();
    const double hard = soaked_after(porous(m));
    m.cobb *= dice.between(1.05, 1.5);
    EXPECT_LT(soaked_after(porous(m)), hard) << i;
  }
}

TEST(Monotone, drierAirDriesFaster) {
  Dice dice(3);
  for (int i = 0; i < sheets; ++i) {
    const material::Porous p = porous(dice.sheet());
    const double wet = dice.between(0.2, 1) * p.saturation;
    air::Climate c;
    c.temperature = units::celsius(dice.between(5, 35));
    c.air = static_cast<air::AirMovement>(i % 3);
    const double humidity = dice.between(0.1, 0.9);
    const double seconds = dice.between(60, 6 * 3600.0);
    const auto left = [&](double rh) {
      c.humidity = units::RelativeHumidity(rh);
      const auto facing = air::Facing::vertical;
      Stack s;
      s.layers = {layer(p, material::Branch::desorption, wet)};
      s.films = {{}, {}};
      s.left = s.right = {
          FaceKind::air,
          air_side(c, air::face_of(facing, c.air, units::centimetres(56), units::centimetres(76)))};
      s.kelvin = s.ambient_kelvin = units::in_si(c.temperature);
      advance(s, seconds, {.moisture = 1e-5});
      return mean(s.layers[0]);
    };
    EXPECT_LT(left(humidity - dice.between(0.02, 0.1)), left(humidity)) << i;
  }
}

struct Blot {
  const material::Porous* sheet;
  double wet;
  double seconds;
  double contact;
};
double left_by(const Blot& b) {
  static const material::Porous blotter = [] {
    const auto read = material::read_catalogue(dampline::tests::repository_file("data/stocks.toml"),
                                               "data/stocks.toml");
    const auto& catalogue = std::get<material::Catalogue>(read);
    return resolve_to_cobb(*material::find_stock(catalogue, "blotter, cotton, 350 g/m2"));
  }();
  Stack s;
  const auto dry = layer(blotter, material::Branch::adsorption, 0.065);
  s.layers = {dry, layer(*b.sheet, material::Branch::desorption, b.wet), dry};
  s.contacts = {b.contact, b.contact};
  s.films = {{}, {0.02, false}, {0.02, true}, {}};
  advance(s, b.seconds, {.moisture = 1e-5});
  return mean(s.layers[1]) + (s.films[1].water + s.films[2].water) / b.sheet->dry;
}

TEST(Monotone, aLongerBlotLeavesLess) {
  Dice dice(4);
  for (int i = 0; i < sheets; ++i) {
    const material::Porous p = porous(dice.sheet());
    Blot b{&p, dice.between(0.6, 1) * p.saturation, dice.between(2, 120), dice.between(2e-4, 2e-2)};
    const double brief = left_by(b);
    b.seconds *= dice.between(1.1, 3);
    EXPECT_LT(left_by(b), brief) << i;
  }
}

TEST(Monotone, closerContactBlotsMore) {
  Dice dice(5);
  for (int i = 0; i < sheets; ++i) {
    const material::Porous p = porous(dice.sheet());
    Blot b{&p, dice.between(0.6, 1) * p.saturation, dice.between(2, 120), dice.between(2e-4, 1e-2)};
    const double loose = left_by(b);
    b.contact *= dice.between(1.1, 3);
    EXPECT_LT(left_by(b), loose) << i;
  }
}

}  // namespace
}  // namespace dampline::stack
