#pragma once

#include <chrono>
#include <string>
#include <vector>

#include <dampline/journal/entry.hpp>

namespace dampline::tests {

/// At so many minutes past nine on a Saturday in March, by a clock an hour east of UTC.
inline journal::Entry entry_at(int minutes, journal::Record record) {
  using namespace std::chrono_literals;
  journal::Entry e;
  e.time = {std::chrono::sys_days(2026y / 3 / 14) + 8h + std::chrono::minutes(minutes), 60min};
  e.session = "Salt marsh";
  e.day = 2026y / 3 / 14;
  e.stock = "cotton, 300 g/m2";
  e.record = std::move(record);
  return e;
}

/// Every kind twice: with all it may hold, and with no more than it must.
inline std::vector<journal::Entry> one_of_every_kind() {
  using namespace journal;
  const auto g = [](double v) { return units::grams(v); };
  const auto mm = [](double v) { return units::millimetres(v); };
  const auto min = [](double v) { return units::minutes(v); };
  std::vector<Record> all{
      Start{{"wipe", "key", 1, "3-5", "A"}},
      Start{{"soak", {}, {}, {}, {}}},
      Finish{{"wipe", "key", 1, "3-5", "A"}},
      Finish{{"soak", {}, {}, {}, {}}},
      Weighing{Weighing::When::bench, g(64.2), min(12), 3},
      Weighing{Weighing::When::dry, g(48.25), {}, {}},
      Length{Length::Direction::along, Length::When::waited, mm(303.5), min(90), 2},
      Length{Length::Direction::across, Length::When::dry, mm(300), {}, {}},
      Touch{Touch::Verdict::wet, 3},
      Touch{Touch::Verdict::dry, {}},
      Air{units::celsius(17.5), units::RelativeHumidity::from_percent(52), units::celsius(12),
          "bench"},
      Air{units::celsius(-3), {}, {}, {}},
      Press{3.25, -0.5, "turns", "table press"},
      Press{3, 3, {}, {}},
      Felt{Felt::Which::catcher, Felt::Done::changed},
      Felt{Felt::Which::all, Felt::Done::squared},
      Ink{"bone black, 3 drops of oil", "key"},
      Ink{"\"stiff\" \\ black", {}},
      Print{4, Print::Verdict::spoiled, "creased at the tail", "key", 5},
      Print{5, Print::Verdict::good, {}, {}, {}},
      Note{"two\nlines, a \ttab and \x1b[31m red, \x7f, \u202e turned, \u00e4\u00f6 \U0001F5A8"},
      Note{"plain"},
  };
  std::vector<Entry> out;
  for (auto& record : all) out.push_back(entry_at(static_cast<int>(out.size()), std::move(record)));
  out[1].remark = "the water was cold";
  out[2].session.clear();
  out[3].stock.clear();
  return out;
}

}  // namespace dampline::tests
