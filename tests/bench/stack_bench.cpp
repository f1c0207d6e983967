#include <array>
#include <ctime>

#include <benchmark/benchmark.h>

#include <dampline/method/draw.hpp>
#include <dampline/method/run.hpp>
#include <dampline/stack/lanes.hpp>

#include "../stack/sheet_day.hpp"

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
BENCHMARK(damp_pack)->Arg(3)->Arg(6)->Arg(12)->Arg(24)->Unit(benchmark::kMicrosecond);

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

// The same day for drawn sheets, on the stacks alone: one after the other, or side by side. The
// sheets are made beforehand; `per_sample` is the processor time of one sheet's day, `advancing_us`
// of its steps alone, without the putting together of the stacks between stages.
std::vector<stack::tests::DaySheet> drawn_sheets(int n, std::vector<method::Sheet>& made) {
  std::vector<stack::tests::DaySheet> all;
  for (const auto& draw : method::draws(n, 1)) {
    made.push_back(method::drawn(internal_300(), draw));
    auto day = stack::tests::day_sheet(*made.back().porous);
    day.climate = method::drawn(air::Climate{}, draw);
    day.air_scale = made.back().air_scale;
    day.contact_scale = made.back().contact_scale;
    all.push_back(std::move(day));
  }
  return all;
}

double processor_seconds() { return static_cast<double>(std::clock()) / CLOCKS_PER_SEC; }

void stacks_of_samples(benchmark::State& state, bool side_by_side) {
  std::vector<method::Sheet> made;
  const auto n = static_cast<int>(state.range(0));
  const auto fresh = drawn_sheets(n, made);
  long steps = 0;
  double advancing = 0;
  for (auto _ : state) {
    auto sheets = fresh;
    steps = 0;
    for (int i = 0; i < stack::tests::day_stages; ++i) {
      std::vector<stack::tests::DayStack> days;
      std::vector<stack::Stack> stacks;
      days.reserve(sheets.size());
      stacks.reserve(sheets.size());
      for (auto& sheet : sheets) {
        days.push_back(stack::tests::begin(static_cast<stack::tests::DayStage>(i), sheet));
        stacks.push_back(std::move(days.back().stack));
      }
      const double seconds = stack::tests::day_seconds[i];
      const stack::Tolerance tolerance{.moisture = 1e-4};
      const double before = processor_seconds();
      if (side_by_side) {
        for (const auto& o : stack::advance_lanes(stacks, seconds, tolerance)) steps += o.steps;
      } else {
        for (auto& one : stacks) steps += stack::advance(one, seconds, tolerance).steps;
      }
      advancing += processor_seconds() - before;
      for (std::size_t k = 0; k < sheets.size(); ++k) {
        days[k].stack = std::move(stacks[k]);
        stack::tests::end(days[k], sheets[k]);
      }
    }
    benchmark::DoNotOptimize(sheets.back().kelvin);
  }
  state.counters["steps"] = static_cast<double>(steps) / n;
  state.counters["advancing_us"] = 1e6 * advancing / (n * static_cast<double>(state.iterations()));
  state.counters["per_sample"] = benchmark::Counter(
      n, benchmark::Counter::kIsIterationInvariantRate | benchmark::Counter::kInvert);
}
void samples_one_by_one(benchmark::State& state) { stacks_of_samples(state, false); }
void samples_side_by_side(benchmark::State& state) { stacks_of_samples(state, true); }
BENCHMARK(samples_one_by_one)->Arg(64)->Unit(benchmark::kMillisecond);
BENCHMARK(samples_side_by_side)->Arg(1)->Arg(8)->Arg(64)->Arg(512)->Unit(benchmark::kMillisecond);

}  // namespace
}  // namespace dampline
