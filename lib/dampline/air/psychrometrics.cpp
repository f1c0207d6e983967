#include <algorithm>
#include <cmath>
#include <stdexcept>

#include <dampline/air/psychrometrics.hpp>
#include <dampline/air/root.hpp>
#include <dampline/units/out_of_range.hpp>

namespace dampline::air {

using units::in_si;
using units::OutOfRange;

namespace {

// [wagner1993]: critical point of water and the coefficients of eq. 1.
constexpr double critical_temperature = 647.096;  // K
constexpr double critical_pressure = 22.064e6;    // Pa
constexpr double a1 = -7.85951783;
constexpr double a2 = 1.84408259;
constexpr double a3 = -11.7866497;
constexpr double a4 = 22.6807411;
constexpr double a5 = -15.9618719;
constexpr double a6 = 1.80122502;

constexpr double zero_celsius = 273.15;  // K, by definition
constexpr double coldest_water = zero_celsius - 40;
constexpr double hottest_water = zero_celsius + 100;
constexpr double coldest_air = zero_celsius - 20;
constexpr double hottest_air = zero_celsius + 60;
// 10 kPa is beyond the standard atmosphere's 10000 m; 200 kPa is deeper than any mine.
constexpr double thinnest_air = 1e4;
constexpr double densest_air = 2e5;

// [ashrae2017] ch. 1: ratio of molar masses (eq. 20) and gas constant of dry air, J/(kg K) (eq. 1).
constexpr double molar_ratio = 0.621945;
constexpr double gas_constant_dry = 287.042;

void require(const char* what, double value, double low, double high, const char* unit) {
  if (!(value >= low && value <= high)) throw OutOfRange(what, value, low, high, unit);
}
void require_temperature(const char* what, double kelvin, double low, double high) {
  require(what, kelvin - zero_celsius, low - zero_celsius, high - zero_celsius, "degC");
}
void require_pressure(units::Pressure p) {
  require("air pressure", in_si(p) / 1e3, thinnest_air / 1e3, densest_air / 1e3, "kPa");
}
void require_vapour(units::Pressure vapour, units::Pressure total) {
  require_pressure(total);
  if (!(in_si(vapour) >= 0 && in_si(vapour) < in_si(total))) {
    throw OutOfRange("vapour pressure", in_si(vapour), 0, in_si(total), "Pa");
  }
}

}  // namespace

double saturation_pressure_si(double kelvin) {
  const double x = 1 - kelvin / critical_temperature;
  const double root = std::sqrt(x);
  const double x2 = x * x;
  const double x3 = x2 * x;
  // Powers 1, 1.5, 3, 3.5, 4, 7.5.
  const double sum =
      x * (a1 + a2 * root + a3 * x2 + a4 * x2 * root + a5 * x3 + a6 * x3 * x3 * root);
  return critical_pressure * std::exp(critical_temperature / kelvin * sum);
}

double saturation_slope_si(double kelvin) {
  const double x = 1 - kelvin / critical_temperature;
  const double root = std::sqrt(x);
  const double x2 = x * x;
  const double x3 = x2 * x;
  const double slope_of_sum = a1 + 1.5 * a2 * root + 3 * a3 * x2 + 3.5 * a4 * x2 * root +
                              4 * a5 * x3 + 7.5 * a6 * x3 * x3 * root;
  const double p = saturation_pressure_si(kelvin);
  // Differentiating T ln(p/pc) = Tc sum(x).
  return -p / kelvin * (std::log(p / critical_pressure) + slope_of_sum);
}

double dew_point_si(double vapour_pa) {
  // Start from Magnus (constants from memory; only a start), then Newton on ln p.
  const double l = std::log(vapour_pa / 611.2);
  double kelvin = zero_celsius + 243.12 * l / (17.62 - l);
  for (int i = 0; i < 20; ++i) {
    const double p = saturation_pressure_si(kelvin);
    const double step = p * std::log(vapour_pa / p) / saturation_slope_si(kelvin);
    kelvin += step;
    if (std::abs(step) < 1e-10) break;
  }
  return kelvin;
}

double latent_heat_si(double kelvin) { return 2.5009e6 - 2360.4 * (kelvin - zero_celsius); }

double humidity_ratio_si(double vapour_pa, double total_pa) {
  return molar_ratio * vapour_pa / (total_pa - vapour_pa);
}

double vapour_pressure_si(double humidity_ratio, double total_pa) {
  return total_pa * humidity_ratio / (molar_ratio + humidity_ratio);
}

double air_density_si(double kelvin, double vapour_pa, double total_pa) {
  return (total_pa - vapour_pa + molar_ratio * vapour_pa) / (gas_constant_dry * kelvin);
}

double humidity_ratio_from_wet_bulb_si(double kelvin, double wet_bulb_kelvin, double total_pa) {
  const double t = kelvin - zero_celsius;
  const double bulb = wet_bulb_kelvin - zero_celsius;
  const double saturated = humidity_ratio_si(saturation_pressure_si(wet_bulb_kelvin), total_pa);
  return ((2501 - 2.326 * bulb) * saturated - 1.006 * (t - bulb)) /
         (2501 + 1.86 * t - 4.186 * bulb);
}

double wet_bulb_si(double kelvin, double vapour_pa, double total_pa) {
  const double ratio = humidity_ratio_si(vapour_pa, total_pa);
  const auto excess = [&](double bulb) {
    return humidity_ratio_from_wet_bulb_si(kelvin, bulb, total_pa) - ratio;
  };
  if (excess(kelvin) <= 0) return kelvin;  // saturated
  return bracketed_root(excess, kelvin - 60, kelvin, 1e-9);
}

double vapour_diffusivity_si(double kelvin, double total_pa) {
  return 2.178e-5 * (101325 / total_pa) * std::pow(kelvin / zero_celsius, 1.81);
}

double standard_atmosphere_si(double altitude_m) {
  return 101325 * std::pow(1 - 2.25577e-5 * altitude_m, 5.2559);
}

units::Pressure saturation_pressure(units::Temperature t) {
  require_temperature("water temperature", in_si(t), coldest_water, hottest_water);
  return units::pascal(saturation_pressure_si(in_si(t)));
}

units::Temperature dew_point(units::Pressure vapour) {
  require("vapour pressure", in_si(vapour), saturation_pressure_si(coldest_water),
          saturation_pressure_si(hottest_water), "Pa");
  return units::kelvin(dew_point_si(in_si(vapour)));
}

double latent_heat(units::Temperature t) {
  require_temperature("water temperature", in_si(t), coldest_water, hottest_water);
  return latent_heat_si(in_si(t));
}

HumidityRatio humidity_ratio(units::Pressure vapour, units::Pressure total) {
  require_vapour(vapour, total);
  return HumidityRatio(humidity_ratio_si(in_si(vapour), in_si(total)));
}

units::Density air_density(units::Temperature t, units::Pressure vapour, units::Pressure total) {
  require_temperature("air temperature", in_si(t), coldest_water, hottest_water);
  require_vapour(vapour, total);
  return units::kilograms_per_m3(air_density_si(in_si(t), in_si(vapour), in_si(total)));
}

units::Temperature wet_bulb(units::Temperature t, units::RelativeHumidity humidity,
                            units::Pressure total) {
  return state_from({.temperature = t, .humidity = humidity}, total).wet_bulb;
}

units::Diffusivity vapour_diffusivity(units::Temperature t, units::Pressure total) {
  require_temperature("air temperature", in_si(t), coldest_air, hottest_air);
  require_pressure(total);
  return units::m2_per_s(vapour_diffusivity_si(in_si(t), in_si(total)));
}

units::Pressure standard_atmosphere(units::Length altitude) {
  require("altitude", in_si(altitude), -500, 10000, "m");
  return units::pascal(standard_atmosphere_si(in_si(altitude)));
}

namespace {

// The temperature of air whose humidity at a temperature, as `humidity_at` gives it, is the one
// read. Humidity falls as the air is warmer at an unchanged wet bulb or dew point.
template <class HumidityAt>
double temperature_where(double humidity, double coldest, HumidityAt humidity_at) {
  const double low = std::max(coldest, coldest_air);
  const auto excess = [&](double kelvin) { return humidity_at(kelvin) - humidity; };
  if (excess(low) <= 0) return low;  // saturated: the two readings are one
  const double found = bracketed_root(excess, low, hottest_air, 1e-10);
  if (std::isnan(found)) {
    throw OutOfRange("humidity at that wet bulb or dew point", humidity * 100,
                     humidity_at(hottest_air) * 100, 100, "%");
  }
  return found;
}

struct Pair {
  double kelvin;
  double vapour_pa;
};

void require_not_warmer(const char* what, double value, double air) {
  if (value > air + 1e-9) {
    throw OutOfRange(what, value - zero_celsius, coldest_air - zero_celsius, air - zero_celsius,
                     "degC");
  }
}

double vapour_from_bulbs(double kelvin, double bulb, double total_pa) {
  require_not_warmer("wet bulb", bulb, kelvin);
  const double ratio = humidity_ratio_from_wet_bulb_si(kelvin, bulb, total_pa);
  if (!(ratio >= 0)) {
    throw OutOfRange("wet bulb", bulb - zero_celsius,
                     wet_bulb_si(kelvin, 0, total_pa) - zero_celsius, kelvin - zero_celsius,
                     "degC");
  }
  return vapour_pressure_si(ratio, total_pa);
}

double humidity_from_bulbs(double kelvin, double bulb, double total_pa) {
  return vapour_pressure_si(humidity_ratio_from_wet_bulb_si(kelvin, bulb, total_pa), total_pa) /
         saturation_pressure_si(kelvin);
}

Pair solve(const Reading& r, double total_pa) {
  if (r.temperature) {
    const double kelvin = in_si(*r.temperature);
    if (r.humidity) {
      return {kelvin, r.humidity->parts_of_one() * saturation_pressure_si(kelvin)};
    }
    if (r.wet_bulb) return {kelvin, vapour_from_bulbs(kelvin, in_si(*r.wet_bulb), total_pa)};
    require_not_warmer("dew point", in_si(*r.dew_point), kelvin);
    return {kelvin, saturation_pressure_si(in_si(*r.dew_point))};
  }
  if (!r.humidity) {  // wet bulb and dew point
    const double vapour = saturation_pressure_si(in_si(*r.dew_point));
    const double bulb = in_si(*r.wet_bulb);
    require_not_warmer("dew point", in_si(*r.dew_point), bulb);
    const double ratio = humidity_ratio_si(vapour, total_pa);
    const double kelvin = temperature_where(
        ratio, bulb, [&](double t) { return humidity_ratio_from_wet_bulb_si(t, bulb, total_pa); });
    return {kelvin, vapour};
  }
  const double humidity = r.humidity->parts_of_one();
  if (r.wet_bulb) {
    const double bulb = in_si(*r.wet_bulb);
    const double kelvin = temperature_where(
        humidity, bulb, [&](double t) { return humidity_from_bulbs(t, bulb, total_pa); });
    return {kelvin, humidity * saturation_pressure_si(kelvin)};
  }
  const double dew = in_si(*r.dew_point);
  const double vapour = saturation_pressure_si(dew);
  const double kelvin = temperature_where(
      humidity, dew, [&](double t) { return vapour / saturation_pressure_si(t); });
  return {kelvin, vapour};
}

void check(const Reading& r) {
  const int given = int(r.temperature.has_value()) + int(r.humidity.has_value()) +
                    int(r.wet_bulb.has_value()) + int(r.dew_point.has_value());
  if (given != 2) {
    throw std::invalid_argument(
        "give two of temperature, humidity, wet bulb and dew point: no more, no fewer");
  }
  if (r.temperature) {
    require_temperature("air temperature", in_si(*r.temperature), coldest_air, hottest_air);
  }
  if (r.wet_bulb) require_temperature("wet bulb", in_si(*r.wet_bulb), coldest_air, hottest_air);
  if (r.dew_point) {
    require_temperature("dew point", in_si(*r.dew_point), coldest_water, hottest_air);
  }
  if (r.humidity) require("humidity", r.humidity->percent(), 0, 100, "%");
}

}  // namespace

AirState state_from(const Reading& reading, units::Pressure pressure) {
  check(reading);
  require_pressure(pressure);
  const double total = in_si(pressure);
  const auto [kelvin, vapour] = solve(reading, total);
  const double saturation = saturation_pressure_si(kelvin);
  if (!(saturation < total)) throw OutOfRange("vapour pressure", saturation, 0, total, "Pa");
  const double humidity = std::min(1.0, vapour / saturation);  // rounding only
  AirState s;
  s.temperature = units::kelvin(kelvin);
  s.humidity = units::RelativeHumidity(humidity);
  s.wet_bulb = units::kelvin(wet_bulb_si(kelvin, vapour, total));
  if (vapour >= saturation_pressure_si(coldest_water)) {
    s.dew_point = units::kelvin(std::min(kelvin, dew_point_si(vapour)));
  }
  s.pressure = pressure;
  s.vapour_pressure = units::pascal(vapour);
  s.saturation_pressure = units::pascal(saturation);
  s.humidity_ratio = HumidityRatio(humidity_ratio_si(vapour, total));
  s.density = units::kilograms_per_m3(air_density_si(kelvin, vapour, total));
  return s;
}

}  // namespace dampline::air
