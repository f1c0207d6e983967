#pragma once

#include <cmath>

namespace dampline::air {

/// The root of a continuous f in [low, high], where f(low) and f(high) have opposite signs: false
/// position with the Illinois weighting, halving when that stalls. NaN when the ends have one
/// sign; the root returned is one where f has been evaluated or bracketed to `width`.
template <class Function>
[[nodiscard]] double bracketed_root(Function f, double low, double high, double width) {
  double f_low = f(low);
  double f_high = f(high);
  if (f_low == 0) return low;
  if (f_high == 0) return high;
  if (!(f_low * f_high < 0)) return std::nan("");
  int side = 0;
  for (int i = 0; i < 200 && high - low > width; ++i) {
    double middle = (low * f_high - high * f_low) / (f_high - f_low);
    if (i % 4 == 3 || !(middle > low && middle < high)) middle = 0.5 * (low + high);
    const double f_middle = f(middle);
    if (f_middle == 0) return middle;
    if (f_middle * f_low > 0) {
      low = middle;
      f_low = f_middle;
      if (side == -1) f_high *= 0.5;
      side = -1;
    } else {
      high = middle;
      f_high = f_middle;
      if (side == 1) f_low *= 0.5;
      side = 1;
    }
  }
  return 0.5 * (low + high);
}

}  // namespace dampline::air
