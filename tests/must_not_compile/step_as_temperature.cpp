// Refused: could not convert
#include <dampline/units/quantity.hpp>

namespace units = dampline::units;

double reading(units::Temperature t) { return units::in_celsius(t); }

int main() {
  double shown = reading(units::celsius(20));
#ifdef OFFENCE
  shown = reading(units::kelvin_step(20));
#endif
  return shown > 0 ? 0 : 1;
}
