#include <algorithm>
#include <cmath>

#include <dampline/material/isotherm.hpp>
#include <dampline/size/strain.hpp>
#include <dampline/units/out_of_range.hpp>

namespace dampline::size {

using units::in_si;

namespace {

// `assumed`: share of the growth held back that stays in once the sheet is let go (0.8-0.95).
constexpr double kept = 0.88;
// `assumed`: where the dried-in set begins to be given back, and where all of it is.
constexpr double release_begins = 0.09;
constexpr double release_ends = 0.40;
// From memory: stiffness falls from 2 % moisture to the softest state at 55 %.
constexpr double stiff_below = 0.02;
constexpr double soft_above = 0.55;

units::Strain strain(double fraction) { return units::Strain(fraction); }

void require_moisture(double u) {
  if (!(u >= 0 && u <= 6)) throw units::OutOfRange("moisture", u, 0, 6, "g/g");
}

}  // namespace

double swelling_water_si(double moisture, double fibre_full) {
  const double ratio = moisture / fibre_full;
  const double fourth = ratio * ratio * ratio * ratio;
  return moisture / std::sqrt(std::sqrt(1 + fourth));
}

double dryness_si(double moisture, double fibre_full, double conditioned) {
  return (fibre_full - swelling_water_si(moisture, fibre_full)) /
         (fibre_full - swelling_water_si(conditioned, fibre_full));
}

double released_si(double wettest) {
  const double x =
      std::clamp((wettest - release_begins) / (release_ends - release_begins), 0.0, 1.0);
  return x * x * (3 - 2 * x);
}

double stiffness_si(double moisture, double softening) {
  return std::exp(-softening * std::max(0.0, std::min(moisture, soft_above) - stiff_below));
}

double growth_si(const Direction& d, double moisture) {
  return (d.free - d.as_bought) -
         (d.free - d.dried_in) * dryness_si(moisture, d.fibre_full, d.conditioned);
}

double growth_si(const Direction& d, std::span<const double> moisture) {
  double weight = 0;
  double weighted = 0;
  for (const double u : moisture) {
    const double stiffness = stiffness_si(u);
    weight += stiffness;
    weighted += stiffness * growth_si(d, u);
  }
  return weighted / weight;
}

void wet(Direction& d, double driest) {
  if (!(driest > d.wettest)) return;
  const double before = 1 - released_si(d.wettest);
  d.dried_in *= before > 0 ? (1 - released_si(driest)) / before : 0;
  d.wettest = driest;
}

void dry_held(Direction& d, double from, double to, double restraint) {
  const double gained =
      dryness_si(to, d.fibre_full, d.conditioned) - dryness_si(from, d.fibre_full, d.conditioned);
  wet(d, from);
  if (gained <= 0) return;
  d.dried_in += restraint * kept * d.free * gained;
  d.wettest = to;
}

SheetSize new_sheet(const material::Stock& stock) {
  const double conditioned =
      material::equilibrium_moisture(stock, units::RelativeHumidity(0.5), units::celsius(23),
                                     material::Branch::adsorption)
          .parts_of_one();
  const auto direction = [&](const material::Growth& g) {
    const double set = g.dried_in.value.parts_of_one();
    return Direction{.free = g.free.value.parts_of_one(),
                     .as_bought = set,
                     .dried_in = set,
                     .wettest = conditioned,
                     .fibre_full = stock.fibre_full.value.parts_of_one(),
                     .conditioned = conditioned};
  };
  return {direction(stock.along), direction(stock.across)};
}

void wet(SheetSize& sheet, units::Moisture driest) {
  require_moisture(driest.parts_of_one());
  wet(sheet.along, driest.parts_of_one());
  wet(sheet.across, driest.parts_of_one());
}

void dry_held(SheetSize& sheet, units::Moisture from, units::Moisture to, double restraint) {
  require_moisture(from.parts_of_one());
  require_moisture(to.parts_of_one());
  if (!(restraint >= 0 && restraint <= 1)) {
    throw units::OutOfRange("restraint", restraint, 0, 1, "(0 free, 1 held)");
  }
  dry_held(sheet.along, from.parts_of_one(), to.parts_of_one(), restraint);
  dry_held(sheet.across, from.parts_of_one(), to.parts_of_one(), restraint);
}

Growth growth(const SheetSize& sheet, units::Moisture even) {
  const double u = even.parts_of_one();
  return growth(sheet, std::span<const double>(&u, 1));
}

Growth growth(const SheetSize& sheet, std::span<const double> profile_g_per_g) {
  if (profile_g_per_g.empty()) throw units::OutOfRange("cells of a profile", 0, 1, 1e6, "");
  for (const double u : profile_g_per_g) require_moisture(u);
  return {strain(growth_si(sheet.along, profile_g_per_g)),
          strain(growth_si(sheet.across, profile_g_per_g))};
}

Growth shrinkage_to_dry(const SheetSize& sheet, units::Moisture damp) {
  SheetSize wetted = sheet;
  wet(wetted, damp);
  const Growth printed = growth(wetted, damp);
  const Growth dry = growth(wetted, units::Moisture(sheet.along.conditioned));
  const auto smaller = [](units::Strain at_print, units::Strain at_rest) {
    return strain((at_print.parts_of_one() - at_rest.parts_of_one()) /
                  (1 + at_print.parts_of_one()));
  };
  return {smaller(printed.along, dry.along), smaller(printed.across, dry.across)};
}

double restraint_under_boards(units::Pressure weight, units::Length to_edge,
                              units::Grammage grammage) {
  constexpr double friction = 0.4;
  const double g = std::clamp(units::in_grams_per_m2(grammage), 20.0, 600.0);
  const double force = 400 + (1500 - 400) * (g - 100) / (300 - 100);  // N/m
  const double held = 2 * friction * in_si(weight) * in_si(to_edge);  // N/m, both faces
  return std::clamp(held / std::max(force, 100.0), 0.0, 1.0);
}

units::Strain nip_stretch(int passes, units::Strain first) {
  return strain(passes <= 0 ? 0 : first.parts_of_one() * (1 + (passes - 1) / 3.0));
}

}  // namespace dampline::size
