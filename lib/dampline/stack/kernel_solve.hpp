#pragma once

#include <dampline/stack/kernel_rates.hpp>

// The linear problem of an implicit step: cells tridiagonal, films eliminated first, temperature as
// a border. Internal linkage: see pack.hpp.
namespace dampline::stack::kernel {
namespace {  // NOLINT(google-build-namespaces)

// What eliminating a joint's film leaves: film = (r + sum of from)/pivot, and its hold on the
// neighbours per pivot.
template <class V>
struct FilmRow {
  V per_pivot, from_left, from_right, from_kelvin, to_left, to_right, to_kelvin;
};
static_assert(sizeof(FilmRow<double>) == film_rows * sizeof(double));

template <class V>
struct Border {
  V row_first, row_last, column_first, column_last, per_pivot, per_diagonal;
};

template <class V, class H>
struct Solve {
  static constexpr int lanes = count<V>;
  static constexpr int wide = count<H>;

  struct JointSlopes {
    Exchange<V> by_left, by_right, by_film, by_kelvin;
  };
  static JointSlopes slopes(const System& s, int j) {
    return load<JointSlopes>(s.joint_slope + j * slopes_of_joint * lanes);
  }
  static V dry(const System& s, int cell) { return load<V>(s.inverse_dry + cell * lanes); }
  static void take(double* array, int cell, V amount) {
    double* at = array + cell * lanes;
    store(at, load<V>(at) - amount);
  }

  static void factor(System& s, double diagonal) {
    const int end = s.cells * lanes;
    const double* const conductance = s.conductance;
    const double* const inverse_dry = s.inverse_dry;
    const double* const slope = s.slope_here;
    double* const low = s.low;
    double* const mid = s.mid;
    double* const up = s.up;
    for (int k = 0; k < end; k += wide) {
      const H before = load<H>(conductance + k - lanes);
      const H after = load<H>(conductance + k);
      const H inverse = load<H>(inverse_dry + k);
      store(mid + k, (before + after) * load<H>(slope + k) * inverse + diagonal);
      store(up + k, -after * load<H>(slope + k + lanes) * inverse);
      store(low + k, -before * load<H>(slope + k - lanes) * inverse);
    }
    const V per_heat = 1 / load<V>(s.heat_capacity);
    const bool fixed = s.fixed_temperature;
    s.bordered =
        !fixed && (s.joint[0].kind == FaceKind::air || s.joint[s.joints - 1].kind == FaceKind::air);
    Border<V> b{};
    V pivot = diagonal + (fixed ? V{} : load<V>(s.back_heat) * per_heat);
    for (int j = 0; j < s.joints; ++j) {
      const Joint& q = s.joint[j];
      if (idle<V>(q)) continue;
      const JointSlopes x = slopes(s, j);
      if (q.left >= 0) take(s.mid, q.left, x.by_left.left * dry(s, q.left));
      if (q.right >= 0) take(s.mid, q.right, x.by_right.right * dry(s, q.right));
      if (q.inner) {
        take(s.up, q.left, x.by_right.left * dry(s, q.left));
        take(s.low, q.right, x.by_left.right * dry(s, q.right));
      } else if (s.bordered) {
        pivot -= x.by_kelvin.heat * per_heat;
        if (q.left < 0) {
          b.column_first -= x.by_kelvin.right * dry(s, q.right);
          b.row_first -= x.by_right.heat * per_heat;
        } else {
          b.column_last -= x.by_kelvin.left * dry(s, q.left);
          b.row_last -= x.by_left.heat * per_heat;
        }
      }
      if (q.film) eliminate(s, j, x, diagonal, per_heat, b, pivot);
    }
    factor_tridiagonal(s);
    if (s.bordered) {
      for (int k = 0; k < end; k += wide) store(s.border + k, H{});
      const int last = (s.cells - 1) * lanes;
      store(s.border, b.column_first);
      store(s.border + last, load<V>(s.border + last) + b.column_last);
      solve_tridiagonal(s, s.border);
      pivot -= b.row_first * load<V>(s.border) + b.row_last * load<V>(s.border + last);
    }
    b.per_pivot = 1 / pivot;
    b.per_diagonal = all<V>(1 / diagonal);
    store(s.kelvin_row, b);
  }

