#include <algorithm>
#include <cmath>

#include <dampline/air/convection.hpp>
#include <dampline/air/psychrometrics.hpp>
#include <dampline/units/out_of_range.hpp>

namespace dampline::air {

using units::in_si;

namespace {

constexpr double gravity = 9.80665;               // m/s2, standard
constexpr double gas_constant_vapour = 461.5;     // J/(kg K)
constexpr double heat_capacity = 1006;            // J/(kg K), moist air near 20 degC, from memory
constexpr double lewis_two_thirds = 0.905;        // Le = 0.861 at 20 degC
constexpr double prandtl = 0.71;                  // air near 20 degC, from memory
constexpr double emissivity = 0.95;               // wet paper, from memory
constexpr double stefan_boltzmann = 5.670374e-8;  // W/(m2 K4), CODATA

// Air at a film temperature. Conductivity and Sutherland's viscosity: constants from memory.
double conductivity(double kelvin) { return 0.02436 * std::pow(kelvin / 273.15, 0.85); }
double viscosity(double kelvin) {
  const double ratio = kelvin / 273.15;
  return 1.716e-5 * ratio * std::sqrt(ratio) * (273.15 + 110.4) / (kelvin + 110.4);
}

double virtual_temperature(double kelvin, double vapour_pa, double total_pa) {
  return kelvin / (1 - 0.378 * vapour_pa / total_pa);
}

double natural_nusselt(Facing facing, double rayleigh, bool surface_air_is_heavier) {
  double nusselt = 0;
  if (facing == Facing::vertical) {
    nusselt = nusselt_vertical(rayleigh, prandtl);
  } else if ((facing == Facing::down) == surface_air_is_heavier) {
    nusselt = nusselt_level_unstable(rayleigh);  // the layer falls, or rises, away
  } else {
    nusselt = nusselt_level_stable(rayleigh);
  }
  return std::max(1.0, nusselt);  // conduction alone
}

}  // namespace

Faces faces(Mounting mounting) {
  switch (mounting) {
    case Mounting::hung:
      return {{Facing::vertical, Facing::vertical}, 2};
    case Mounting::rack:
      return {{Facing::up, Facing::down}, 2};
    case Mounting::table:
      break;
  }
  return {{Facing::up, Facing::up}, 1};
}

Draught draught(AirMovement air) {
  // `assumed`: still air in advertising is under 0.15 m/s and of no effect under 0.1; occupied
  // rooms in winter 0.03-0.12, in summer 0.18-0.31; a household fan at 1 m 2.0 m/s at its weakest.
  switch (air) {
    case AirMovement::still:
      return {0.05, 1.0};
    case AirMovement::fan:
      return {1.0, 1.3};
    case AirMovement::ordinary:
      break;
  }
  return {0.15, 1.2};
}

double back_conductance_si(TableTop top) {
  switch (top) {
    case TableTop::metal:
      return 6;
    case TableTop::foam:
      return 0;
    case TableTop::wood:
      break;
  }
  return 3;
}

Face face_of(Facing facing, AirMovement air, units::Length width, units::Length height) {
  const double w = in_si(width);
  const double h = in_si(height);
  const double natural = facing == Facing::vertical ? h : w * h / (2 * (w + h));
  return {facing, natural, std::min(w, h), draught(air)};
}

Face rim_of(const Face& face, units::Length strip) {
  Face rim = face;
  rim.natural_length_m = std::min(face.natural_length_m, in_si(strip));
  rim.forced_length_m = std::min(face.forced_length_m, in_si(strip));
  return rim;
}

double nusselt_level_unstable(double rayleigh) {
  return rayleigh < 1e7 ? 0.54 * std::pow(rayleigh, 0.25) : 0.15 * std::cbrt(rayleigh);
}

double nusselt_level_stable(double rayleigh) { return 0.27 * std::pow(rayleigh, 0.25); }

double nusselt_vertical(double rayleigh, double prandtl_number) {
  return 0.68 + 0.670 * std::pow(rayleigh, 0.25) /
                    std::pow(1 + std::pow(0.492 / prandtl_number, 9.0 / 16), 4.0 / 9);
}

double nusselt_forced(double reynolds, double prandtl_number) {
  return 0.664 * std::sqrt(reynolds) * std::cbrt(prandtl_number);
}

double convection_si(const Face& face, const Boundary& b) {
  const double film = 0.5 * (b.air_kelvin + b.surface_kelvin);
  const double vapour = 0.5 * (b.air_vapour_pa + b.surface_vapour_pa);
  const double k = conductivity(film);
  const double nu = viscosity(film) / air_density_si(film, vapour, b.total_pa);

  const double air = virtual_temperature(b.air_kelvin, b.air_vapour_pa, b.total_pa);
  const double surface = virtual_temperature(b.surface_kelvin, b.surface_vapour_pa, b.total_pa);
  const double length = face.natural_length_m;
  const double rayleigh = gravity * std::abs(air - surface) / (0.5 * (air + surface)) * length *
                          length * length * prandtl / (nu * nu);
  const double natural = natural_nusselt(face.facing, rayleigh, surface < air) * k / length;

  const double reynolds = face.draught.speed_m_s * face.forced_length_m / nu;
  const double forced =
      face.draught.turbulence * nusselt_forced(reynolds, prandtl) * k / face.forced_length_m;
  return std::cbrt(natural * natural * natural + forced * forced * forced);
}

double radiation_si(double surface_kelvin, double room_kelvin) {
  const double mean = 0.5 * (surface_kelvin + room_kelvin);
  return 4 * emissivity * stefan_boltzmann * mean * mean * mean;
}

double vapour_transfer_si(double convection_w_m2k, double air_density_kg_m3,
                          double resistance_s_m) {
  return 1 /
         (air_density_kg_m3 * heat_capacity * lewis_two_thirds / convection_w_m2k + resistance_s_m);
}

double evaporation_si(double vapour_transfer_m_s, const Boundary& b) {
  const double at_surface = b.surface_vapour_pa / (gas_constant_vapour * b.surface_kelvin);
  const double in_air = b.air_vapour_pa / (gas_constant_vapour * b.air_kelvin);
  const double own_flow = 1 - (b.surface_vapour_pa + b.air_vapour_pa) / (2 * b.total_pa);
  return vapour_transfer_m_s * (at_surface - in_air) / own_flow;
}

double convection(const Face& face, const Climate& climate, units::Temperature surface) {
  const double air_c = units::in_celsius(climate.temperature);
  const double surface_c = units::in_celsius(surface);
  const auto require = [](const char* what, double value, double low, double high,
                          const char* unit) {
    if (!(value >= low && value <= high)) throw units::OutOfRange(what, value, low, high, unit);
  };
  require("air temperature", air_c, -20, 60, "degC");
  require("surface temperature", surface_c, -20, 60, "degC");
  require("humidity", climate.humidity.percent(), 0, 100, "%");
  require("air pressure", in_si(climate.pressure) / 1e3, 25, 200, "kPa");
  require("sheet side", std::min(face.natural_length_m, face.forced_length_m), 0.001, 2, "m");
  require("air speed", face.draught.speed_m_s, 0, 5, "m/s");
  const double air_k = in_si(climate.temperature);
  const double surface_k = in_si(surface);
  return convection_si(
      face, {.air_kelvin = air_k,
             .air_vapour_pa = climate.humidity.parts_of_one() * saturation_pressure_si(air_k),
             .surface_kelvin = surface_k,
             .surface_vapour_pa = saturation_pressure_si(surface_k),
             .total_pa = in_si(climate.pressure)});
}

}  // namespace dampline::air
