#pragma once

#include <dampline/stack/kernel_solve.hpp>

// One step in time. Internal linkage: see pack.hpp.
namespace dampline::stack::kernel {
namespace {  // NOLINT(google-build-namespaces)

template <class V, class H>
struct Loops {
  static constexpr int lanes = count<V>;
  static constexpr int wide = count<H>;
  using R = Rates<V, H>;
  using S = Solve<V, H>;

  static void rates(System& s, const double* y, double* dy) { R::template of<false>(s, y, dy); }
  static void rates_and_slopes(System& s, const double* y, double* dy) {
    R::template of<true>(s, y, dy);
  }

  // The L-stable method of fourth order with four stages of [hairer1996] IV.7, table 7.2, in the
  // form with U = Gamma K: stages in units of the solution. The last two share an evaluation. The
  // error is that of the embedded result of third order.
  static Judged step(System& s, const double* y, double h, double* next) {
    constexpr double gamma = 0.572820625;
    const double per = 1 / h;
    const int end = s.size() * lanes;
    const auto each = [end](const auto& of_element) {
      for (int k = 0; k < end; k += wide) of_element(k);
    };
    const auto k1 = [&s](int k) { return load<H>(s.stage1 + k); };
    const auto k2 = [&s](int k) { return load<H>(s.stage2 + k); };
    const auto k3 = [&s](int k) { return load<H>(s.stage3 + k); };
    const auto rate_at = [&s](int k) { return load<H>(s.rate_at + k); };
    S::factor(s, per / gamma);
    each([&](int k) { store(s.stage1 + k, load<H>(s.rate + k)); });
    S::solve(s, s.stage1);
    each([&](int k) { store(s.at + k, load<H>(y + k) + 2 * k1(k)); });
    R::template of<false>(s, s.at, s.rate_at);
    each([&](int k) { store(s.stage2 + k, rate_at(k) + (-7.137615036412310 * per) * k1(k)); });
    S::solve(s, s.stage2);
    each([&](int k) {
      store(s.at + k, load<H>(y + k) + 1.867943637803922 * k1(k) + 0.2344449711399156 * k2(k));
    });
    R::template of<false>(s, s.at, s.rate_at);
    each([&](int k) {
      store(s.stage3 + k,
            rate_at(k) + per * (2.580708087951457 * k1(k) + 0.6515950076447975 * k2(k)));
    });
    S::solve(s, s.stage3);
    each([&](int k) {
      store(s.stage4 + k,
            rate_at(k) - per * (2.137148994382534 * k1(k) + 0.3214669691237626 * k2(k) +
                                0.6949742501781779 * k3(k)));
    });
    S::solve(s, s.stage4);
    each([&](int k) {
      const H k4 = 1.093502252409163 * load<H>(s.stage4 + k);
      store(next + k, load<H>(y + k) + 2.255570073418735 * k1(k) + 0.2870493262186792 * k2(k) +
                          0.4353179431840180 * k3(k) + k4);
      store(s.error + k, (0.2815431932141155 * k1(k) + 0.07276199124934920 * k2(k) +
                          0.1082196201495311 * k3(k) + k4));
    });
    mend_rounding(s, y, next);
    return judged(s, next);
  }

  // Sum over the cells of f(k), a share of the fibre.
  template <typename F>
  static V over_cells(const System& s, const F& f) {
    H sum{};
    for (int k = 0; k < s.cells * lanes; k += wide) sum += load<H>(s.share + k) * f(k);
    if constexpr (lanes == 1) {
      double one = 0;
      for (int e = 0; e < wide; ++e) one += lane(sum, e);
      return one;
    } else {
      return sum;
    }
  }

