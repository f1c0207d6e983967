#include <benchmark/benchmark.h>

#include <dampline/method/pack.hpp>
#include <dampline/method/run.hpp>

// Whole packs. The speed table asks for a 12-sheet damp pack overnight in 3 ms.
namespace dampline {
namespace {

material::Stock internal_250() {
  material::Stock s;
  s.sizing = material::Sizing::internal;
  s.grammage.value = units::grams_per_m2(250);
  s.thickness.value = units::millimetres(0.45);
  s.cobb60.value = units::grams_per_m2(32);
  s.accessible.value = units::Moisture(0.8);
  s.isotherm_scale.value = 1;
  s.pore_ratio.value = 3;
  s.vapour.value = units::m2_per_s(5e-7);
  return s;
}

void pack_of_sheets(benchmark::State& state, int sheets) {
  const auto sheet = method::sheet_of(internal_250());
  const air::Climate climate;
  const auto dry = method::conditioned(sheet, climate);
  const auto soak = method::soak_blot_rest(units::minutes(30), 0, units::seconds(0));
  const auto wet = method::run(sheet, dry, soak, climate).end;
  const auto pack = method::pack_of(method::order_of(sheets, 1, 2, 1), dry, wet);
  int steps = 0;
  for (auto _ : state) {
    const auto h = method::leave_packed(sheet, pack, units::hours(12), climate,
                                        {.sample_every = units::seconds(0)});
    steps = h.steps;
    benchmark::DoNotOptimize(h.end.sheets.front().kelvin);
  }
  state.counters["steps"] = steps;
}

void damp_pack_of_12(benchmark::State& state) { pack_of_sheets(state, 12); }
BENCHMARK(damp_pack_of_12)->Unit(benchmark::kMicrosecond);
void damp_pack_of(benchmark::State& state) {
  pack_of_sheets(state, static_cast<int>(state.range(0)));
}
BENCHMARK(damp_pack_of)->Arg(3)->Arg(6)->Arg(24)->Arg(48)->Unit(benchmark::kMicrosecond);

}  // namespace
}  // namespace dampline
