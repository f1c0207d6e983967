#include <algorithm>

#include <dampline/air/evaporation.hpp>
#include <dampline/air/psychrometrics.hpp>
#include <dampline/air/root.hpp>
#include <dampline/units/out_of_range.hpp>

namespace dampline::air {

using units::in_si;

namespace {

struct Sides {
  WetBalance balance;
  double surplus;  // W/m2: heat into the sheet less the heat its vapour takes
};

Sides at(const WetSheet& s, double surface) {
  const Boundary b{.air_kelvin = s.air_kelvin,
                   .air_vapour_pa = s.air_vapour_pa,
                   .surface_kelvin = surface,
                   .surface_vapour_pa = s.water_activity * saturation_pressure_si(surface),
                   .total_pa = s.total_pa};
  const double density = air_density_si(0.5 * (s.air_kelvin + surface),
                                        0.5 * (b.air_vapour_pa + b.surface_vapour_pa), s.total_pa);
  const double radiation = radiation_si(surface, s.room_kelvin);
  Sides r{{surface, {0, 0}, {0, 0}, 0}, s.back_conductance * (s.air_kelvin - surface)};
  for (int i = 0; i < s.face_count; ++i) {
    const auto k = static_cast<std::size_t>(i);
    const double h = s.fixed_convection ? *s.fixed_convection : convection_si(s.face[k], b);
    const double flux = evaporation_si(vapour_transfer_si(h, density), b);
    r.balance.convection[k] = h;
    r.balance.evaporation[k] = flux;
    r.balance.total += flux;
    r.surplus += h * (s.air_kelvin - surface) + radiation * (s.room_kelvin - surface) -
                 latent_heat_si(surface) * flux;
  }
  return r;
}

}  // namespace

WetBalance wet_balance_si(const WetSheet& sheet) {
  // The sheet is colder than the warmest of air and room; it rises above the air only where
  // vapour condenses on a dry sheet.
  const double warmest = std::max(sheet.air_kelvin, sheet.room_kelvin);
  const double surface = bracketed_root([&](double t) { return at(sheet, t).surplus; },
                                        warmest - 40, warmest + 40, 1e-7);
  return at(sheet, surface).balance;
}

Evaporation evaporation(const Climate& climate, Mounting mounting, units::Length width,
                        units::Length height, TableTop top) {
  const auto require = [](const char* what, double value, double low, double high,
                          const char* unit) {
    if (!(value >= low && value <= high)) throw units::OutOfRange(what, value, low, high, unit);
  };
  require("air temperature", units::in_celsius(climate.temperature), 0, 45, "degC");
  require("humidity", climate.humidity.percent(), 0, 100, "%");
  require("air pressure", in_si(climate.pressure) / 1e3, 25, 200, "kPa");
  require("sheet width", units::in_centimetres(width), 5, 200, "cm");
  require("sheet height", units::in_centimetres(height), 5, 200, "cm");

  const Faces reached = faces(mounting);
  const double kelvin = in_si(climate.temperature);
  WetSheet sheet;
  sheet.face = {face_of(reached.facing[0], climate.air, width, height),
                face_of(reached.facing[1], climate.air, width, height)};
  sheet.face_count = reached.count;
  sheet.air_kelvin = kelvin;
  sheet.air_vapour_pa = climate.humidity.parts_of_one() * saturation_pressure_si(kelvin);
  sheet.total_pa = in_si(climate.pressure);
  sheet.room_kelvin = kelvin;
  sheet.back_conductance = mounting == Mounting::table ? back_conductance_si(top) : 0;
  const WetBalance balance = wet_balance_si(sheet);
  return {units::kelvin(balance.surface_kelvin), units::kilograms_per_m2_s(balance.total)};
}

}  // namespace dampline::air
