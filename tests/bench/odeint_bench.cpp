#include <algorithm>
#include <cmath>
#include <ctime>
#include <vector>

#include <benchmark/benchmark.h>

#include <dampline/stack/semi_discrete.hpp>
#include <dampline/stack/stack.hpp>

#include "general_solvers.hpp"
#include "stack/sheet_day.hpp"

// The solver against general ones: Boost.Odeint's rosenbrock4 and, where installed, CVODE. The same
// equations, stage by stage through the day of the speed table, at the same error: the worst of any
// cell at the end of any stage, against a tight run of the same solver. (The two tight runs differ
// by the milligram of film that here joins the sheet and there dwindles on; tight_runs_apart says
// by how much.) Both look at the same error in a step, both leave out what does not move, and each
// has the loosest tolerance that keeps its error under the target. Times are taken in turns in one
// loop, so their ratio holds on a busy machine too. The general solver is given its Jacobian twice:
// column by column, as one without knowledge of the system would, and cells in groups, which knows
// it.
namespace dampline::bench {
namespace {

using stack::kernel::System;

// A stage in the unknowns that move, scaled so that the root mean square over them is the error
// that stack::advance looks at: cells by their share of the fibre, films and temperature as there.
class Scaled {
 public:
  Scaled(const stack::Stack& s, bool grouped)
      : system_(stack::kernel::system_of(s)), y_(stack::kernel::state_of(s, system_)) {
    const auto cells = static_cast<std::size_t>(system_.cells);
    double dry = 0;
    for (std::size_t i = 0; i < cells; ++i) dry += 1 / system_.inverse_dry[i];
    for (std::size_t i = 0; i < cells; ++i) {
      unknown_.push_back(i);
      scale_.push_back(std::sqrt(1 / (system_.inverse_dry[i] * dry)));
    }
    for (int j = 0; j < system_.joints; ++j) {
      if (!system_.joint[j].film) continue;
      unknown_.push_back(static_cast<std::size_t>(system_.film_at(j)));
      scale_.push_back(1 / dry);
    }
    if (!system_.fixed_temperature) {
      unknown_.push_back(static_cast<std::size_t>(system_.kelvin_at()));
      scale_.push_back(1.0 / 2000);
    }
    for (double& w : scale_) w *= std::sqrt(static_cast<double>(unknown_.size()));
    rate_.resize(y_.size());
    base_.resize(unknown_.size());
    moved_.resize(unknown_.size());
    // Cells this far apart touch no common row: they are moved together for the Jacobian.
    apart_ = !grouped ? cells : (cells - 1) % 3 == 0 ? 4 : 3;
  }

  [[nodiscard]] int size() const { return static_cast<int>(unknown_.size()); }
  System& system() { return system_; }
  std::vector<double>& state() { return y_; }

  std::vector<double> start() const {
    std::vector<double> z(unknown_.size());
    for (std::size_t i = 0; i < z.size(); ++i) z[i] = y_[unknown_[i]] * scale_[i];
    return z;
  }
  void put(const double* z) {
    for (std::size_t i = 0; i < unknown_.size(); ++i) y_[unknown_[i]] = z[i] / scale_[i];
  }
  void derivative(const double* z, double* dz) {
    put(z);
    system_.derivative(y_.data(), rate_.data());
    for (std::size_t i = 0; i < unknown_.size(); ++i) dz[i] = rate_[unknown_[i]] * scale_[i];
  }
  // What is no equation: a layer's place between its two isotherms, moved step by step.
  void stepped(const double* before, const double* after) {
    put(before);
    before_ = y_;
    put(after);
    system_.run->scan(system_, before_.data(), y_.data(), 1);
  }
  // By differences; tridiagonal but for films and temperature.
  void jacobian(const double* z, double* rows) {
    const std::size_t n = unknown_.size();
    const auto cells = static_cast<std::size_t>(system_.cells);
    derivative(z, base_.data());
    std::fill(rows, rows + n * n, 0.0);
    at_.assign(z, z + n);
    for (std::size_t group = 0; group < apart_; ++group) {
      for (std::size_t i = group; i < cells; i += apart_) at_[i] += step;
      derivative(at_.data(), moved_.data());
      for (std::size_t i = group; i < cells; i += apart_) {
        at_[i] = z[i];
        for (std::size_t r = i == 0 ? 0 : i - 1; r < std::min(i + 2, cells); ++r) {
          rows[r * n + i] = (moved_[r] - base_[r]) / step;
        }
        for (std::size_t r = cells; r < n; ++r) {
          if (touches(r, i)) rows[r * n + i] = (moved_[r] - base_[r]) / step;
        }
      }
    }
    for (std::size_t i = cells; i < n; ++i) {
      at_[i] += step;
      derivative(at_.data(), moved_.data());
      at_[i] = z[i];
      for (std::size_t r = 0; r < n; ++r) rows[r * n + i] = (moved_[r] - base_[r]) / step;
    }
  }

