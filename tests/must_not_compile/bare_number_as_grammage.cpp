// Refused: could not convert
#include <dampline/units/quantity.hpp>

namespace units = dampline::units;

double weight_of_a_square_metre(units::Grammage grammage) {
  return units::in_grams_per_m2(grammage);
}

int main() {
  double weight = weight_of_a_square_metre(units::grams_per_m2(300));
#ifdef OFFENCE
  weight += weight_of_a_square_metre(300.0);
#endif
  return weight > 0 ? 0 : 1;
}
