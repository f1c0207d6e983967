// Refused: could not convert
#include <dampline/units/fraction.hpp>

namespace units = dampline::units;

bool is_damp(units::Moisture moisture) { return moisture > units::Moisture(0.2); }

int main() {
  bool damp = is_damp(units::Moisture(0.6));
#ifdef OFFENCE
  damp = is_damp(0.6);
#endif
  return damp ? 0 : 1;
}
