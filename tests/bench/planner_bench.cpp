#include <algorithm>
#include <string>

#include <benchmark/benchmark.h>

#include <dampline/planner/fit.hpp>

#include "planner/session_case.hpp"

// The scheduler's part of a plan: every question fit() puts to the engine (how many prints, in how
// many soaks, the objectives in order), the paper's window being known. The targets: the demo day
// proved in 100 ms, a class of four in 1 s, 60 prints in 2 s with a gap below 2 %.
namespace dampline {
namespace {

void fit(benchmark::State& state, const std::string& file) {
  const auto c = tests::session_case(file);
  planner::Fit found;
  for (auto _ : state) found = planner::fit(c.session, c.craft, c.treatment, {});
  state.counters["prints"] = found.extent.prints;
  state.counters["proofs"] = found.extent.proofs;
  state.counters["batches"] = found.extent.batches;
  state.counters["most_proved"] = found.most_proved;
  state.counters["finish_min"] = found.finish.count() / 2.0;
  state.counters["margin_min"] = found.margin.count() / 2.0;
  state.counters["idle_wet_min"] = found.idle_wet.count() / 2.0;
  state.counters["gap_percent"] =
      100.0 * (found.finish - found.bound).count() / std::max(1, found.finish.count());
}

BENCHMARK_CAPTURE(fit, demo, "data/sessions/salt-marsh.toml")->Unit(benchmark::kMillisecond);
BENCHMARK_CAPTURE(fit, class_of_four, "data/sessions/saturday-class.toml")
    ->Unit(benchmark::kMillisecond);
BENCHMARK_CAPTURE(fit, heron, "data/sessions/heron-drypoint.toml")->Unit(benchmark::kMillisecond);
BENCHMARK_CAPTURE(fit, reed_bed, "data/sessions/reed-bed-relief.toml")
    ->Unit(benchmark::kMillisecond);
BENCHMARK_CAPTURE(fit, sixty, "tests/planner/sixty-prints.toml")->Unit(benchmark::kMillisecond);

}  // namespace
}  // namespace dampline
