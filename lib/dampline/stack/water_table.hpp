#pragma once

#include <array>
#include <cstddef>

/// Saturation vapour pressure and liquid mobility against temperature, as cubics a kelvin wide, for
/// the solver's inner loop. Error 1e-7 of the formulae they are built from.
namespace dampline::stack::kernel {

class WaterTable {
 public:
  static constexpr double coldest = 240;
  static constexpr int intervals = 110;
  struct Value {
    double saturation_pa;
    double liquid_factor;
  };
  WaterTable();
  /// Eight coefficients an interval: pressure, then mobility, by rising power.
  [[nodiscard]] const double* coefficients() const { return cubics_.data(); }
  [[nodiscard]] Value at(double kelvin) const {
    double x = kelvin - coldest;
    x = x < 0 ? 0 : (x > intervals - 1e-9 ? intervals - 1e-9 : x);
    const auto i = static_cast<std::size_t>(x);
    const double t = x - static_cast<double>(i);
    const double* c = cubics_.data() + 8 * i;
    return {c[0] + t * (c[1] + t * (c[2] + t * c[3])), c[4] + t * (c[5] + t * (c[6] + t * c[7]))};
  }

 private:
  std::array<double, 8 * intervals> cubics_{};
};
[[nodiscard]] const WaterTable& water_table();

}  // namespace dampline::stack::kernel
