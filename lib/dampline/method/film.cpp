#include <algorithm>
#include <cmath>

#include <dampline/material/transport.hpp>
#include <dampline/method/film.hpp>

namespace dampline::method {

double drained_film_si(double height, double seconds, double kelvin) {
  const double viscosity = material::water_viscosity_si(kelvin);
  return 1000 * (2.0 / 3) *
         std::sqrt(viscosity * height / (1000 * 9.80665 * std::max(seconds, 0.1)));
}

}  // namespace dampline::method
