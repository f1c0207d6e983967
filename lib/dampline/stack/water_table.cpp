#include <dampline/air/psychrometrics.hpp>
#include <dampline/material/transport.hpp>
#include <dampline/stack/water_table.hpp>

namespace dampline::stack::kernel {

namespace {

void hermite(double* c, double f0, double f1, double d0, double d1) {
  c[0] = f0;
  c[1] = d0;
  c[2] = 3 * (f1 - f0) - 2 * d0 - d1;
  c[3] = d0 + d1 - 2 * (f1 - f0);
}

double liquid_slope(double kelvin) {
  return (material::liquid_factor_si(kelvin + 0.01) - material::liquid_factor_si(kelvin - 0.01)) /
         0.02;
}

}  // namespace

WaterTable::WaterTable() {
  for (int i = 0; i < intervals; ++i) {
    const double t0 = coldest + i;
    const double t1 = t0 + 1;
    double* c = cubics_.data() + 8 * static_cast<std::size_t>(i);
    hermite(c, air::saturation_pressure_si(t0), air::saturation_pressure_si(t1),
            air::saturation_slope_si(t0), air::saturation_slope_si(t1));
    hermite(c + 4, material::liquid_factor_si(t0), material::liquid_factor_si(t1), liquid_slope(t0),
            liquid_slope(t1));
  }
}

const WaterTable& water_table() {
  static const WaterTable table;
  return table;
}

}  // namespace dampline::stack::kernel
