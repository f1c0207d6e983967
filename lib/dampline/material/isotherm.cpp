#include <algorithm>
#include <cmath>

#include <dampline/material/isotherm.hpp>
#include <dampline/units/out_of_range.hpp>

namespace dampline::material {

namespace {

// GAB constants of cotton rag, fitted to the tabulated regains of rag bond, 75 % rag ledger and
// cotton at 10, 30, 50 and 70 % RH (tables from memory).
constexpr double monolayer = 0.0445;
constexpr double gab_c = 13.0;
constexpr double gab_k = 0.745;
// Suction of cotton filter paper, log10 psi = 5.327 - 7.79 u below the break and 2.412 - 1.35 u
// above it: from memory, the calibration of the filter-paper suction test [d5298].
constexpr double fibre_intercept = 5.327;
constexpr double fibre_slope = 7.79;
constexpr double pore_slope = 1.35;
constexpr double break_log = (fibre_slope * 2.412 - pore_slope * fibre_intercept) /
                             (fibre_slope - pore_slope);  // 1.801: 63 kPa
constexpr double rounding = 0.05;                         // decades over which the break is rounded
// Cotton's gap between the branches: 0.9 points at 65 % RH, linear in phi [morton1962].
constexpr double gap = 0.0145;
constexpr double gap_ends = 0.96;
constexpr double gap_rounding = 0.005;
constexpr double blend_centre = 0.93;
constexpr double blend_width = 0.02;
constexpr double suction_scale = 137200;  // kPa, R T / Vw at 25 degC
constexpr double ln10 = 2.302585092994046;
// The last pores: `assumed`. Filling bends towards full over brim_width, and a twentieth of the
// water comes only on the way to free water.
constexpr double brim_width = 0.05;
constexpr double brim_share = 0.05;
constexpr double least_pore_water = 0.03;

constexpr double vapour_gas = 461.5;  // J/(kg K)
constexpr double reference_kelvin = 296.15;

struct Value {
  double v;
  double d;  // by L
};

// width * ln(1 + exp(x/width)) and its derivative.
Value softplus(double x, double width) {
  const double y = x / width;
  if (y > 36) return {x, 1};
  if (y < -36) return {0, 0};
  const double e = std::exp(y);
  return {width * std::log1p(e), e / (1 + e)};
}

Value activity(double log_suction) {
  const double y = std::exp(ln10 * log_suction) / suction_scale;
  const double phi = std::exp(-y);
  return {phi, -phi * y * ln10};
}

Value gab(Value phi) {
  const double a = 1 - gab_k * phi.v;
  const double b = 1 + (gab_c - 1) * gab_k * phi.v;
  const double m = monolayer * gab_c * gab_k;
  const double slope =
      m * (a * b - phi.v * (-gab_k * b + a * (gab_c - 1) * gab_k)) / (a * b * a * b);
  return {m * phi.v / (a * b), slope * phi.d};
}

Value fibres(double log_suction) {
  const Value s = softplus(break_log - log_suction, rounding);
  return {(fibre_intercept - log_suction - s.v) / fibre_slope, (-1 + s.d) / fibre_slope};
}

// Water in filter paper's pores at a suction, taken as open-ended.
Value open_pores(double log_suction) {
  const Value s = softplus(break_log - log_suction, rounding);
  return {s.v / pore_slope, -s.d / pore_slope};
}

// Filling of a finite pore space by an open-ended supply x (both per pore water).
Value filling(double x, double brim) {
  const Value over = softplus(x - 1, brim_width);
  return {(1 - brim_share) * (x - over.v) + brim_share * x / brim,
          (1 - brim_share) * (1 - over.d) + brim_share / brim};
}

Value pores(const Retention& r, double log_suction) {
  const Value open = open_pores(log_suction - std::log10(r.pore_ratio));
  const Value full = filling(open.v / r.pore_water, r.brim);
  return {r.pore_water * full.v, full.d * open.d};
}

struct Blend {
  Value phi;
  Value g;
  double weight;  // of the suction curve
  double weight_slope;
};

Blend blend(double log_suction) {
  const Value phi = activity(log_suction);
  const double w = 1 / (1 + std::exp(-(phi.v - blend_centre) / blend_width));
  return {phi, gab(phi), w, w * (1 - w) / blend_width * phi.d};
}

}  // namespace

Retention retention(double scale, double pore_ratio, double saturation, Branch branch) {
  Retention r{scale, pore_ratio, saturation, branch, 0, 1};
  const Blend free = blend(0);
  const double open = open_pores(-std::log10(pore_ratio)).v;
  // Water left for the pores when the fibres are full; the filling at free water is a little off 1,
  // so the pore space is scaled to meet the saturation exactly.
  const double wanted =
      std::max(least_pore_water,
               (saturation - (1 - free.weight) * scale * free.g.v) / free.weight - fibres(0).v);
  r.pore_water = wanted;
  for (int i = 0; i < 60; ++i) {
    r.brim = open / r.pore_water;
    const double got = r.pore_water * filling(r.brim, r.brim).v;
    if (std::abs(got - wanted) < 1e-15) break;
    r.pore_water += wanted - got;
  }
  r.saturation = (1 - free.weight) * scale * free.g.v +
                 free.weight * (fibres(0).v + r.pore_water * filling(r.brim, r.brim).v);
  return r;
}

Retention retention(const Stock& stock, Branch branch) {
  return retention(stock.isotherm_scale.value, stock.pore_ratio.value,
                   stock.accessible.value.parts_of_one(), branch);
}

Held held_si(const Retention& r, double log_suction) {
  const Blend b = blend(log_suction);
  const Value fibre = fibres(log_suction);
  const Value pore = pores(r, log_suction);
  const double wet = fibre.v + pore.v;
  const double dry = r.scale * b.g.v;
  Held h{(1 - b.weight) * dry + b.weight * wet, (1 - b.weight) * r.scale * b.g.d +
                                                    b.weight * (fibre.d + pore.d) +
                                                    b.weight_slope * (wet - dry)};
  if (r.branch == Branch::adsorption) {
    const Value over = softplus(b.phi.v - gap_ends, gap_rounding);
    const double rise = b.phi.v - over.v;
    const double brim_water = r.pore_water * filling(r.brim, r.brim).v;
    const double unfilled = 1 - pore.v / brim_water;
    h.moisture -= gap * r.scale * rise * unfilled;
    h.slope -= gap * r.scale * (b.phi.d * (1 - over.d) * unfilled - rise * pore.d / brim_water);
  }
  return h;
}

double activity_si(double log_suction) { return activity(log_suction).v; }

Held reference_si(double log_suction) {
  const Blend b = blend(log_suction);
  const Value fibre = fibres(log_suction);
  const Value pore = open_pores(log_suction);
  const double wet = fibre.v + pore.v;
  return {(1 - b.weight) * b.g.v + b.weight * wet,
          (1 - b.weight) * b.g.d + b.weight * (fibre.d + pore.d) + b.weight_slope * (wet - b.g.v)};
}

double log_suction_si(const Retention& r, double moisture) {
  double low = 0;   // wet
  double high = 9;  // dry
  double at = 3;
  for (int i = 0; i < 200 && high - low > 1e-15 * high; ++i) {
    const Held h = held_si(r, at);
    if (h.moisture > moisture) {
      low = at;
    } else {
      high = at;
    }
    double next = at - (h.moisture - moisture) / h.slope;
    if (!(next > low && next < high)) next = 0.5 * (low + high);
    if (std::abs(next - at) < 1e-14) return next;
    at = next;
  }
  return at;
}

double sorption_heat_si(double moisture) { return 1.160e6 * std::exp(-moisture / 0.0397); }

double activity_factor_si(double moisture, double kelvin) {
  return std::exp(sorption_heat_si(moisture) / vapour_gas * (1 / reference_kelvin - 1 / kelvin));
}

namespace {

void require(const char* what, double value, double low, double high, const char* unit) {
  if (!(value >= low && value <= high)) throw units::OutOfRange(what, value, low, high, unit);
}

}  // namespace

units::Moisture equilibrium_moisture(const Stock& stock, units::RelativeHumidity humidity,
                                     units::Temperature temperature, Branch branch) {
  require("humidity", humidity.percent(), 0, 100, "%");
  require("temperature", units::in_celsius(temperature), 0, 60, "degC");
  const Retention r = retention(stock, branch);
  const double kelvin = units::in_si(temperature);
  const double wanted = humidity.parts_of_one();
  double wet = 0;
  double dry = 9;
  for (int i = 0; i < 100; ++i) {
    const double middle = 0.5 * (wet + dry);
    const double moisture = held_si(r, middle).moisture;
    (activity_si(middle) * activity_factor_si(moisture, kelvin) > wanted ? wet : dry) = middle;
  }
  return units::Moisture(held_si(r, wet).moisture);
}

units::RelativeHumidity equilibrium_humidity(const Stock& stock, units::Moisture moisture,
                                             units::Temperature temperature, Branch branch) {
  require("temperature", units::in_celsius(temperature), 0, 60, "degC");
  const Retention r = retention(stock, branch);
  const double u = moisture.parts_of_one();
  if (u >= r.saturation) return units::RelativeHumidity(1);
  if (!(u > 0)) return units::RelativeHumidity(0);
  const double phi =
      activity_si(log_suction_si(r, u)) * activity_factor_si(u, units::in_si(temperature));
  return units::RelativeHumidity(std::min(1.0, phi));
}

units::Grammage dry_grammage(const Stock& stock) {
  const Retention r = retention(stock, Branch::adsorption);
  const double half = held_si(r, std::log10(suction_scale * std::log(2.0))).moisture;
  return units::kilograms_per_m2(units::in_si(stock.grammage.value) / (1 + half));
}

}  // namespace dampline::material
