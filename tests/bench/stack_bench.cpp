#include <array>

#include <benchmark/benchmark.h>

#include <dampline/method/draw.hpp>
#include <dampline/method/run.hpp>

// One sheet through the day of the speed table: soak 30 min, two blots, rest 30 min, 12 h drying;
// and how cost grows with cells, layers and samples.
namespace dampline {
namespace {

material::Stock internal_300() {
  material::Stock s;
  s.sizing = material::Sizing::internal;
  const auto fixed = [](auto value) {
    return material::Ranged<decltype(value)>{value, value * 0.8, value * 1.25, "assumed"};
  };
  s.grammage = fixed(units::grams_per_m2(300));
  s.thickness = fixed(units::millimetres(0.54));
  s.cobb60 = fixed(units::grams_per_m2(32));
  s.accessible = {units::Moisture(0.8), units::Moisture(0.6), units::Moisture(1.3), "assumed"};
  s.isotherm_scale = fixed(1.0);
  s.pore_ratio = fixed(3.0);
  s.vapour = fixed(units::m2_per_s(5e-7));
  s.wetting_delay = fixed(units::seconds(3));
  return s;
}

std::vector<method::Stage> day() {
  auto stages = method::soak_blot_rest(units::minutes(30), 2, units::minutes(30));
  stages.push_back(method::left(method::Arrangement::bench, units::hours(12)));
  return stages;
}

method::RunOptions ends_only() {
  method::RunOptions o;
  o.sample_every = units::seconds(0);
  return o;
}

void one_sheet(benchmark::State& state) {
  const auto sheet = method::sheet_of(internal_300());
  const air::Climate climate;
  const auto dry = method::conditioned(sheet, climate, static_cast<int>(state.range(0)));
  const auto stages = day();
  int steps = 0;
  for (auto _ : state) {
    const auto h = method::run(sheet, dry, stages, climate, ends_only());
    steps = h.steps;
    benchmark::DoNotOptimize(h.end.kelvin);
  }
  state.counters["steps"] = steps;
}
BENCHMARK(one_sheet)->Arg(12)->Arg(24)->Arg(48)->Arg(96)->Unit(benchmark::kMicrosecond);

void damp_pack(benchmark::State& state) {
  const auto sheet = method::sheet_of(internal_300());
  const air::Climate climate;
  const auto dry = method::conditioned(sheet, climate, 24);
  const auto stages = method::damp_pack(units::Moisture(0.7), static_cast<int>(state.range(0)) - 1,
                                        units::hours(12));
  for (auto _ : state) {
    benchmark::DoNotOptimize(method::run(sheet, dry, stages, climate, ends_only()).steps);
  }
}
BENCHMARK(damp_pack)->Arg(3)->Arg(6)->Arg(12)->Unit(benchmark::kMicrosecond);

void sheet_from_its_cobb_value(benchmark::State& state) {
  for (auto _ : state) {
    benchmark::DoNotOptimize(method::sheet_of(internal_300()).porous->liquid);
  }
}
BENCHMARK(sheet_from_its_cobb_value)->Unit(benchmark::kMicrosecond);

void sampled_sheets(benchmark::State& state) {
  const auto stock = internal_300();
  const air::Climate climate;
  const auto stages = day();
  const auto draws = method::draws(static_cast<int>(state.range(0)), 1);
  for (auto _ : state) {
    for (const auto& draw : draws) {
      const auto sheet = method::drawn(stock, draw);
      const auto h =
          method::run(sheet, method::conditioned(sheet, climate), stages, climate, ends_only());
      benchmark::DoNotOptimize(h.steps);
    }
  }
}
BENCHMARK(sampled_sheets)->Arg(16)->Arg(64)->Unit(benchmark::kMillisecond);

}  // namespace
}  // namespace dampline