  // Puts right what rounding in the solves of one step has lost: where water moves through a layer
  // in microseconds and a step lasts hours, ten digits of sixteen cancel. Anything more than
  // rounding is left alone, for the balance to show.
  static void mend_rounding(const System& s, const double* before, double* after) {
    constexpr double rounding = 1e-7;  // of the water of the step
    const V dry = load<V>(s.dry);
    V lost = dry * over_cells(s, [&](int k) { return load<H>(before + k) - load<H>(after + k); });
    V held = dry * over_cells(s, [&](int k) { return load<H>(before + k); });
    for (int i = s.cells; i < s.size(); ++i) {
      if (i == s.kelvin_at()) continue;
      lost += load<V>(before + i * lanes) - load<V>(after + i * lanes);
      held += magnitude(load<V>(before + i * lanes));
    }
    const V each = magnitude(lost) > rounding * held ? V{} : lost / dry;
    for (int i = 0; i < s.cells; ++i) {
      store(after + i * lanes, load<V>(after + i * lanes) + each);
    }
  }

  static Judged judged(const System& s, const double* next) {
    H beyond{};
    for (int k = 0; k < s.cells * lanes; k += wide) {
      // Beyond the cells of one stack there is no share; there nothing is judged.
      const H u = load<H>(next + k);
      const H out = larger(u - load<H>(s.cap + k), -u);
      beyond = larger(beyond, load<H>(s.share + k) > H{} ? out : H{});
    }
    V square{};  // mean over the fibre of the worst layer
    V lost{};    // NaN where anything is not finite: a comparison would drop it
    for (int l = 0; l < s.layers; ++l) {
      V sum{};
      V whole{};
      for (int i = s.layer[l].first; i < s.layer[l].last; ++i) {
        const V e = load<V>(s.error + i * lanes);
        const V share = load<V>(s.share + i * lanes);
        sum += share * e * e;
        whole += share;
      }
      square = larger(sum / whole, square);
      lost += sum - sum;
    }
    const V allowed = load<V>(s.allowed);
    const V dry = load<V>(s.dry);
    // A film is gone within a step or two: a tenth of what the sheet is allowed.
    const V per_film = 1 / (0.1 * allowed * dry);
    V worst = root(square) / allowed;
    V below{};
    const auto count_in = [&](V error) {
      worst = larger(magnitude(error), worst);
      lost += error - error;
    };
    for (int j = 0; j < s.joints; ++j) {
      if (!s.joint[j].film) continue;
      count_in(load<V>(s.error + s.film_at(j) * lanes) * per_film);
      below = larger(below, -load<V>(next + s.film_at(j) * lanes));
    }
    count_in(load<V>(s.error + s.kelvin_at() * lanes) / (2000 * allowed));
    worst += lost;
    Judged j{0, largest(beyond), largest(below)};
    for (int e = 0; e < lanes; ++e) {
      const double one = lane(worst, e);
      if (!(one <= 1e300)) return {__builtin_nan(""), j.moisture, j.film};
      j.error = one > j.error ? one : j.error;
    }
    return j;
  }

  // A layer nears its wetting branch as it takes water up and its drying branch as it gives water
  // off, by the same share for each bit of water.
  static void scan(System& s, const double* y, const double* next, double times) {
    for (int l = 0; l < s.layers; ++l) {
      V gained{};
      V whole{};
      for (int i = s.layer[l].first; i < s.layer[l].last; ++i) {
        const V share = load<V>(s.share + i * lanes);
        gained += share * (load<V>(next + i * lanes) - load<V>(y + i * lanes));
        whole += share;
      }
      const V moved = times * gained / whole;
      const V old = load<V>(s.drying + l * lanes);
      const V aim = moved < V{} ? all<V>(1.0) : V{};
      store(s.drying + l * lanes,
            aim + (old - aim) * exponential(-magnitude(moved) * (1 / scanning_moisture)));
    }
  }

  static constexpr Calls calls(const char* processor) {
    return {lanes, processor, rates, rates_and_slopes, S::factor, S::solve, step, scan};
  }
};

}  // namespace
}  // namespace dampline::stack::kernel
