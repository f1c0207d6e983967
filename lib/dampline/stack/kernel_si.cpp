#include <algorithm>
#include <cmath>

#include <dampline/stack/kernel_si.hpp>
#include <dampline/stack/water_table.hpp>

namespace dampline::stack::kernel {

namespace {

constexpr double vapour_gas = 461.5;  // J/(kg K)
constexpr double patchy = 1e-3;       // kg/m2: a film thinner than this leaves bare places
constexpr double bridge = 4;          // contact through a film over dry contact: `assumed`
constexpr double reference_kelvin = 296.15;
constexpr double table_end = 1.25;  // of (dT/depression)^1/4, as face.cpp tables it
// Steps of the one-sided differences for a joint's slopes.
constexpr double step_moisture = 1e-7;
constexpr double step_film = 1e-8;
constexpr double step_kelvin = 1e-4;

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

Flow difference(const Flow& a, const Flow& b, double step) {
  const double s = 1 / step;
  return {(a.film_left - b.film_left) * s, (a.film_right - b.film_right) * s,
          (a.across - b.across) * s,       (a.film_out - b.film_out) * s,
          (a.cell_out - b.cell_out) * s,   (a.heat - b.heat) * s};
}

}  // namespace

double coverage(double film) {
  const double x = film / patchy;
  return x > 0 ? 1 - std::exp(-x) : x;
}

void System::build_workspace() {
  const auto n = static_cast<std::size_t>(cells);
  const auto j = static_cast<std::size_t>(joints);
  phi_.assign(n, 0);
  low_.assign(n, 0);
  mid_.assign(n, 0);
  up_.assign(n, 0);
  border_.assign(n, 0);
  slope_.assign(j, {});
  for (auto* v : {&film_pivot_, &film_from_left_, &film_from_right_, &film_from_kelvin_,
                  &left_from_film_, &right_from_film_, &kelvin_from_film_}) {
    v->assign(j, 0);
  }
}

void System::prepare(double kelvin) {
  const auto w = water_table().at(kelvin);
  liquid_now_ = w.liquid_factor;
  vapour_now_ = w.saturation_pa / (vapour_gas * kelvin);
}

System::Integral System::integral(int l, double u) const {
  const LayerSi& s = layer[static_cast<std::size_t>(l)];
  const double liquid = s.liquid * liquid_now_;
  const double vapour = s.vapour * vapour_now_;
  const double x = u * s.per_moisture;
  int i = static_cast<int>(x);
  i = i < 0 ? 0
            : (i > material::PorousTable::intervals - 1 ? material::PorousTable::intervals - 1 : i);
  const double* c = s.table + static_cast<std::ptrdiff_t>(i) * material::PorousTable::stride;
  const double t = x - i;
  const double in = t < 0 ? 0 : (t > 1 ? 1 : t);
  const double c0 = vapour * c[0] + liquid * c[4];
  const double c1 = vapour * c[1] + liquid * c[5];
  const double c2 = vapour * c[2] + liquid * c[6];
  const double c3 = vapour * c[3] + liquid * c[7];
  const double slope = c1 + in * (2 * c2 + in * 3 * c3);
  return {c0 + in * (c1 + in * (c2 + in * c3)) + (t - in) * slope, slope * s.per_moisture};
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

void System::derivative(const double* y, double* dy) {
  const double kelvin = y[kelvin_at()];
  prepare(kelvin);
  for (std::size_t l = 0; l < layer.size(); ++l) {
    const LayerSi& s = layer[l];
    for (int i = s.first; i < s.last; ++i) {
      phi_[static_cast<std::size_t>(i)] = integral(static_cast<int>(l), y[i]).value;
    }
  }
  double entering = 0;
  for (int i = 0; i < cells; ++i) {
    const auto k = static_cast<std::size_t>(i);
    const double leaving = i + 1 < cells ? conductance[k] * (phi_[k] - phi_[k + 1]) : 0;
    dy[i] = entering - leaving;
    entering = leaving;
  }
  double heat = back_heat * (ambient - kelvin);
  dy[out_left_at()] = 0;
  dy[out_left_at() + 1] = 0;
  for (int j = 0; j < joints; ++j) {
    const JointSi& q = joint[static_cast<std::size_t>(j)];
    dy[film_at(j)] = 0;
    if (!q.inner && q.kind == FaceKind::sealed && !q.film_active) continue;
    const Flow f =
        flow(j, q.left >= 0 ? y[q.left] : 0, q.right >= 0 ? y[q.right] : 0, y[film_at(j)], kelvin);
    if (q.left >= 0) dy[q.left] += f.film_left - f.across;
    if (q.right >= 0) dy[q.right] += f.film_right + f.across;
    if (!q.inner) dy[q.left < 0 ? q.right : q.left] -= f.cell_out;
    dy[film_at(j)] = -(f.film_left + f.film_right + f.film_out);
    if (!q.inner) dy[out_left_at() + (q.left < 0 ? 0 : 1)] += f.cell_out + f.film_out;
    heat += f.heat;
  }
  for (int i = 0; i < cells; ++i) dy[i] *= inverse_dry[static_cast<std::size_t>(i)];
  dy[kelvin_at()] = fixed_temperature ? 0 : heat / heat_capacity;
}

void System::add_joint(int j, const double* y) {
  const JointSi& q = joint[static_cast<std::size_t>(j)];
  JointSlope& s = slope_[static_cast<std::size_t>(j)];
  s = {};
  if (!q.inner && q.kind == FaceKind::sealed && !q.film_active) return;
  const double left = q.left >= 0 ? y[q.left] : 0;
  const double right = q.right >= 0 ? y[q.right] : 0;
  const double film = y[film_at(j)];
  const double kelvin = y[kelvin_at()];
  const Flow at = flow(j, left, right, film, kelvin);
  if (q.left >= 0) {
    s.by_left = difference(flow(j, left + step_moisture, right, film, kelvin), at, step_moisture);
  }
  if (q.right >= 0) {
    s.by_right = difference(flow(j, left, right + step_moisture, film, kelvin), at, step_moisture);
  }
  if (q.film_active) {
    s.by_film = difference(flow(j, left, right, film + step_film, kelvin), at, step_film);
  }
  if (q.kind == FaceKind::air && !q.inner && !fixed_temperature) {
    s.by_kelvin = difference(flow(j, left, right, film, kelvin + step_kelvin), at, step_kelvin);
  }
}

void System::eliminate_film(int j, double diagonal) {
  const auto k = static_cast<std::size_t>(j);
  const JointSi& q = joint[k];
  const JointSlope& s = slope_[k];
  const auto taken = [](const Flow& f) { return f.film_left + f.film_right + f.film_out; };
  film_pivot_[k] = diagonal + taken(s.by_film);
  film_from_left_[k] = -taken(s.by_left);
  film_from_right_[k] = -taken(s.by_right);
  film_from_kelvin_[k] = -taken(s.by_kelvin);
  left_from_film_[k] = 0;
  right_from_film_[k] = 0;
  // Rates of the neighbours by the film, per pivot.
  const double per = 1 / film_pivot_[k];
  if (q.left >= 0) {
    const double rate = s.by_film.film_left - s.by_film.across - (q.inner ? 0 : s.by_film.cell_out);
    left_from_film_[k] = per * rate * inverse_dry[static_cast<std::size_t>(q.left)];
  }
  if (q.right >= 0) {
    const double rate =
        s.by_film.film_right + s.by_film.across - (q.inner ? 0 : s.by_film.cell_out);
    right_from_film_[k] = per * rate * inverse_dry[static_cast<std::size_t>(q.right)];
  }
  kelvin_from_film_[k] = fixed_temperature ? 0 : per * s.by_film.heat / heat_capacity;

  const auto mid = [&](int i) -> double& { return mid_[static_cast<std::size_t>(i)]; };
  if (q.left >= 0) {
    mid(q.left) -= left_from_film_[k] * film_from_left_[k];
    if (q.right >= 0) {
      up_[static_cast<std::size_t>(q.left)] -= left_from_film_[k] * film_from_right_[k];
    }
  }
  if (q.right >= 0) {
    mid(q.right) -= right_from_film_[k] * film_from_right_[k];
    if (q.left >= 0) {
      low_[static_cast<std::size_t>(q.right)] -= right_from_film_[k] * film_from_left_[k];
    }
  }
  if (bordered_) {
    // Faces with air are the outer joints: one cell each.
    if (q.left < 0) {
      kelvin_col_first_ -= right_from_film_[k] * film_from_kelvin_[k];
      kelvin_row_first_ -= kelvin_from_film_[k] * film_from_right_[k];
    } else if (q.right < 0) {
      kelvin_col_last_ -= left_from_film_[k] * film_from_kelvin_[k];
      kelvin_row_last_ -= kelvin_from_film_[k] * film_from_left_[k];
    }
    kelvin_pivot_ -= kelvin_from_film_[k] * film_from_kelvin_[k];
  }
}

void System::factor(const double* y, double diagonal) {
  diagonal_ = diagonal;
  prepare(y[kelvin_at()]);
  for (std::size_t l = 0; l < layer.size(); ++l) {
    const LayerSi& s = layer[l];
    double slope_here = integral(static_cast<int>(l), y[s.first]).slope;
    double left_conductance = 0;
    for (int i = s.first; i < s.last; ++i) {
      const auto k = static_cast<std::size_t>(i);
      const bool more = i + 1 < s.last;
      const double right_conductance = more ? conductance[k] : 0;
      const double slope_next = more ? integral(static_cast<int>(l), y[i + 1]).slope : 0;
      mid_[k] = diagonal + (left_conductance + right_conductance) * slope_here * inverse_dry[k];
      up_[k] = more ? -right_conductance * slope_next * inverse_dry[k] : 0;
      if (more) low_[k + 1] = -right_conductance * slope_here * inverse_dry[k + 1];
      if (i == s.first) low_[k] = 0;
      left_conductance = right_conductance;
      slope_here = slope_next;
    }
  }
  bordered_ = false;
  if (!fixed_temperature) {
    bordered_ = joint.front().kind == FaceKind::air || joint.back().kind == FaceKind::air;
  }
  kelvin_pivot_ = diagonal + (fixed_temperature ? 0 : back_heat / heat_capacity);
  kelvin_row_first_ = kelvin_row_last_ = kelvin_col_first_ = kelvin_col_last_ = 0;

  for (int j = 0; j < joints; ++j) {
    add_joint(j, y);
    const auto k = static_cast<std::size_t>(j);
    const JointSi& q = joint[k];
    const JointSlope& s = slope_[k];
    const auto dry = [&](int i) { return inverse_dry[static_cast<std::size_t>(i)]; };
    if (q.inner) {
      const auto a = static_cast<std::size_t>(q.left);
      const auto b = static_cast<std::size_t>(q.right);
      mid_[a] -= (s.by_left.film_left - s.by_left.across) * dry(q.left);
      up_[a] -= (s.by_right.film_left - s.by_right.across) * dry(q.left);
      mid_[b] -= (s.by_right.film_right + s.by_right.across) * dry(q.right);
      low_[b] -= (s.by_left.film_right + s.by_left.across) * dry(q.right);
    } else if (q.left < 0) {
      mid_[static_cast<std::size_t>(q.right)] -=
          (s.by_right.film_right - s.by_right.cell_out) * dry(q.right);
      kelvin_col_first_ -= (s.by_kelvin.film_right - s.by_kelvin.cell_out) * dry(q.right);
      if (bordered_) {
        kelvin_row_first_ -= s.by_right.heat / heat_capacity;
        kelvin_pivot_ -= s.by_kelvin.heat / heat_capacity;
      }
    } else {
      mid_[static_cast<std::size_t>(q.left)] -=
          (s.by_left.film_left - s.by_left.cell_out) * dry(q.left);
      kelvin_col_last_ -= (s.by_kelvin.film_left - s.by_kelvin.cell_out) * dry(q.left);
      if (bordered_) {
        kelvin_row_last_ -= s.by_left.heat / heat_capacity;
        kelvin_pivot_ -= s.by_kelvin.heat / heat_capacity;
      }
    }
    if (q.film_active) eliminate_film(j, diagonal);
  }

  // LU of the tridiagonal part; mid_ keeps the inverse pivots, low_ the multipliers.
  const auto n = static_cast<std::size_t>(cells);
  mid_[0] = 1 / mid_[0];
  for (std::size_t i = 1; i < n; ++i) {
    low_[i] *= mid_[i - 1];
    mid_[i] = 1 / (mid_[i] - low_[i] * up_[i - 1]);
  }
  if (bordered_) {
    std::fill(border_.begin(), border_.end(), 0.0);
    border_[0] += kelvin_col_first_;
    border_[n - 1] += kelvin_col_last_;
    for (std::size_t i = 1; i < n; ++i) border_[i] -= low_[i] * border_[i - 1];
    border_[n - 1] *= mid_[n - 1];
    for (std::size_t i = n - 1; i-- > 0;) {
      border_[i] = (border_[i] - up_[i] * border_[i + 1]) * mid_[i];
    }
    kelvin_pivot_ -= kelvin_row_first_ * border_[0] + kelvin_row_last_ * border_[n - 1];
  }
}

void System::solve(double* r) const {
  double& kelvin = r[kelvin_at()];
  for (int j = 0; j < joints; ++j) {
    const auto k = static_cast<std::size_t>(j);
    const JointSi& q = joint[k];
    if (!q.film_active) continue;
    const double film = r[film_at(j)];
    if (q.left >= 0) r[q.left] += left_from_film_[k] * film;
    if (q.right >= 0) r[q.right] += right_from_film_[k] * film;
    if (bordered_) kelvin += kelvin_from_film_[k] * film;
  }
  const auto n = static_cast<std::size_t>(cells);
  for (std::size_t i = 1; i < n; ++i) r[i] -= low_[i] * r[i - 1];
  r[n - 1] *= mid_[n - 1];
  for (std::size_t i = n - 1; i-- > 0;) r[i] = (r[i] - up_[i] * r[i + 1]) * mid_[i];
  if (bordered_) {
    kelvin = (kelvin - kelvin_row_first_ * r[0] - kelvin_row_last_ * r[n - 1]) / kelvin_pivot_;
    for (std::size_t i = 0; i < n; ++i) r[i] -= border_[i] * kelvin;
  } else {
    kelvin /= kelvin_pivot_;
  }
  for (int side = 0; side < 2; ++side) r[out_left_at() + side] /= diagonal_;
  for (int j = 0; j < joints; ++j) {
    const auto k = static_cast<std::size_t>(j);
    const JointSi& q = joint[k];
    const JointSlope& s = slope_[k];
    const double left = q.left >= 0 ? r[q.left] : 0;
    const double right = q.right >= 0 ? r[q.right] : 0;
    double film = 0;
    if (q.film_active) {
      film = (r[film_at(j)] + film_from_left_[k] * left + film_from_right_[k] * right +
              film_from_kelvin_[k] * kelvin) /
             film_pivot_[k];
    }
    r[film_at(j)] = film;
    if (!q.inner) {
      r[out_left_at() + (q.left < 0 ? 0 : 1)] +=
          ((s.by_left.cell_out + s.by_left.film_out) * left +
           (s.by_right.cell_out + s.by_right.film_out) * right +
           (s.by_film.cell_out + s.by_film.film_out) * film +
           (s.by_kelvin.cell_out + s.by_kelvin.film_out) * kelvin) /
          diagonal_;
    }
  }
}

}  // namespace dampline::stack::kernel
