// Refused: could not convert
#include <dampline/units/fraction.hpp>

namespace units = dampline::units;

double misfit_on_30_cm(units::Strain growth) { return 300 * growth.parts_of_one(); }

int main() {
  double misfit = misfit_on_30_cm(units::Strain(0.0085));
#ifdef OFFENCE
  misfit = misfit_on_30_cm(units::Moisture(0.62));
#endif
  return misfit > 0 ? 0 : 1;
}
