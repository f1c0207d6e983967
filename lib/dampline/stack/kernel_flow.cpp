#include <algorithm>
#include <cmath>

#include <dampline/stack/kernel_si.hpp>
#include <dampline/stack/water_table.hpp>

// What flows at a joint: between layers, out of a film, to the tub and to the air.
namespace dampline::stack::kernel {

namespace {

constexpr double vapour_gas = 461.5;  // J/(kg K)
constexpr double patchy = 1e-3;       // kg/m2: a film thinner than this leaves bare places
constexpr double bridge = 4;          // contact through a film over dry contact: `assumed`
constexpr double reference_kelvin = 296.15;
constexpr double table_end = 1.25;  // of (dT/depression)^1/4, as face.cpp tables it

double cubic(const std::array<double, 4 * AirSide::intervals>& c, double at) {
  const double x = std::min(at, table_end) * (AirSide::intervals / table_end);
  const auto i =
      std::min(static_cast<std::size_t>(x), static_cast<std::size_t>(AirSide::intervals - 1));
  const double t = x - static_cast<double>(i);
  const double* p = c.data() + 4 * i;
  return p[0] + t * (p[1] + t * (p[2] + t * p[3]));
}

double latent_heat(double kelvin) { return 2.5009e6 - 2360.4 * (kelvin - 273.15); }

// 1160 exp(-u/0.0397) J/g, the net heat of sorption (material/isotherm).
double sorption_heat(double u) { return u > 0.8 ? 0.0 : 1.160e6 * std::exp(-u / 0.0397); }

}  // namespace

double coverage(double film) {
  const double x = film / patchy;
  return x > 0 ? 1 - std::exp(-x) : x;
}

Flow System::flow(int j, double left, double right, double film, double kelvin) const {
  const JointSi& q = joint[static_cast<std::size_t>(j)];
  Flow f{0, 0, 0, 0, 0, 0};
  const double c = q.film_active ? coverage(film) : 0;
  const double bare = 1 - c;

  if (q.inner) {
    const material::Sloped wl = q.left_table->reference(left);
    const material::Sloped wr = q.right_table->reference(right);
    const Integral il = integral(q.left_layer, left);
    const Integral ir = integral(q.right_layer, right);
    const double rl = wl.slope / (q.g_left * il.slope);
    const double rr = wr.slope / (q.g_right * ir.slope);
    f.across = bare * q.contact * (wl.value - wr.value) / (1 + q.contact * (rl + rr));
    if (c != 0) {
      const double bridged = bridge * q.contact;
      const double free =
          q.film_on_left ? q.left_table->reference(cap[static_cast<std::size_t>(q.left)]).value
                         : q.right_table->reference(cap[static_cast<std::size_t>(q.right)]).value;
      if (q.film_on_left) {
        const double brim = integral(q.left_layer, cap[static_cast<std::size_t>(q.left)]).value;
        f.film_left = c * q.g_left * (brim - il.value);
        f.film_right = c * bridged * (free - wr.value) / (1 + bridged * rr);
      } else {
        const double brim = integral(q.right_layer, cap[static_cast<std::size_t>(q.right)]).value;
        f.film_right = c * q.g_right * (brim - ir.value);
        f.film_left = c * bridged * (free - wl.value) / (1 + bridged * rl);
      }
    }
    return f;
  }

  const bool at_left = q.left < 0;
  const double u = at_left ? right : left;
  const int l = at_left ? q.right_layer : q.left_layer;
  const double g = at_left ? q.g_right : q.g_left;
  const auto cell = static_cast<std::size_t>(at_left ? q.right : q.left);
  const Integral here = integral(l, u);

  if (q.kind == FaceKind::water) {
    f.cell_out = g * (here.value - integral(l, cap[cell]).value);
    return f;
  }
  if (c != 0) {
    const double in = c * g * (integral(l, cap[cell]).value - here.value);
    (at_left ? f.film_right : f.film_left) = in;
  }
  if (q.kind == FaceKind::sealed) return f;

  const AirSide& a = q.air;
  const double colder = std::abs(a.air_kelvin - kelvin) / a.depression;
  const double at = std::sqrt(std::sqrt(colder));
  const double k = cubic(a.transfer, at);
  const double h = cubic(a.convection, at);
  const double saturation = water_table().at(kelvin).saturation_pa;
  const double per_pa = 1 / (vapour_gas * kelvin);
  const double in_air = a.vapour_pa / (vapour_gas * a.air_kelvin);
  const material::Sloped activity = (at_left ? q.right_table : q.left_table)->activity(u);
  const double warmth = 1 / reference_kelvin - 1 / kelvin;
  const double heat = sorption_heat(u);
  const double factor = std::exp(heat / vapour_gas * warmth);

  const double e_cell = activity.value * factor * saturation;
  double out = k * (e_cell * per_pa - in_air) / (1 - (e_cell + a.vapour_pa) / (2 * a.total_pa));
  // The half cell under the face in series, by the slope of the surface's activity.
  out /= 1 + k * per_pa * saturation * activity.slope * factor / (g * here.slope);
  f.cell_out = bare * out;
  double taken = f.cell_out * (latent_heat(kelvin) + heat);
  if (c != 0) {
    f.film_out = c * k * (saturation * per_pa - in_air) /
                 (1 - (saturation + a.vapour_pa) / (2 * a.total_pa));
    taken += f.film_out * latent_heat(kelvin);
  }
  f.heat = (h + a.radiation) * (a.air_kelvin - kelvin) - taken;
  return f;
}

}  // namespace dampline::stack::kernel
