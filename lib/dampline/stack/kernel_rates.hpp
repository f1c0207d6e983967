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

  // Integral of D, liquid and vapour, at the cells of a layer: a block of registers at a time, so
  // that each lane's tables are walked with its pointers and mix at hand.
  template <bool slopes>
  static void integrals(System& s, int l, const double* y) {
    constexpr int block = lanes == 1 ? 1 : 8;
    constexpr int step = block * wide;
    const H per = [&] {
      if constexpr (lanes == 1) {
        return all<H>(s.per_moisture[l]);
      } else {
        return load<H>(s.per_moisture + l * lanes);
      }
    }();
    const int end = s.layer[l].last * lanes;
    double* const phi = s.phi;
    double* const slope = s.slope;
    double* const bend = s.bend;
    double* const slope_here = s.slope_here;
    for (int from = s.layer[l].first * lanes; from < end; from += step) {
      const int cells = ((end - from < step ? end - from : step) + wide - 1) / wide;
      long long knots[static_cast<unsigned>(block)][count<H>];  // first double of the first of two
      H within[static_cast<unsigned>(block)];
      H width[static_cast<unsigned>(block)];
      Rows<H> rows[static_cast<unsigned>(block)];
      for (int i = 0; i < cells; ++i) {
        const auto at = spot(load<H>(y + from + i * wide), per);
        const auto knot = at.interval * 2;
        __builtin_memcpy(knots[i], &knot, sizeof knots[i]);
        within[i] = at.within;
        width[i] = at.width;
      }
      for (int n = 0; n < lanes; ++n) {
        const double* drying = s.drying_activity[l * lanes + n];
        const double* wetting = s.wetting_activity[l * lanes + n];
        const double* integral = s.liquid_integral[l * lanes + n];
        const double* mix = s.mix + 3 * l * lanes + n;
        const Four dry = all<Four>(mix[0]);
        const Four wet = all<Four>(mix[lanes]);
        const Four liquid = all<Four>(mix[2 * lanes]);
        const auto walk = [&](const auto& blended) {
          for (int i = 0; i < cells; ++i) {
            for (int e = n; e < (lanes == 1 ? wide : n + 1); ++e) {
              const long long knot = knots[i][e];
              rows[i][slot<H>(e)] = blended(knot) + load<Four>(integral + knot) * liquid;
            }
          }
        };
        if (mix[0] == 0) {
          walk([&](long long knot) { return load<Four>(wetting + knot) * wet; });
        } else if (mix[lanes] == 0) {
          walk([&](long long knot) { return load<Four>(drying + knot) * dry; });
        } else {
          walk([&](long long knot) {
            return load<Four>(drying + knot) * dry + load<Four>(wetting + knot) * wet;
          });
        }
      }
      for (int i = 0; i < cells; ++i) {
        const int k = from + i * wide;
        const Curve<H> c = curve<H>(rows[i], within[i], width[i], per);
        store(phi + k, c.value);
        store(slope + k, c.slope);
        if constexpr (slopes) {
          store(bend + k, c.bend);
          store(slope_here + k, c.slope);
        }
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
      double* mix = s.mix + 3 * l * lanes;
      const V vapour = load<V>(s.vapour + l * lanes) * vapour_now;
      const V dried = vapour * load<V>(s.drying + l * lanes);
      store(mix, dried);
      store(mix + lanes, vapour - dried);
      store(mix + 2 * lanes, load<V>(s.liquid + l * lanes) * w.liquid);
      integrals<slopes>(s, l, y);
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