 private:
  static constexpr double step = 1e-7;

  // Whether the film or temperature of row r feels cell i.
  [[nodiscard]] bool touches(std::size_t r, std::size_t i) const {
    const auto at = static_cast<int>(unknown_[r]);
    const auto cell = static_cast<int>(i);
    if (at == system_.kelvin_at()) return cell == 0 || cell == system_.cells - 1;
    const auto& q = system_.joint[at - system_.cells];
    return cell == q.left || cell == q.right;
  }

  System system_;
  std::vector<double> y_;
  std::vector<std::size_t> unknown_;
  std::vector<double> scale_, rate_, base_, moved_, at_, before_;
  std::size_t apart_ = 3;
};

struct Solver {
  Solve general = nullptr;  // null: stack::advance
  bool grouped = true;      // Jacobian by groups of cells
};
constexpr Solver own{};

void advance_by(stack::Stack& s, double seconds, Solver solver, double allowed, Effort& effort) {
  Scaled scaled(s, solver.grouped);
  std::vector<double> z = scaled.start();
  std::vector<double> rate(z.size());
  scaled.derivative(z.data(), rate.data());
  double fastest = 0;
  for (const double r : rate) fastest = std::max(fastest, std::abs(r));
  const double first = std::min(seconds, 50 * allowed / fastest);
  const Equations equations{
      scaled.size(), &scaled,
      [](void* c, const double* at, double* dz) { static_cast<Scaled*>(c)->derivative(at, dz); },
      [](void* c, const double* at, double* rows) { static_cast<Scaled*>(c)->jacobian(at, rows); },
      [](void* c, const double* a, const double* b) { static_cast<Scaled*>(c)->stepped(a, b); }};
  const Effort e = solver.general(equations, z.data(), seconds, first, allowed);
  effort.steps += e.steps;
  effort.rejected += e.rejected;
  scaled.put(z.data());
  for (double& film : scaled.state()) film = std::max(film, 0.0);
  stack::kernel::put_back(s, scaled.system(), scaled.state().data());
}

using Ends = std::vector<std::vector<double>>;  // moistures after each stage, cell by cell

const material::Porous& sheet() {
  static const material::Porous p = [] {
    material::Stock s;
    s.sizing = material::Sizing::internal;
    s.grammage.value = units::grams_per_m2(300);
    s.thickness.value = units::millimetres(0.54);
    s.cobb60.value = units::grams_per_m2(32);
    s.accessible.value = units::Moisture(0.8);
    s.isotherm_scale.value = 1;
    s.pore_ratio.value = 3;
    s.vapour.value = units::m2_per_s(5e-7);
    return stack::resolve_to_cobb(s);
  }();
  return p;
}

Ends day(Solver solver, double tolerance, Effort& effort) {
  namespace st = stack::tests;
  st::DaySheet s = st::day_sheet(sheet());
  Ends ends;
  for (int i = 0; i < st::day_stages; ++i) {
    st::DayStack d = st::begin(static_cast<st::DayStage>(i), s);
    if (solver.general == nullptr) {
      const auto o = stack::advance(d.stack, st::day_seconds[i], {.moisture = tolerance});
      effort.steps += o.steps;
      effort.rejected += o.rejected;
    } else {
      advance_by(d.stack, st::day_seconds[i], solver, tolerance, effort);
    }
    st::end(d, s);
    ends.push_back(s.moisture);
  }
  return ends;
}

// The largest difference of any cell at the end of any stage.
double apart(const Ends& a, const Ends& b) {
  double worst = 0;
  for (std::size_t i = 0; i < a.size(); ++i) {
    for (std::size_t c = 0; c < a[i].size(); ++c)
      worst = std::max(worst, std::abs(a[i][c] - b[i][c]));
  }
  return worst;
}

Ends tight(Solver solver) {
  Effort e;
  return day(solver, 1e-9, e);
}

struct Chosen {
  double tolerance = 0;
  double error = 0;
  Effort effort;
};

// The loosest of ten tolerances a decade that keeps the error under the target, it and the next
// tighter one.
Chosen loosest(Solver solver, const Ends& reference, double target) {
  const auto at = [&](int k) {
    Chosen c;
    c.tolerance = std::pow(10, -0.1 * k);
    c.error = apart(day(solver, c.tolerance, c.effort), reference);
    return c;
  };
  Chosen here = at(20);
  for (int k = 20; k < 85; ++k) {
    const Chosen tighter = at(k + 1);
    if (here.error <= target && tighter.error <= target) break;
    here = tighter;
  }
  return here;
}

double cpu_seconds() {
  timespec t{};
  clock_gettime(CLOCK_PROCESS_CPUTIME_ID, &t);
  return static_cast<double>(t.tv_sec) + 1e-9 * static_cast<double>(t.tv_nsec);
}

void against(benchmark::State& state, Solver general) {
  const double target = std::pow(10, -static_cast<double>(state.range(0)));
  static const Ends own_tight = tight(own);
  const Ends other_tight = tight(general);
  const Chosen mine = loosest(own, own_tight, target);
  const Chosen other = loosest(general, other_tight, target);
  constexpr int mine_each = 10;  // so short beside the other that it is run ten times a turn
  double mine_time = 0;
  double other_time = 0;
  Effort effort;
  for (auto _ : state) {
    const double start = cpu_seconds();
    for (int i = 0; i < mine_each; ++i) {
      benchmark::DoNotOptimize(day(own, mine.tolerance, effort).data());
    }
    const double middle = cpu_seconds();
    benchmark::DoNotOptimize(day(general, other.tolerance, effort).data());
    mine_time += (middle - start) / mine_each;
    other_time += cpu_seconds() - middle;
  }
  const auto turns = static_cast<double>(state.iterations());
  const auto steps = [](const Effort& e) { return static_cast<double>(e.steps + e.rejected); };
  state.counters["ratio"] = other_time / mine_time;
  state.counters["dampline_us"] = 1e6 * mine_time / turns;
  state.counters["other_us"] = 1e6 * other_time / turns;
  state.counters["dampline_error"] = mine.error;
  state.counters["other_error"] = other.error;
  state.counters["dampline_tol"] = mine.tolerance;
  state.counters["other_tol"] = other.tolerance;
  state.counters["dampline_steps"] = steps(mine.effort);
  state.counters["other_steps"] = steps(other.effort);
  state.counters["tight_runs_apart"] = apart(own_tight, other_tight);
}

// The argument is the error's power of ten.
void both_errors(benchmark::internal::Benchmark* b) {
  b->Arg(4)->Arg(5)->Unit(benchmark::kMillisecond);
}
BENCHMARK_CAPTURE(against, rosenbrock4, {rosenbrock4, true})->Apply(both_errors);
BENCHMARK_CAPTURE(against, rosenbrock4_jacobian_by_columns, {rosenbrock4, false})
    ->Apply(both_errors);
#ifdef DAMPLINE_CVODE
BENCHMARK_CAPTURE(against, cvode, {cvode, true})->Apply(both_errors);
#endif

}  // namespace
}  // namespace dampline::bench