  static void eliminate(System& s, int j, const JointSlopes& x, double diagonal, V per_heat,
                        Border<V>& b, V& pivot) {
    const Joint& q = s.joint[j];
    FilmRow<V> f{};
    f.per_pivot = 1 / (diagonal - x.by_film.film);
    f.from_left = x.by_left.film;
    f.from_right = x.by_right.film;
    f.from_kelvin = x.by_kelvin.film;
    if (q.left >= 0) {
      f.to_left = f.per_pivot * x.by_film.left * dry(s, q.left);
      take(s.mid, q.left, f.to_left * f.from_left);
      if (q.right >= 0) take(s.up, q.left, f.to_left * f.from_right);
    }
    if (q.right >= 0) {
      f.to_right = f.per_pivot * x.by_film.right * dry(s, q.right);
      take(s.mid, q.right, f.to_right * f.from_right);
      if (q.left >= 0) take(s.low, q.right, f.to_right * f.from_left);
    }
    if (s.bordered) {
      f.to_kelvin = f.per_pivot * x.by_film.heat * per_heat;
      pivot -= f.to_kelvin * f.from_kelvin;
      // Faces with air are the outer joints: one cell each.
      if (q.left < 0) {
        b.column_first -= f.to_right * f.from_kelvin;
        b.row_first -= f.to_kelvin * f.from_right;
      } else if (q.right < 0) {
        b.column_last -= f.to_left * f.from_kelvin;
        b.row_last -= f.to_kelvin * f.from_left;
      }
    }
    store(s.film_row + j * film_rows * lanes, f);
  }

  // mid becomes the inverse pivots of an elimination from both ends that meets in the middle: two
  // chains that do not wait for each other. On the left of the middle low becomes the multipliers
  // and up is scaled by its pivot; on the right the other way round.
  static void factor_tridiagonal(System& s) {
    const int n = s.cells;
    const int m = n / 2;
    double* const low_row = s.low;
    double* const mid_row = s.mid;
    double* const up_row = s.up;
    const auto at = [](double* a, int i) { return a + i * lanes; };
    V left = load<V>(mid_row);
    V right = load<V>(at(mid_row, n - 1));
    for (int i = 0, k = n - 1; i < m; ++i, --k) {
      const V per = 1 / left;
      const V low = load<V>(at(low_row, i + 1)) * per;
      const V up = load<V>(at(up_row, i));
      store(at(mid_row, i), per);
      store(at(low_row, i + 1), low);
      store(at(up_row, i), up * per);
      left = load<V>(at(mid_row, i + 1)) - low * up;
      if (k > m) {
        const V per_right = 1 / right;
        const V up_right = load<V>(at(up_row, k - 1)) * per_right;
        const V low_right = load<V>(at(low_row, k));
        store(at(mid_row, k), per_right);
        store(at(up_row, k - 1), up_right);
        store(at(low_row, k), low_right * per_right);
        right = load<V>(at(mid_row, k - 1)) - up_right * low_right;
      }
    }
    // Both chains have reached m: each holds mid[m] less its own share.
    store(at(mid_row, m), 1 / (left + right - load<V>(at(mid_row, m))));
  }

