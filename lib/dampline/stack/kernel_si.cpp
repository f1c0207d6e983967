#include <algorithm>
#include <cmath>

#include <dampline/stack/kernel_si.hpp>
#include <dampline/stack/water_table.hpp>

namespace dampline::stack::kernel {

namespace {

constexpr double vapour_gas = 461.5;  // J/(kg K)
// Steps of the one-sided differences for a joint's slopes.
constexpr double step_moisture = 1e-7;
constexpr double step_film = 1e-8;
constexpr double step_kelvin = 1e-4;

Flow difference(const Flow& a, const Flow& b, double step) {
  const double s = 1 / step;
  return {(a.film_left - b.film_left) * s, (a.film_right - b.film_right) * s,
          (a.across - b.across) * s,       (a.film_out - b.film_out) * s,
          (a.cell_out - b.cell_out) * s,   (a.heat - b.heat) * s};
}

}  // namespace

void System::build_workspace() {
  const auto n = static_cast<std::size_t>(cells);
  const auto j = static_cast<std::size_t>(joints);
  phi_.assign(n, 0);
  cell_slope_.assign(n, 0);
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

template <bool keep_slopes>
void System::rates(const double* y, double* dy) {
  const double kelvin = y[kelvin_at()];
  prepare(kelvin);
  for (const LayerSi& s : layer) {
    const double liquid = s.liquid * liquid_now_;
    const double vapour = s.vapour * vapour_now_;
    for (int i = s.first; i < s.last; ++i) {
      const Integral here = integral_of(s, liquid, vapour, y[i]);
      phi_[static_cast<std::size_t>(i)] = here.value;
      if constexpr (keep_slopes) cell_slope_[static_cast<std::size_t>(i)] = here.slope;
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

template void System::rates<false>(const double*, double*);
template void System::rates<true>(const double*, double*);

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
  const auto cell_count = static_cast<std::size_t>(cells);
  double before = 0;  // conductance to the cell before; zero across layers
  for (std::size_t k = 0; k < cell_count; ++k) {
    const double after = conductance[k];
    mid_[k] = diagonal + (before + after) * cell_slope_[k] * inverse_dry[k];
    up_[k] = k + 1 < cell_count ? -after * cell_slope_[k + 1] * inverse_dry[k] : 0;
    low_[k] = k > 0 ? -before * cell_slope_[k - 1] * inverse_dry[k] : 0;
    before = after;
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

  factor_tridiagonal();
  if (bordered_) {
    std::fill(border_.begin(), border_.end(), 0.0);
    border_.front() += kelvin_col_first_;
    border_.back() += kelvin_col_last_;
    solve_tridiagonal(border_.data());
    kelvin_pivot_ -= kelvin_row_first_ * border_.front() + kelvin_row_last_ * border_.back();
  }
}

void System::factor_tridiagonal() {
  // mid_ becomes the inverse pivots. On the left of the middle low_ becomes the multipliers and up_
  // is scaled by its pivot; on the right the other way round.
  const auto n = static_cast<std::size_t>(cells);
  const std::size_t m = n / 2;
  for (std::size_t i = 0; i < m; ++i) {
    mid_[i] = 1 / mid_[i];
    low_[i + 1] *= mid_[i];
    mid_[i + 1] -= low_[i + 1] * up_[i];
    up_[i] *= mid_[i];
  }
  for (std::size_t i = n - 1; i > m; --i) {
    mid_[i] = 1 / mid_[i];
    up_[i - 1] *= mid_[i];
    mid_[i - 1] -= up_[i - 1] * low_[i];
    low_[i] *= mid_[i];
  }
  mid_[m] = 1 / mid_[m];
}

void System::solve_tridiagonal(double* r) const {
  const auto n = static_cast<std::size_t>(cells);
  const std::size_t m = n / 2;
  const std::size_t pairs = n - 1 - m;  // cells on the right; as many on the left, or one more
  const double* low = low_.data();
  const double* mid = mid_.data();
  const double* up = up_.data();
  double left = r[0];
  double right = r[n - 1];
  for (std::size_t i = 1; i < pairs; ++i) {
    left = r[i] -= low[i] * left;
    right = r[n - 1 - i] -= up[n - 1 - i] * right;
  }
  for (std::size_t i = std::max<std::size_t>(1, pairs); i < m; ++i) {
    left = r[i] -= low[i] * left;
  }
  double middle = r[m] - low[m] * left;
  if (pairs > 0) middle -= up[m] * right;
  r[m] = middle * mid[m];
  double to_left = r[m];
  double to_right = r[m];
  for (std::size_t i = 1; i <= pairs; ++i) {
    to_left = r[m - i] = r[m - i] * mid[m - i] - up[m - i] * to_left;
    to_right = r[m + i] = r[m + i] * mid[m + i] - low[m + i] * to_right;
  }
  for (std::size_t i = pairs + 1; i <= m; ++i) {
    to_left = r[m - i] = r[m - i] * mid[m - i] - up[m - i] * to_left;
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
  solve_tridiagonal(r);
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
