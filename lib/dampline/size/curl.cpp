#include <algorithm>
#include <cmath>
#include <vector>

#include <dampline/size/curl.hpp>
#include <dampline/units/text.hpp>

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

Curl curl(const SheetSize& sheet, std::span<const double> from_above, units::Length thickness) {
  constexpr double lies_flat = 3;  // m
  const std::vector<double> from_below(from_above.rbegin(), from_above.rend());
  const double per_metre = curl_si(sheet.across, from_below, units::in_si(thickness));
  if (std::abs(per_metre) * lies_flat < 1) return {};
  return {per_metre > 0 ? Edges::lift : Edges::droop, units::metres(1 / std::abs(per_metre))};
}

std::string word(Edges edges) {
  switch (edges) {
    case Edges::lift:
      return "lift";
    case Edges::droop:
      return "droop";
    case Edges::flat:
      break;
  }
  return "flat";
}

std::string text(const Curl& curl) {
  if (curl.edges == Edges::flat) return word(curl.edges);
  const double metres = units::in_si(curl.radius);
  // Two figures of a rough number would be one too many below a metre.
  const auto radius = metres < 1 ? units::shortest(std::max(1.0, std::round(metres * 100))) + " cm"
                                 : units::shortest(std::round(metres * 10) / 10) + " m";
  return "edges " + word(curl.edges) + ", radius " + radius;
}

}  // namespace dampline::size
