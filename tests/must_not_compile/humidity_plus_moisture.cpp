// Refused: no match for 'operator+'
#include <dampline/units/fraction.hpp>

namespace units = dampline::units;

int main() {
  auto sum = units::Moisture(0.4) + units::Moisture(0.2);
#ifdef OFFENCE
  sum = units::Moisture(0.4) + units::RelativeHumidity(0.2);
#endif
  return sum.percent() > 0 ? 0 : 1;
}
