#include <sstream>
#include <string>
#include <vector>

#include <benchmark/benchmark.h>

#include <dampline/journal/kinds.hpp>
#include <dampline/journal/read.hpp>
#include <dampline/journal/write.hpp>

#include "program.hpp"

// A journal of many years: 20,000 entries listed in half a second of user time.
namespace dampline {
namespace {

std::string journal_of(int entries) {
  using namespace journal;
  std::string out(preamble());
  for (int i = 0; i < entries; ++i) {
    Entry e;
    e.time = {std::chrono::sys_days(std::chrono::year(2020) / 1 / 1) + std::chrono::minutes(97 * i),
              std::chrono::minutes(60)};
    e.day = {std::chrono::floor<std::chrono::days>(e.time.at)};
    e.session = "Session of " + date_text(e.day);
    e.stock = "mould-made cotton, internal size, 300 g/m2";
    switch (i % 4) {
      case 0:
        e.record = Weighing{Weighing::When::soaked, units::grams(60 + i % 40), units::minutes(20),
                            1 + i % 12};
        break;
      case 1:
        e.record = Air{units::celsius(17), units::RelativeHumidity::from_percent(52), {}, "bench"};
        break;
      case 2:
        e.record = Start{{"wipe", "key", 1 + i % 12, {}, "A"}};
        break;
      default:
        e.record = Print{1 + i % 12, Print::Verdict::spoiled, "creased at the tail", "key", {}};
    }
    out += written(e);
  }
  return out;
}

void read_20000_entries(benchmark::State& state) {
  const auto text = journal_of(20000);
  for (auto _ : state) benchmark::DoNotOptimize(journal::read(text, "j").entries.size());
  state.SetBytesProcessed(state.iterations() * static_cast<std::int64_t>(text.size()));
}

void list_20000_entries(benchmark::State& state) {
  const auto text = journal_of(20000);
  const std::vector<std::string> words{"log", "list", "--journal", "-"};
  for (auto _ : state) {
    std::istringstream in(text);
    std::ostringstream out;
    std::ostringstream err;
    if (cli::run(words, {.in = in, .out = out, .err = err}) != 0) state.SkipWithError("refused");
    benchmark::DoNotOptimize(out.str().size());
  }
}

BENCHMARK(read_20000_entries)->Unit(benchmark::kMillisecond);
BENCHMARK(list_20000_entries)->Unit(benchmark::kMillisecond);

}  // namespace
}  // namespace dampline
