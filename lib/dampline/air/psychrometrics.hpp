#pragma once

#include <optional>

#include <dampline/units/quantity.hpp>

/// Moist air. Vapour and dry air are ideal gases (no enhancement factor: under 0.5 % of the vapour
/// content at room conditions, [ashrae2017]); liquid water everywhere, supercooled below 0 degC,
/// never ice: a sheet of paper in a cold studio does not freeze from evaporation.
///
/// Each function has a form on plain SI doubles for kernels, which checks nothing.
namespace dampline::air {

using HumidityRatio = units::Fraction<struct HumidityRatioKind>;  ///< kg vapour per kg dry air

/// Saturation vapour pressure over a plane surface of liquid water.
///
/// Range   -40 to 100 degC; outside it throws units::OutOfRange. Below 0 degC it is extrapolated.
/// Error   within 0.08 % of the printed tables, 0 to 60 degC; within 0.03 % of [hyland1983].
/// Source  [wagner1993] eq. 1.
[[nodiscard]] units::Pressure saturation_pressure(units::Temperature t);
[[nodiscard]] double saturation_pressure_si(double kelvin);  ///< Pa

/// d(saturation pressure)/dT, Pa/K: the derivative of the same equation.
[[nodiscard]] double saturation_slope_si(double kelvin);

/// Temperature at which a vapour pressure is saturated.
///
/// Range   the vapour pressures of -40 to 100 degC (18.9 Pa to 101.4 kPa); else units::OutOfRange.
/// Error   inverts saturation_pressure to 1e-9 K.
[[nodiscard]] units::Temperature dew_point(units::Pressure vapour);
[[nodiscard]] double dew_point_si(double vapour_pa);  ///< K

/// Latent heat of evaporation, J/kg.
///
/// Range   -40 to 100 degC.  Error  within 0.2 % from 0 to 40 degC.
/// Source  2500.9 - 2.3604 t kJ/kg, t in degC: from memory.
[[nodiscard]] double latent_heat(units::Temperature t);
[[nodiscard]] double latent_heat_si(double kelvin);

/// kg vapour per kg dry air at a vapour pressure and a total pressure.
///
/// Range   vapour pressure from 0 to below the total pressure; else units::OutOfRange.
/// Source  [ashrae2017] ch. 1 eq. 20.
[[nodiscard]] HumidityRatio humidity_ratio(units::Pressure vapour, units::Pressure total);
[[nodiscard]] double humidity_ratio_si(double vapour_pa, double total_pa);
[[nodiscard]] double vapour_pressure_si(double humidity_ratio, double total_pa);  ///< its inverse

/// Density of moist air.
///
/// Range   -40 to 100 degC, vapour pressure from 0 to below the total pressure.
/// Error   within 0.01 % of [ashrae2017] ch. 1 eq. 26, of which it is another form.
[[nodiscard]] units::Density air_density(units::Temperature t, units::Pressure vapour,
                                         units::Pressure total);
[[nodiscard]] double air_density_si(double kelvin, double vapour_pa, double total_pa);

/// Thermodynamic wet bulb: the temperature at which water evaporating into the air saturates it
/// with no heat from outside.
///
/// Range   air -20 to 60 degC, any humidity; else units::OutOfRange.
/// Error   within 0.01 K of psychrolib 1.1.1 above 0 degC. Below 0 degC the bulb is taken as
///         supercooled water, where that program takes ice.
/// Source  [ashrae2017] ch. 1 eq. 33, solved as it stands.
[[nodiscard]] units::Temperature wet_bulb(units::Temperature t, units::RelativeHumidity humidity,
                                          units::Pressure total);
[[nodiscard]] double wet_bulb_si(double kelvin, double vapour_pa, double total_pa);  ///< K

/// Humidity ratio of air from its dry and wet bulb; negative when the wet bulb is lower than
/// perfectly dry air could make it. Source [ashrae2017] ch. 1 eq. 33.
[[nodiscard]] double humidity_ratio_from_wet_bulb_si(double kelvin, double wet_bulb_kelvin,
                                                     double total_pa);

/// Diffusivity of water vapour in air.
///
/// Range   -20 to 60 degC.  Error  [monteith2013] is 3.3 % lower at 25 degC.
/// Source  [massman1998]; constants from memory.
[[nodiscard]] units::Diffusivity vapour_diffusivity(units::Temperature t, units::Pressure total);
[[nodiscard]] double vapour_diffusivity_si(double kelvin, double total_pa);  ///< m2/s

/// Pressure of the standard atmosphere at an altitude.
///
/// Range   -500 to 10000 m; else units::OutOfRange.  Error  within 1 Pa of the printed table.
/// Source  [ashrae2017] ch. 1 eq. 3.
[[nodiscard]] units::Pressure standard_atmosphere(units::Length altitude);
[[nodiscard]] double standard_atmosphere_si(double altitude_m);  ///< Pa

/// What is known of the air: any two of the four.
struct Reading {
  std::optional<units::Temperature> temperature{};
  std::optional<units::RelativeHumidity> humidity{};
  std::optional<units::Temperature> wet_bulb{};
  std::optional<units::Temperature> dew_point{};
};

/// Everything about the air that follows from a reading and a pressure.
struct AirState {
  units::Temperature temperature;
  units::RelativeHumidity humidity;
  units::Temperature wet_bulb;
  std::optional<units::Temperature> dew_point;  ///< none below -40 degC (nearly dry air)
  units::Pressure pressure;
  units::Pressure vapour_pressure;
  units::Pressure saturation_pressure;
  HumidityRatio humidity_ratio;
  units::Density density;
};

/// The state of the air from any two of temperature, humidity, wet bulb and dew point.
///
/// Throws std::invalid_argument unless exactly two are given, units::OutOfRange when they
/// contradict each other (a wet bulb above the temperature) or lie outside -20 to 60 degC.
[[nodiscard]] AirState state_from(const Reading& reading, units::Pressure pressure);

}  // namespace dampline::air
