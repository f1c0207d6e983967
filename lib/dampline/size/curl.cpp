#include <dampline/size/curl.hpp>

namespace dampline::size {

double two_layer_curl(double wet_share, double softness) {
  const double m = wet_share / (1 - wet_share);
  const double n = softness;
  return 6 * (1 + m) * (1 + m) / (3 * (1 + m) * (1 + m) + (1 + m * n) * (m * m + 1 / (m * n)));
}

double curl_si(const Direction& d, std::span<const double> moisture, double thickness_m) {
  const double cell = thickness_m / static_cast<double>(moisture.size());
  double stiffness = 0;
  double first = 0;
  for (std::size_t i = 0; i < moisture.size(); ++i) {
    const double e = stiffness_si(moisture[i]) * cell;
    stiffness += e;
    first += e * (static_cast<double>(i) + 0.5) * cell;
  }
  const double centre = first / stiffness;
  double moment = 0;
  double resistance = 0;
  for (std::size_t i = 0; i < moisture.size(); ++i) {
    const double e = stiffness_si(moisture[i]) * cell;
    const double z = (static_cast<double>(i) + 0.5) * cell - centre;
    moment += e * growth_si(d, moisture[i]) * z;
    resistance += e * (z * z + cell * cell / 12);
  }
  return -moment / resistance;
}

}  // namespace dampline::size
