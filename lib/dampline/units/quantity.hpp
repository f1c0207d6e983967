#pragma once

#include <boost/units/absolute.hpp>
#include <boost/units/quantity.hpp>
#include <boost/units/systems/si/area.hpp>
#include <boost/units/systems/si/base.hpp>
#include <boost/units/systems/si/force.hpp>
#include <boost/units/systems/si/kinematic_viscosity.hpp>
#include <boost/units/systems/si/length.hpp>
#include <boost/units/systems/si/mass.hpp>
#include <boost/units/systems/si/mass_density.hpp>
#include <boost/units/systems/si/pressure.hpp>
#include <boost/units/systems/si/surface_density.hpp>
#include <boost/units/systems/si/temperature.hpp>
#include <boost/units/systems/si/time.hpp>
#include <boost/units/systems/si/velocity.hpp>

#include <dampline/units/fraction.hpp>

/// Quantities at the doors of the library. The factories here are the only places that turn a bare
/// number into a quantity, and in_si the only way back; kernels run on doubles named with their
/// unit.
namespace dampline::units {

namespace si = boost::units::si;

using FluxUnit = boost::units::divide_typeof_helper<si::surface_density, si::time>::type;

using Length = boost::units::quantity<si::length>;             ///< m
using Area = boost::units::quantity<si::area>;                 ///< m2
using Mass = boost::units::quantity<si::mass>;                 ///< kg
using Duration = boost::units::quantity<si::time>;             ///< s
using Grammage = boost::units::quantity<si::surface_density>;  ///< kg/m2: paper, film, Cobb value
using Density = boost::units::quantity<si::mass_density>;      ///< kg/m3
using Pressure = boost::units::quantity<si::pressure>;         ///< Pa
using Velocity = boost::units::quantity<si::velocity>;         ///< m/s
using Flux = boost::units::quantity<FluxUnit>;                 ///< kg/(m2 s)
using Diffusivity = boost::units::quantity<si::kinematic_viscosity>;  ///< m2/s
using TemperatureStep = boost::units::quantity<si::temperature>;      ///< K, difference
using Temperature = boost::units::quantity<boost::units::absolute<si::temperature>>;  ///< K

[[nodiscard]] constexpr Length metres(double v) { return Length::from_value(v); }
[[nodiscard]] constexpr Length centimetres(double v) { return metres(v * 1e-2); }
[[nodiscard]] constexpr Length millimetres(double v) { return metres(v * 1e-3); }
[[nodiscard]] constexpr Length micrometres(double v) { return metres(v * 1e-6); }
[[nodiscard]] constexpr Area square_metres(double v) { return Area::from_value(v); }
[[nodiscard]] constexpr Mass kilograms(double v) { return Mass::from_value(v); }
[[nodiscard]] constexpr Mass grams(double v) { return kilograms(v * 1e-3); }
[[nodiscard]] constexpr Duration seconds(double v) { return Duration::from_value(v); }
[[nodiscard]] constexpr Duration minutes(double v) { return seconds(v * 60); }
[[nodiscard]] constexpr Duration hours(double v) { return seconds(v * 3600); }
[[nodiscard]] constexpr Grammage kilograms_per_m2(double v) { return Grammage::from_value(v); }
[[nodiscard]] constexpr Grammage grams_per_m2(double v) { return kilograms_per_m2(v * 1e-3); }
[[nodiscard]] constexpr Density kilograms_per_m3(double v) { return Density::from_value(v); }
[[nodiscard]] constexpr Pressure pascal(double v) { return Pressure::from_value(v); }
[[nodiscard]] constexpr Velocity metres_per_second(double v) { return Velocity::from_value(v); }
[[nodiscard]] constexpr Flux kilograms_per_m2_s(double v) { return Flux::from_value(v); }
[[nodiscard]] constexpr Flux grams_per_m2_h(double v) { return Flux::from_value(v / 3.6e6); }
[[nodiscard]] constexpr Diffusivity m2_per_s(double v) { return Diffusivity::from_value(v); }
[[nodiscard]] constexpr TemperatureStep kelvin_step(double v) {
  return TemperatureStep::from_value(v);
}
[[nodiscard]] constexpr Temperature kelvin(double v) { return Temperature::from_value(v); }
[[nodiscard]] constexpr Temperature celsius(double v) { return kelvin(v + 273.15); }

/// The bare number in SI units, for kernels and tables.
template <class Unit>
[[nodiscard]] constexpr double in_si(const boost::units::quantity<Unit, double>& q) {
  return q.value();
}

[[nodiscard]] inline double in_celsius(Temperature t) { return in_si(t) - 273.15; }
[[nodiscard]] constexpr double in_grams_per_m2(Grammage g) { return in_si(g) * 1e3; }
[[nodiscard]] constexpr double in_minutes(Duration t) { return in_si(t) / 60; }
[[nodiscard]] constexpr double in_hours(Duration t) { return in_si(t) / 3600; }
[[nodiscard]] constexpr double in_millimetres(Length l) { return in_si(l) * 1e3; }
[[nodiscard]] constexpr double in_centimetres(Length l) { return in_si(l) * 1e2; }
[[nodiscard]] constexpr double in_grams(Mass m) { return in_si(m) * 1e3; }

}  // namespace dampline::units
