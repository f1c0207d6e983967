#include <algorithm>
#include <array>
#include <cmath>
#include <stdexcept>

#include <dampline/stack/semi_discrete.hpp>
#include <dampline/stack/stack.hpp>

namespace dampline::stack {

namespace {

using kernel::gone;
using kernel::put_back;
using kernel::state_of;
using kernel::System;
using kernel::system_of;

// Rodas3 of [sandu1997], in the form with U = Gamma K: stages in units of the solution.
constexpr double gamma_ = 0.5;

// Worst excess beyond 0 or saturation, g/g, and the same for films as kg/m2 below zero.
struct Excess {
  double moisture = 0;
  double film = 0;
};
Excess excess(const System& k, const double* y) {
  Excess e;
  for (int i = 0; i < k.cells; ++i) {
    e.moisture = std::max({e.moisture, y[i] - k.cap[static_cast<std::size_t>(i)], -y[i]});
  }
  for (int j = 0; j < k.joints; ++j) e.film = std::max(e.film, -y[k.film_at(j)]);
  return e;
}

// Moves what is beyond the bounds to the nearest cells of the layer that can take it, without
// making or losing water; what no cell can hold stands as a film on the layer's outer face.
void bring_inside(System& k, double* y) {
  const auto dry = [&](int i) { return 1 / k.inverse_dry[static_cast<std::size_t>(i)]; };
  for (std::size_t l = 0; l < k.layer.size(); ++l) {
    const kernel::LayerSi& s = k.layer[l];
    double carried = 0;
    const auto pass = [&](int i) {
      const double wanted = y[i] + carried * k.inverse_dry[static_cast<std::size_t>(i)];
      const double held = std::clamp(wanted, 0.0, s.saturation);
      carried = (wanted - held) * dry(i);
      y[i] = held;
    };
    for (int i = s.first; i < s.last; ++i) pass(i);
    for (int i = s.last; carried != 0 && i-- > s.first;) pass(i);
    if (carried > 0) {
      const std::size_t j = l;  // the joint on its left
      y[k.film_at(static_cast<int>(j))] += carried;
      k.joint[j].film_active = true;
    }
  }
}

// Films that have come to an end join the cell they lie on. True when one did.
bool settle_films(System& k, double* y) {
  bool any = false;
  for (int j = 0; j < k.joints; ++j) {
    kernel::JointSi& q = k.joint[static_cast<std::size_t>(j)];
    double& film = y[k.film_at(j)];
    if (!q.film_active || film > gone) continue;
    const int cell = q.left < 0 ? q.right : (q.right < 0 || q.film_on_left ? q.left : q.right);
    const auto c = static_cast<std::size_t>(cell);
    const double u = y[cell] + film * k.inverse_dry[c];
    if (u > k.cap[c] || u < 0) {
      if (film >= 0) continue;  // no room yet
      // A film below zero is taken from the sheet; bring_inside spreads it if the cell is dry.
    }
    y[cell] = u;
    film = 0;
    q.film_active = false;
    any = true;
  }
  return any;
}

class Stepper {
 public:
  Stepper(System& system, const Tolerance& tolerance)
      : k_(system), tolerance_(tolerance), n_(static_cast<std::size_t>(system.size())) {
    for (auto* v : {&f_, &k1_, &k2_, &k3_, &k4_, &at_, &rate_}) v->resize(n_);
    double dry = 0;
    for (double inverse : k_.inverse_dry) dry += 1 / inverse;
    dry_ = dry;
  }

  /// f(y) must stand in rate(). Fills `next`; returns the error as a share of what is allowed.
  double step(const double* y, double h, double* next) {
    const double per = 1 / h;
    k_.factor(y, per / gamma_);
    k1_ = rate_;
    k_.solve(k1_.data());
    for (std::size_t i = 0; i < n_; ++i) k2_[i] = rate_[i] + 4 * per * k1_[i];
    k_.solve(k2_.data());
    for (std::size_t i = 0; i < n_; ++i) at_[i] = y[i] + 2 * k1_[i];
    k_.derivative(at_.data(), f_.data());
    for (std::size_t i = 0; i < n_; ++i) k3_[i] = f_[i] + per * (k1_[i] - k2_[i]);
    k_.solve(k3_.data());
    for (std::size_t i = 0; i < n_; ++i) at_[i] += k3_[i];
    k_.derivative(at_.data(), f_.data());
    for (std::size_t i = 0; i < n_; ++i) {
      k4_[i] = f_[i] + per * (k1_[i] - k2_[i] - (8.0 / 3) * k3_[i]);
    }
    k_.solve(k4_.data());
    for (std::size_t i = 0; i < n_; ++i) next[i] = at_[i] + k4_[i];
    return error();
  }

  std::vector<double>& rate() { return rate_; }

 private:
  [[nodiscard]] double error() const {
    const double allowed = tolerance_.moisture;
    double cells = 0;
    for (int i = 0; i < k_.cells; ++i) {
      const double e = k4_[static_cast<std::size_t>(i)] / allowed;
      cells += e * e / k_.inverse_dry[static_cast<std::size_t>(i)];
    }
    double worst = std::sqrt(cells / dry_);
    for (int j = 0; j < k_.joints; ++j) {
      const double e = k4_[static_cast<std::size_t>(k_.film_at(j))] / (allowed * dry_);
      worst = std::max(worst, std::abs(e));
    }
    const double e = k4_[static_cast<std::size_t>(k_.kelvin_at())] / (2000 * allowed);
    return std::max(worst, std::abs(e));
  }

