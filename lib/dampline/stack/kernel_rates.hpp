#pragma once

#include <dampline/stack/kernel_flow.hpp>

// Rates of a whole stack. V: the lanes of a joint; H: what the loops over cells take at a time, V
// itself, or for one stack as many cells as a register holds. Internal linkage: see pack.hpp.
namespace dampline::stack::kernel {
namespace {  // NOLINT(google-build-namespaces)

template <class V>
inline bool idle(const Joint& q) {
  return !q.inner && q.kind == FaceKind::sealed && !q.film;
}

template <class V, class H>
struct Rates {
  static constexpr int lanes = count<V>;
  static constexpr int wide = count<H>;
  static_assert(lanes == 1 || lanes == wide);

  // What a layer's tables are weighed with, from its place between its branches. Returns whether
  // any lane stands between them.
  static bool mix(System& s, int l, const Warmth<V>& w, V vapour_now) {
    const V vapour = load<V>(s.vapour + l * lanes) * vapour_now;
    const V liquid = load<V>(s.liquid + l * lanes) * w.liquid;
    store(s.mix + 2 * l * lanes, vapour);
    store(s.mix + (2 * l + 1) * lanes, liquid);
    bool between = false;
    for (int e = 0; e < lanes; ++e) {
      const double drying = s.drying[l * lanes + e];
      between = between || (drying != 0 && drying != 1);
      const double a = lane(vapour, e);
      const double b = lane(liquid, e);
      const Four row{a, a, b, b};
      double* rows = s.mix_rows + (l * lanes + e) * 16;
      const Four first = row * (drying == 1 ? 1 : 1 - drying);
      const Four second = row * (drying == 1 ? 0 : drying);
      store(rows, first);
      store(rows + 4, first);
      store(rows + 8, second);
      store(rows + 12, second);
    }
    return between;
  }

  // Integral of D, liquid and vapour, at the cells of a layer. A lane on one of its branches has it
  // for its first table.
  template <bool slopes, bool between>
  static void integrals(System& s, int l, const double* y) {
    const auto of_lane = [](const auto* a, int e) { return a[lanes == 1 ? 0 : e]; };
    H per;
    if constexpr (lanes == 1) {
      per = all<H>(s.per_moisture[l]);
    } else {
      per = load<H>(s.per_moisture + l * lanes);
    }
    const double* first[static_cast<unsigned>(lanes)];
    const double* second[static_cast<unsigned>(lanes)];
    for (int n = 0; n < lanes; ++n) {
      const int k = l * lanes + n;
      first[n] = s.drying[k] == 1 ? s.drying_water[k] : s.wetting_water[k];
      second[n] = s.drying_water[k];
    }
    const double* const rows = s.mix_rows + l * lanes * 16;
    const int end = s.layer[l].last * lanes;
    double* const phi = s.phi;
    double* const slope = s.slope;
    double* const bend = s.bend;
    double* const slope_here = s.slope_here;
    for (int k = s.layer[l].first * lanes; k < end; k += wide) {
      const auto at = spot(load<H>(y + k), per);
      const auto knot = at.interval * material::PorousTable::water_stride;
      long long knots[count<H>];
      __builtin_memcpy(knots, &knot, sizeof knots);
      Knotted<H> r;
#pragma GCC unroll 8
      for (int e = 0; e < wide; ++e) {
        const double* weights = rows + (lanes == 1 ? 0 : 16 * e);
        r.put(e, of_lane(first, e) + knots[e], weights);
        if constexpr (between) r.add(e, of_lane(second, e) + knots[e], weights + 8);
      }
      const Curve<H> c = curve(between_knots(summed(r), at.width), at.within, per * per_width(at));
      store(phi + k, c.value);
      store(slope + k, c.slope);
      if constexpr (slopes) {
        store(bend + k, c.bend);
        store(slope_here + k, c.slope);
      }
    }
  }

  // What flows from cell to cell.
  static void along(const System& s, double* dy) {
    const double* const conductance = s.conductance;
    const double* const phi = s.phi;
    const double* const inverse_dry = s.inverse_dry;
    const int end = s.cells * lanes;
    if constexpr (lanes == 1) {
      double* const flux = s.flux;
      for (int k = 0; k < end; k += wide) {
        store(flux + k, load<H>(conductance + k) * (load<H>(phi + k) - load<H>(phi + k + 1)));
      }
      for (int k = 0; k < end; k += wide) {
        store(dy + k, (load<H>(flux + k - 1) - load<H>(flux + k)) * load<H>(inverse_dry + k));
      }
    } else {
      H in{};
      H here = load<H>(phi);
      for (int k = 0; k < end; k += wide) {
        const H next = load<H>(phi + k + wide);
        const H out = load<H>(conductance + k) * (here - next);
        store(dy + k, (in - out) * load<H>(inverse_dry + k));
        in = out;
        here = next;
      }
    }
  }

  template <bool slopes>
  static void of(System& s, const double* y, double* dy) {
    using J = Joints<V>;
    const auto w = J::warmth(s, load<V>(y + s.kelvin_at() * lanes));
    const V vapour_now = w.saturation_pa / (vapour_gas * w.kelvin);
    for (int l = 0; l < s.layers; ++l) {
      if (mix(s, l, w, vapour_now)) {
        integrals<slopes, true>(s, l, y);
      } else {
        integrals<slopes, false>(s, l, y);
      }
    }
    along(s, dy);
    V heat = load<V>(s.back_heat) * (load<V>(s.ambient) - w.kelvin);
    store(dy + s.out_at(0) * lanes, V{});
    store(dy + s.out_at(1) * lanes, V{});
    for (int j = 0; j < s.joints; ++j) {
      const Joint& q = s.joint[j];
      Sloping<V> x{};
      if (!idle<V>(q)) {
        const V film = load<V>(y + s.film_at(j) * lanes);
        if (q.inner) {
          J::template between_layers<slopes>(s, j, load<V>(y + q.left * lanes),
                                             load<V>(y + q.right * lanes), film, x);
        } else {
          const int cell = q.left < 0 ? q.right : q.left;
          J::template to_world<slopes>(s, j, w, load<V>(y + cell * lanes), film, x);
          store(dy + s.out_at(q.left < 0 ? 0 : 1) * lanes, x.value.out);
        }
        const auto gain = [&](int cell, V flow) {
          if (cell < 0) return;
          double* at = dy + cell * lanes;
          store(at, load<V>(at) + flow * load<V>(s.inverse_dry + cell * lanes));
        };
        gain(q.left, x.value.left);
        gain(q.right, x.value.right);
        heat += x.value.heat;
      }
      store(dy + s.film_at(j) * lanes, x.value.film);
      if constexpr (slopes) {
        __builtin_memcpy(s.joint_slope + j * slopes_of_joint * lanes, &x.by_left,
                         slopes_of_joint * lanes * sizeof(double));
      }
    }
    store(dy + s.kelvin_at() * lanes, s.fixed_temperature ? V{} : heat / load<V>(s.heat_capacity));
  }
};

}  // namespace
}  // namespace dampline::stack::kernel
