// Refused: error:
#include <dampline/units/quantity.hpp>

namespace units = dampline::units;

int main() {
  auto warmer = units::celsius(17) + units::kelvin_step(2);
#ifdef OFFENCE
  warmer = units::celsius(17) + units::celsius(2);
#endif
  return units::in_celsius(warmer) > 0 ? 0 : 1;
}