  static void solve_tridiagonal(const System& s, double* r) {
    const int n = s.cells;
    const int m = n / 2;
    const int pairs = n - 1 - m;  // cells on the right; as many on the left, or one more
    const double* const low_row = s.low;
    const double* const mid_row = s.mid;
    const double* const up_row = s.up;
    const auto get = [](const double* a, int i) { return load<V>(a + i * lanes); };
    const auto put = [](double* a, int i, V v) { store(a + i * lanes, v); };
    V left = get(r, 0);
    V right = get(r, n - 1);
    for (int i = 1; i < pairs; ++i) {
      left = get(r, i) - get(low_row, i) * left;
      right = get(r, n - 1 - i) - get(up_row, n - 1 - i) * right;
      put(r, i, left);
      put(r, n - 1 - i, right);
    }
    for (int i = pairs > 1 ? pairs : 1; i < m; ++i) {
      left = get(r, i) - get(low_row, i) * left;
      put(r, i, left);
    }
    V middle = get(r, m) - get(low_row, m) * left;
    if (pairs > 0) middle -= get(up_row, m) * right;
    middle *= get(mid_row, m);
    put(r, m, middle);
    V to_left = middle;
    V to_right = middle;
    for (int i = 1; i <= pairs; ++i) {
      to_left = get(r, m - i) * get(mid_row, m - i) - get(up_row, m - i) * to_left;
      to_right = get(r, m + i) * get(mid_row, m + i) - get(low_row, m + i) * to_right;
      put(r, m - i, to_left);
      put(r, m + i, to_right);
    }
    for (int i = pairs + 1; i <= m; ++i) {
      to_left = get(r, m - i) * get(mid_row, m - i) - get(up_row, m - i) * to_left;
      put(r, m - i, to_left);
    }
  }

  static void solve(const System& s, double* r) {
    const auto b = load<Border<V>>(s.kelvin_row);
    double* kelvin_at = r + s.kelvin_at() * lanes;
    V kelvin = load<V>(kelvin_at);
    for (int j = 0; j < s.joints; ++j) {
      const Joint& q = s.joint[j];
      if (!q.film) continue;
      const auto f = load<FilmRow<V>>(s.film_row + j * film_rows * lanes);
      const V film = load<V>(r + s.film_at(j) * lanes);
      if (q.left >= 0) take(r, q.left, -f.to_left * film);
      if (q.right >= 0) take(r, q.right, -f.to_right * film);
      kelvin += f.to_kelvin * film;
    }
    solve_tridiagonal(s, r);
    if (s.bordered) {
      kelvin -= b.row_first * load<V>(r) + b.row_last * load<V>(r + (s.cells - 1) * lanes);
      kelvin *= b.per_pivot;
      for (int k = 0; k < s.cells * lanes; k += wide) {
        const H heat = [&] {
          if constexpr (lanes == 1) {
            return all<H>(kelvin);
          } else {
            return kelvin;
          }
        }();
        const H x = load<H>(r + k) - load<H>(s.border + k) * heat;
        store_within(r, k, s.cells * lanes, x);
      }
    } else {
      kelvin *= b.per_pivot;
    }
    store(kelvin_at, kelvin);
    for (int j = 0; j < s.joints; ++j) {
      const Joint& q = s.joint[j];
      double* film_at = r + s.film_at(j) * lanes;
      if (idle<V>(q)) {
        store(film_at, V{});
        continue;
      }
      const V left = q.left >= 0 ? load<V>(r + q.left * lanes) : V{};
      const V right = q.right >= 0 ? load<V>(r + q.right * lanes) : V{};
      V film{};
      if (q.film) {
        const auto f = load<FilmRow<V>>(s.film_row + j * film_rows * lanes);
        film = (load<V>(film_at) + f.from_left * left + f.from_right * right +
                f.from_kelvin * kelvin) *
               f.per_pivot;
      }
      store(film_at, film);
      if (q.inner) continue;
      const JointSlopes x = slopes(s, j);
      double* out_at = r + s.out_at(q.left < 0 ? 0 : 1) * lanes;
      store(out_at, (load<V>(out_at) + x.by_left.out * left + x.by_right.out * right +
                     x.by_film.out * film + x.by_kelvin.out * kelvin) *
                        b.per_diagonal);
    }
  }

  // The last vector of one stack's cells reaches into what follows them, which must stay.
  static void store_within(double* a, int k, int end, H v) {
    if (lanes > 1 || k + wide <= end) {
      store(a + k, v);
    } else {
      for (int e = 0; k + e < end; ++e) a[k + e] = lane(v, e);
    }
  }
};

}  // namespace
}  // namespace dampline::stack::kernel
