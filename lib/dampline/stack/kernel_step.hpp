#pragma once

#include <dampline/stack/kernel_solve.hpp>
#include <dampline/stack/rosenbrock.hpp>

// One step in time. Internal linkage: see pack.hpp.
namespace dampline::stack::kernel {
namespace {  // NOLINT(google-build-namespaces)

// What a single lane or cell may be wrong by, in shares of what all of them may. Cells at a face
// are thin, and one that is thrown about within saturation would count for little.
constexpr double lane_share = 2;
constexpr double cell_share = 4;

template <int i>
struct Index {
  static constexpr int value = i;
};

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

  // `of` at every number of a state, from the stages so far.
  template <int stages, typename Of>
  static void each(const System& s, const Of& of) {
    const int end = s.size() * lanes;
    const double* stage[6];
    for (int i = 0; i < stages; ++i) stage[i] = s.stage[i];
    for (int k = 0; k < end; k += wide) {
      of(k, [&stage, k](const double* weights) {
        H sum = weights[0] * load<H>(stage[0] + k);
        for (int i = 1; i < stages; ++i) sum += weights[i] * load<H>(stage[i] + k);
        return sum;
      });
    }
  }

  // One step by rosenbrock.hpp; stages in units of the solution.
  static Judged step(System& s, const double* y, double h, double* next) {
    constexpr const Rosenbrock& m = rosenbrock;
    const double per = 1 / h;
    double* const rate_at = s.rate_at;
    S::factor(s, per / m.gamma);
    const auto stage = [&](auto index) {
      constexpr int i = decltype(index)::value;
      double* const here = s.stage[i];
      if constexpr (i == 0) {
        const auto all = static_cast<unsigned>(s.size() * lanes);
        __builtin_memcpy(here, s.rate, sizeof(double) * all);
      } else {
        if constexpr (m.rates_of[i] == i) {
          each<i>(s,
                  [&](int k, const auto& sum) { store(next + k, load<H>(y + k) + sum(m.at[i])); });
          R::template of<false>(s, next, rate_at);
        }
        double weights[6];
        for (int j = 0; j < i; ++j) weights[j] = per * m.couple[i][j];
        each<i>(s, [&](int k, const auto& sum) {
          store(here + k, load<H>(rate_at + k) + sum(weights));
        });
      }
      S::solve(s, here);
    };
    stage(Index<0>{});
    stage(Index<1>{});
    stage(Index<2>{});
    stage(Index<3>{});
    stage(Index<4>{});
    stage(Index<5>{});
    each<6>(s, [&](int k, const auto& sum) {
      store(next + k, load<H>(y + k) + sum(m.result));
      store(rate_at + k, sum(m.error));
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
    V square{};  // mean over the fibre of the worst layer, its worst cell held too
    V lost{};    // NaN where anything is not finite: a comparison would drop it
    for (int l = 0; l < s.layers; ++l) {
      V sum{};
      V most{};
      V whole{};
      for (int i = s.layer[l].first; i < s.layer[l].last; ++i) {
        const V e = load<V>(s.rate_at + i * lanes);
        const V share = load<V>(s.share + i * lanes);
        sum += share * e * e;
        most = larger(e * e, most);
        whole += share;
      }
      square = larger(sum / whole, square);
      square = larger(most * (1 / (cell_share * cell_share)), square);
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
      count_in(load<V>(s.rate_at + s.film_at(j) * lanes) * per_film);
      below = larger(below, -load<V>(next + s.film_at(j) * lanes));
    }
    count_in(load<V>(s.rate_at + s.kelvin_at() * lanes) / (2000 * allowed));
    worst += lost;
    Judged j{0, largest(beyond), largest(below)};
    double most = 0;
    double squares = 0;
    for (int e = 0; e < lanes; ++e) {
      const double one = lane(worst, e);
      if (!(one <= 1e150)) return {__builtin_nan(""), j.moisture, j.film};
      most = one > most ? one : most;
      squares += one * one;
    }
    // Errors add up over the steps, and lanes take turns at being the worst: a lane may have
    // lane_share times what is allowed where the others have less.
    const double mean = __builtin_sqrt(squares / lanes);
    j.error = lanes > 1 && most > lane_share * mean ? most / lane_share : mean;
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
