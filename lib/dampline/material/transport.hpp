#pragma once

#include <dampline/units/quantity.hpp>

/// How fast water moves through a sheet: liquid in pores and fibres, vapour in the pores.
namespace dampline::material {

/// Viscosity of water, Pa s, and its surface tension, N/m.
///
/// Range   0 to 60 degC.  Error  0.2 % of the printed tables.
/// Source  [iapws2008], [iapws1994]; constants from memory.
[[nodiscard]] double water_viscosity_si(double kelvin);
[[nodiscard]] double water_surface_tension_si(double kelvin);

/// Factor on liquid transport at a water temperature, 1 at 20 degC: surface tension over viscosity.
/// The rate beats it somewhat in published uptake trials; by how much was not to be seen.
///
/// Range   0 to 60 degC; else units::OutOfRange.
/// Source  capillary flow against viscosity [washburn1921].
[[nodiscard]] double liquid_factor(units::Temperature water);
[[nodiscard]] double liquid_factor_si(double kelvin);

/// How the liquid diffusivity rises with moisture, as a shape that is 1 at saturation.
enum class LiquidShape {
  sized,      ///< exponential: through swollen fibres and the pores size leaves open
  waterleaf,  ///< the steep rise of capillary imbibition in unsized cotton
};
/// Diffusivity over its value at saturation, at the filled fraction `filled` = u/u_acc.
/// Sized: exp(2 (filled - 1)), `assumed`: moisture diffusivity rises about exponentially with
/// moisture. Waterleaf: [gerlero2022], function LETd, fitted to filter paper.
[[nodiscard]] double liquid_shape_si(LiquidShape shape, double filled);
/// Its integral between two filled fractions, from <= to. Error 1e-7 over a thousandth.
[[nodiscard]] double liquid_integral_si(LiquidShape shape, double from, double to);

/// Diffusivity at saturation for a waterleaf sheet whose sorptivity through the thickness is
/// `sorptivity` m/s^0.5 (volume of water per area): [gerlero2022]'s sheet scaled by the square.
[[nodiscard]] double waterleaf_diffusivity_si(double sorptivity);
/// 2e-4 m/s^0.5 (1 to 4e-4): 3 to 10 times below the measured value in the plane, from memory.
inline constexpr double waterleaf_sorptivity = 2e-4;
/// Blotters, towels, felts: a third of the faster of two filter papers in the plane (2.4e-3).
/// `assumed`.
inline constexpr double blotter_sorptivity = 8e-4;

}  // namespace dampline::material
