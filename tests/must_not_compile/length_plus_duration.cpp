// Refused: no match for 'operator+'
#include <dampline/units/quantity.hpp>

namespace units = dampline::units;

int main() {
  auto side = units::centimetres(38) + units::millimetres(2);
#ifdef OFFENCE
  side = units::centimetres(38) + units::minutes(2);
#endif
  return units::in_si(side) > 0 ? 0 : 1;
}
