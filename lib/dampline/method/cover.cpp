#include <cmath>

#include <dampline/method/cover.hpp>
#include <dampline/units/out_of_range.hpp>

namespace dampline::method {

namespace {

constexpr double permeance = 3.8e-11;  // kg/(m2 s Pa) at 38 degC, film of 25 um
constexpr double measured_at = 311.15;
constexpr double measured_film = 25e-6;
constexpr double activation = 37.5e3;  // J/mol
constexpr double gas = 8.314462;
constexpr double vapour_gas = 461.5;  // J/(kg K)
constexpr double gap = 0.010;         // m

double changes_an_hour(Closed closed) {
  switch (closed) {
    case Closed::tucked:
      return 0.5;
    case Closed::loose:
      return 10;
    case Closed::draped:
      break;
  }
  return 2;
}

}  // namespace

Leak leak_si(const Cover& cover, units::Temperature room) {
  const double film = units::in_si(cover.film);
  if (!(film >= 5e-6 && film <= 1e-3)) {
    throw units::OutOfRange("thickness of a plastic film", film * 1e6, 5, 1000, "um");
  }
  const double kelvin = units::in_si(room);
  const double warmth = std::exp(activation / gas * (1 / measured_at - 1 / kelvin));
  // Per vapour density instead of pressure: p = rho R T.
  const double through = permeance * measured_film / film * warmth * vapour_gas * kelvin;
  return {through, changes_an_hour(cover.closed) * gap / 3600};
}

}  // namespace dampline::method
