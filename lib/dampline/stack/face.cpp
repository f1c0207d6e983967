#include <algorithm>
#include <cmath>

#include <dampline/air/evaporation.hpp>
#include <dampline/air/psychrometrics.hpp>
#include <dampline/stack/face.hpp>
#include <dampline/units/out_of_range.hpp>

namespace dampline::stack {

using units::in_si;

namespace {

constexpr double widest = 1.25;   // of (dT/depression)^1/4: 2.4 times the depression
constexpr double cover_heat = 4;  // W/(m2 K), still air under plastic: `assumed`

using Samples = std::array<double, AirSide::intervals + 1>;

// Cubics through evenly spaced samples, slopes by central differences.
void fill(std::array<double, 4 * AirSide::intervals>& cubics, const Samples& y) {
  constexpr auto n = static_cast<std::size_t>(AirSide::intervals);
  const auto slope = [&](std::size_t i) {
    if (i == 0) return -1.5 * y[0] + 2 * y[1] - 0.5 * y[2];
    if (i == n) return 1.5 * y[n] - 2 * y[n - 1] + 0.5 * y[n - 2];
    return 0.5 * (y[i + 1] - y[i - 1]);
  };
  for (std::size_t i = 0; i < n; ++i) {
    const double chord = y[i + 1] - y[i];
    cubics[4 * i] = y[i];
    cubics[4 * i + 1] = slope(i);
    cubics[4 * i + 2] = 3 * chord - 2 * slope(i) - slope(i + 1);
    cubics[4 * i + 3] = slope(i) + slope(i + 1) - 2 * chord;
  }
}

AirSide air_of(const air::Climate& climate) {
  const auto require = [](const char* what, double value, double low, double high,
                          const char* unit) {
    if (!(value >= low && value <= high)) throw units::OutOfRange(what, value, low, high, unit);
  };
  require("air temperature", units::in_celsius(climate.temperature), 0, 45, "degC");
  require("humidity", climate.humidity.percent(), 0, 100, "%");
  require("air pressure", in_si(climate.pressure) / 1e3, 25, 200, "kPa");
  AirSide side;
  side.air_kelvin = in_si(climate.temperature);
  side.vapour_pa = climate.humidity.parts_of_one() * air::saturation_pressure_si(side.air_kelvin);
  side.total_pa = in_si(climate.pressure);
  return side;
}

}  // namespace

AirSide air_side(const air::Climate& climate, const air::Face& face, double scale,
                 double back_heat) {
  if (!(scale >= 0.05 && scale <= 20)) {
    throw units::OutOfRange("scale on the air coefficient", scale, 0.05, 20, "");
  }
  AirSide side = air_of(climate);
  // A face in balance lies on a line from the air to the wet face: the colder, the more vapour. Its
  // slope comes from the wet face, found with the convection it has there.
  side.radiation = air::radiation_si(side.air_kelvin - 3, side.air_kelvin);
  double line = 2 * 60.4 * side.total_pa / 101325;  // Pa/K, to begin with
  double wet = side.air_kelvin;
  for (int pass = 0; pass < 4; ++pass) {
    double step = 1;
    for (int i = 0; i < 8 && std::abs(step) > 1e-9; ++i) {  // the next would be below rounding
      const double excess =
          air::saturation_pressure_si(wet) - side.vapour_pa - line * (side.air_kelvin - wet);
      step = excess / (air::saturation_slope_si(wet) + line);
      wet -= step;
    }
    const double at_face = air::saturation_pressure_si(wet);
    const air::Boundary boundary{.air_kelvin = side.air_kelvin,
                                 .air_vapour_pa = side.vapour_pa,
                                 .surface_kelvin = wet,
                                 .surface_vapour_pa = at_face,
                                 .total_pa = side.total_pa};
    const double h = scale * air::convection_si(face, boundary);
    side.radiation = air::radiation_si(wet, side.air_kelvin);
    const double density = air::air_density_si(0.5 * (side.air_kelvin + wet),
                                               0.5 * (side.vapour_pa + at_face), side.total_pa);
    const double k = air::vapour_transfer_si(h, density);
    const double per_pa =
        k / (461.5 * wet) / (1 - (at_face + side.vapour_pa) / (2 * side.total_pa));
    line = (h + side.radiation + back_heat) / (air::latent_heat_si(wet) * per_pa);
  }
  side.depression = std::max(0.5, side.air_kelvin - wet);

  Samples convection{};
  Samples transfer{};
  for (std::size_t i = 0; i < convection.size(); ++i) {
    const double s = widest * static_cast<double>(i) / AirSide::intervals;
    const double colder = side.depression * s * s * s * s;
    const air::Boundary boundary{.air_kelvin = side.air_kelvin,
                                 .air_vapour_pa = side.vapour_pa,
                                 .surface_kelvin = side.air_kelvin - colder,
                                 .surface_vapour_pa = side.vapour_pa + line * colder,
                                 .total_pa = side.total_pa};
    convection[i] = scale * air::convection_si(face, boundary);
    const double density = air::air_density_si(
        0.5 * (boundary.air_kelvin + boundary.surface_kelvin),
        0.5 * (boundary.air_vapour_pa + boundary.surface_vapour_pa), side.total_pa);
    transfer[i] = air::vapour_transfer_si(convection[i], density);
  }
  fill(side.convection, convection);
  fill(side.transfer, transfer);
  return side;
}

AirSide cover_side(const air::Climate& climate, double transfer_m_s) {
  AirSide side = air_of(climate);
  Samples convection{};
  Samples transfer{};
  convection.fill(cover_heat);
  transfer.fill(transfer_m_s);
  fill(side.convection, convection);
  fill(side.transfer, transfer);
  return side;
}

double conductance_si(Contact contact) {
  switch (contact) {
    case Contact::laid:
      return 2e-4;
    case Contact::boards:
      return 6e-4;
    case Contact::roller:
      return 8e-3;
    case Contact::nip:
      return 2e-2;
    case Contact::hand:
      break;
  }
  return 2e-3;
}

}  // namespace dampline::stack
