#include <algorithm>
#include <array>
#include <cmath>

#include <dampline/material/transport.hpp>
#include <dampline/units/out_of_range.hpp>

namespace dampline::material {

namespace {

constexpr double sized_rise = 2.0;  // `assumed`
// LETd of [gerlero2022]: D = Dw S^L/(S^L + E (1-S)^T), S from the residual water content.
constexpr double let_l = 0.004569;
constexpr double let_e = 12930;
constexpr double let_t = 1.505;
constexpr double let_dw = 4.660e-4;           // m2/s
constexpr double let_sorptivity = 1.3515e-3;  // m/s^0.5, its own, in the plane
constexpr double let_residual = 0.019852 / 0.70;
constexpr double let_fading = 0.05;
constexpr double least_shape = 1e-6;

}  // namespace

double water_viscosity_si(double kelvin) {
  const double t = kelvin / 300;
  return 1e-6 * (280.68 * std::pow(t, -1.9) + 511.45 * std::pow(t, -7.7) +
                 61.131 * std::pow(t, -19.6) + 0.45903 * std::pow(t, -40));
}

double water_surface_tension_si(double kelvin) {
  const double x = 1 - kelvin / 647.096;
  return 0.2358 * std::pow(x, 1.256) * (1 - 0.625 * x);
}

double liquid_factor_si(double kelvin) {
  static const double at_20 = water_surface_tension_si(293.15) / water_viscosity_si(293.15);
  return water_surface_tension_si(kelvin) / water_viscosity_si(kelvin) / at_20;
}

double liquid_factor(units::Temperature water) {
  const double celsius = units::in_celsius(water);
  if (!(celsius >= 0 && celsius <= 60)) {
    throw units::OutOfRange("water temperature", celsius, 0, 60, "degC");
  }
  return liquid_factor_si(units::in_si(water));
}

double liquid_shape_si(LiquidShape shape, double filled) {
  if (shape == LiquidShape::sized) return std::exp(sized_rise * (filled - 1));
  // The fit ends at its residual water content, where D would jump; below the driest strip measured
  // liquid fades out with the last bound water instead: `assumed`.
  const double s = std::clamp((filled - let_residual) / (1 - let_residual), 1e-9, 1.0);
  const double rise = std::pow(s, let_l);
  const double in = std::clamp(filled / let_fading, 0.0, 1.0);
  const double fade = in * in * (3 - 2 * in);
  return least_shape + fade * rise / (rise + let_e * std::pow(1 - s, let_t));
}

double liquid_integral_si(LiquidShape shape, double from, double to) {
  if (shape == LiquidShape::sized) {
    return (std::exp(sized_rise * (to - 1)) - std::exp(sized_rise * (from - 1))) / sized_rise;
  }
  // The integrand climbs four decades near 1: Gauss on panels that shorten towards it.
  constexpr std::array<double, 3> node = {-0.7745966692414834, 0, 0.7745966692414834};
  constexpr std::array<double, 3> weight = {5.0 / 9, 8.0 / 9, 5.0 / 9};
  double sum = 0;
  double left = from;
  while (left < to) {
    const double right = std::min(to, left + std::clamp(0.2 * (1 - left), 1e-5, 0.1));
    const double half = 0.5 * (right - left);
    for (std::size_t i = 0; i < node.size(); ++i) {
      sum += half * weight[i] * liquid_shape_si(shape, left + half * (1 + node[i]));
    }
    left = right;
  }
  return sum;
}

double waterleaf_diffusivity_si(double sorptivity) {
  const double ratio = sorptivity / let_sorptivity;
  return let_dw * ratio * ratio;
}

}  // namespace dampline::material
