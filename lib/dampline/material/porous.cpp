#include <algorithm>
#include <array>
#include <cmath>

#include <dampline/air/psychrometrics.hpp>
#include <dampline/material/porous.hpp>
#include <dampline/units/out_of_range.hpp>

namespace dampline::material {

using units::in_si;

namespace {

constexpr double vapour_gas = 461.5;  // J/(kg K)

using Knot = std::array<Sloped, 3>;

// Filled fraction at a knot of the tables.
double filled_at(int k) {
  using T = PorousTable;
  const int narrow = k <= T::dry_end ? k
                     : k >= T::brim  ? k + (T::coarse - 1) * (T::brim - T::dry_end)
                                     : T::dry_end + T::coarse * (k - T::dry_end);
  return static_cast<double>(narrow) / T::fine;
}

}  // namespace

PorousTable::PorousTable(const Retention& r, LiquidShape shape)
    : saturation_(r.saturation), per_moisture_(fine / r.saturation) {
  std::vector<Knot> knots(intervals + 1);
  double integral = 0;
  for (int k = 0; k <= intervals; ++k) {
    const double filled = filled_at(k);
    if (k > 0) integral += saturation_ * liquid_integral_si(shape, filled_at(k - 1), filled);
    Knot& knot = knots[static_cast<std::size_t>(k)];
    knot[1] = {integral, liquid_shape_si(shape, filled)};
  }

  // Suction at each knot by Newton from where the two wetter neighbours point, halving when a step
  // leaves the bracket.
  constexpr double near_enough = 2e-7;  // g/g: a last Newton step from here leaves 1e-12
  double at = 0;
  double before = 0;  // suction at the wetter neighbour of `at`
  double rise = 0;    // of suction over the interval to come, at `at` and at `before`
  double rise_before = 0;
  for (int k = intervals; k >= 1; --k) {
    const double wanted = saturation_ * filled_at(k);
    const double step = wanted - saturation_ * filled_at(k - 1);
    double low = at;
    double high = 9;
    double next = at;
    if (k + 1 < intervals && k != brim - 1 && k != dry_end - 1) {
      next = 5 * before + 2 * rise_before - 4 * at + 4 * rise;
    } else if (k < intervals) {
      next = at + rise;
    }
    if (!(next >= low && next < high)) next = std::min(at + rise, high);
    before = at;
    rise_before = rise;
    Held h{};
    for (int i = 0; i < 100; ++i) {
      at = next;
      h = held_si(r, at);
      const double off = h.moisture - wanted;
      (off > 0 ? low : high) = at;
      next = at - off / h.slope;
      const bool found = std::abs(off) < near_enough;
      if (!(next >= low && next <= high)) next = found ? at : 0.5 * (low + high);
      if (found || next == at) break;
    }
    at = next;
    rise = -step / h.slope;
    const Held reference = reference_si(at);
    const double phi = activity_si(at);
    const double phi_slope = phi * std::log(phi) * 2.302585092994046;  // by L
    Knot& knot = knots[static_cast<std::size_t>(k)];
    knot[0] = {phi, phi_slope / h.slope};
    knot[2] = {reference.moisture, reference.slope / h.slope};
  }
  // At the dry end everything is proportional to the activity (Henry's law).
  const double nearly_dry = 6.4;
  const double henry = held_si(r, nearly_dry).moisture;
  knots[0][0] = {0, activity_si(nearly_dry) / henry};
  knots[0][2] = {0, reference_si(nearly_dry).moisture / henry};
  fill(knots);
}

PorousTable::PorousTable(double saturation,
                         const std::function<std::array<Sloped, 3>(double)>& curves)
    : saturation_(saturation), per_moisture_(fine / saturation) {
  std::vector<Knot> knots;
  for (int k = 0; k <= intervals; ++k) knots.push_back(curves(saturation * filled_at(k)));
  fill(knots);
}

// Slopes are held to three times the chord on either side so that the cubics rise throughout.
void PorousTable::fill(const std::vector<Knot>& knots) {
  water_.resize(water_stride * knots.size());
  reference_.resize(2 * knots.size());
  const auto put = [&](std::size_t curve, double* at, std::ptrdiff_t stride) {
    double before = 1e300;  // of the chord, per narrow interval
    for (int k = 0; k <= intervals; ++k, at += stride) {
      const auto [value, slope] = knots[static_cast<std::size_t>(k)][curve];
      double after = 1e300;
      if (k < intervals) {
        const double rise = knots[static_cast<std::size_t>(k) + 1][curve].value - value;
        after = rise / (fine * (filled_at(k + 1) - filled_at(k)));
      }
      const double most = std::max(0.0, 3 * std::min(before, after));
      at[0] = value;
      at[1] = std::clamp(slope / per_moisture_, 0.0, most);
      before = after;
    }
  };
  put(0, water_.data(), water_stride);
  put(1, water_.data() + 2, water_stride);
  put(2, reference_.data(), 2);
}

Porous resolve(const Stock& stock, units::Diffusivity liquid) {
  const auto require = [](const char* what, double value, double low, double high,
                          const char* unit) {
    if (!(value >= low && value <= high)) throw units::OutOfRange(what, value, low, high, unit);
  };
  require("grammage", units::in_grams_per_m2(stock.grammage.value), 5, 2000, "g/m2");
  require("thickness", units::in_millimetres(stock.thickness.value), 0.01, 10, "mm");
  require("accessible saturation", stock.accessible.value.parts_of_one(), 0.3, 6, "g/g");
  require("pore ratio", stock.pore_ratio.value, 0.1, 100, "times filter paper");
  require("isotherm scale", stock.isotherm_scale.value, 0.3, 3, "times cotton rag");
  require("vapour diffusivity", in_si(stock.vapour.value), 1e-9, 3e-5, "m2/s");
  require("wetting delay", in_si(stock.wetting_delay.value), 0, 3600, "s");
  require("liquid diffusivity", in_si(liquid), 0, 1e-2, "m2/s");

  Porous p;
  p.dry = in_si(dry_grammage(stock));
  p.thickness = in_si(stock.thickness.value);
  p.liquid = in_si(liquid);
  p.vapour = in_si(stock.vapour.value);
  p.delay = in_si(stock.wetting_delay.value);
  p.shape = stock.sizing == Sizing::waterleaf ? LiquidShape::waterleaf : LiquidShape::sized;
  p.drying = std::make_shared<PorousTable>(retention(stock, Branch::desorption), p.shape);
  p.wetting = std::make_shared<PorousTable>(retention(stock, Branch::adsorption), p.shape);
  p.saturation = p.drying->saturation();
  return p;
}

double diffusivity_si(const Porous& sheet, Branch branch, double moisture, double kelvin) {
  const PorousTable& table = sheet.table(branch);
  const double saturated = air::saturation_pressure_si(kelvin) / (vapour_gas * kelvin);  // kg/m3
  const double dry_density = sheet.dry / sheet.thickness;
  return sheet.liquid * liquid_factor_si(kelvin) * table.liquid(moisture).slope +
         sheet.vapour * saturated / dry_density * table.activity(moisture).slope;
}

}  // namespace dampline::material