  System& k_;
  const Tolerance& tolerance_;
  std::size_t n_;
  double dry_ = 1;
  std::vector<double> f_, k1_, k2_, k3_, k4_, at_, rate_;
};

double first_step(const System& k, const std::vector<double>& rate, double seconds,
                  double allowed) {
  double worst = 0;
  for (int i = 0; i < k.cells; ++i)
    worst = std::max(worst, std::abs(rate[static_cast<std::size_t>(i)]));
  // Half a hundredfold of the allowance at the starting rate; the first steps grow sixfold each.
  const double h = worst > 0 ? 50 * allowed / worst : seconds;
  return std::clamp(h, 1e-9 * seconds, seconds);
}

// Cubic between two states and their rates.
void between(const double* a, const double* fa, const double* b, const double* fb, double h,
             double t, std::size_t n, double* y) {
  const double s = t / h;
  const double b1 = s * s * (3 - 2 * s);
  const double b0 = 1 - b1;
  const double d0 = h * s * (1 - s) * (1 - s);
  const double d1 = -h * s * s * (1 - s);
  for (std::size_t i = 0; i < n; ++i) y[i] = b0 * a[i] + b1 * b[i] + d0 * fa[i] + d1 * fb[i];
}

}  // namespace

Outcome advance(Stack& stack, double seconds, const Tolerance& tolerance,
                const std::vector<double>& times, const Observer& observer, const Watch& until) {
  Outcome outcome;
  if (!(seconds > 0)) return outcome;
  if (until && !(until(stack) > 0)) {
    outcome.stopped = true;
    return outcome;
  }
  System k = system_of(stack);
  std::vector<double> y = state_of(stack, k);
  const auto n = y.size();
  std::vector<double> next(n);
  std::vector<double> rate_after(n);
  std::vector<double> seen(n);
  Stepper stepper(k, tolerance);
  const double before = water(stack);

  bring_inside(k, y.data());
  k.derivative_here(y.data(), stepper.rate().data());
  double t = 0;
  double h = first_step(k, stepper.rate(), seconds, tolerance.moisture);
  std::size_t sample = 0;
  bool rate_known = true;
  while (t < seconds) {
    if (outcome.steps + outcome.rejected > tolerance.most_steps) {
      throw std::runtime_error("the stack solver needs more steps than it was given");
    }
    h = std::min(h, seconds - t);
    if (!rate_known) k.derivative_here(y.data(), stepper.rate().data());
    rate_known = true;
    const double error = stepper.step(y.data(), h, next.data());
    const Excess e = excess(k, next.data());
    const bool smallest = h < 1e-12 * seconds && std::isfinite(error);
    if (!(h > 1e-20 * seconds)) throw std::runtime_error("the stack solver lost its footing");
    const bool outside =
        e.moisture > 20 * tolerance.moisture || e.film > 2 * gone + tolerance.moisture * 0.1;
    if (!smallest && (!(error <= 1) || outside)) {
      ++outcome.rejected;
      const bool known = std::isfinite(error);
      h *= !known ? 0.1 : error <= 1 ? 0.4 : std::clamp(0.9 * std::cbrt(1 / error), 0.1, 0.9);
      continue;
    }
    ++outcome.steps;
    const bool films_settled = settle_films(k, next.data());
    if (films_settled || e.moisture > 0) bring_inside(k, next.data());
    if (until) {
      const auto left_at = [&](const double* state) {
        put_back(stack, k, state);
        return until(stack);
      };
      if (!(left_at(next.data()) > 0)) {
        k.derivative(next.data(), rate_after.data());
        double sooner = 0;
        double later = h;
        while (later - sooner > std::max(1e-3 * h, 0.1)) {
          const double middle = 0.5 * (sooner + later);
          between(y.data(), stepper.rate().data(), next.data(), rate_after.data(), h, middle, n,
                  seen.data());
          (left_at(seen.data()) > 0 ? sooner : later) = middle;
        }
        between(y.data(), stepper.rate().data(), next.data(), rate_after.data(), h, later, n,
                seen.data());
        bring_inside(k, seen.data());
        next = seen;
        h = later;
        outcome.stopped = true;
      }
    }
    if (observer && sample < times.size() && times[sample] <= t + h) {
      k.derivative(next.data(), rate_after.data());
      while (sample < times.size() && times[sample] <= t + h) {
        between(y.data(), stepper.rate().data(), next.data(), rate_after.data(), h,
                std::max(0.0, times[sample] - t), n, seen.data());
        for (int i = 0; i < k.cells; ++i) {
          seen[static_cast<std::size_t>(i)] = std::clamp(seen[static_cast<std::size_t>(i)], 0.0,
                                                         k.cap[static_cast<std::size_t>(i)]);
        }
        for (int j = 0; j < k.joints; ++j) {
          auto& film = seen[static_cast<std::size_t>(k.film_at(j))];
          film = std::max(0.0, film);
        }
        put_back(stack, k, seen.data());
        observer(times[sample], stack);
        ++sample;
      }
    }
    t += h;
    if (seconds - t < 1e-12 * seconds) t = seconds;
    y.swap(next);
    if (outcome.stopped) break;
    rate_known = false;
    h *= std::clamp(0.9 / std::cbrt(std::max(error, 1e-9)), 0.3, 6.0);
  }
  outcome.seconds = t;
  put_back(stack, k, y.data());
  outcome.out_left = y[static_cast<std::size_t>(k.out_left_at())];
  outcome.out_right = y[static_cast<std::size_t>(k.out_left_at()) + 1];
  const double after = water(stack);
  const double moved = std::abs(outcome.out_left) + std::abs(outcome.out_right);
  outcome.balance_error = std::abs(after + outcome.out_left + outcome.out_right - before) /
                          std::max({before, after, moved, 1e-12});
  return outcome;
}

}  // namespace dampline::stack
