#pragma once

#include <array>

namespace dampline::size {

struct ShiftSi {
  double x = 0;  // m
  double y = 0;
};

/// Chance that a normal placing error of s.d. `placing` (m) along each side leaves each of four
/// shifted corners within `tolerance` (m): that the error lies in the intersection of four circles.
/// Error   1e-5 (tests/size/register_test.cpp).
[[nodiscard]] double chance_within_si(const std::array<ShiftSi, 4>& shift, double placing,
                                      double tolerance);

}  // namespace dampline::size
