#include <algorithm>
#include <map>

#include <dampline/journal/facts.hpp>
#include <dampline/journal/fields.hpp>
#include <dampline/journal/measured.hpp>
#include <dampline/journal/steps.hpp>
#include <dampline/units/text.hpp>

namespace dampline::journal {
namespace {

// All `assumed`: what a printer would call a step's worth of difference in each.
constexpr Yardstick degrees{2, false};
constexpr Yardstick points{5, false};
constexpr Yardstick water{0.05, false};
constexpr Yardstick growth_percent{0.1, false};
constexpr Yardstick weight{0.03, true};
constexpr Yardstick time_taken{0.25, true};
constexpr Yardstick press_reading{0.05, true};
constexpr Yardstick prints{1, false};
constexpr Yardstick another_stock{10, false};
constexpr Yardstick another_touch{5, false};
constexpr Yardstick another_ink{3, false};
constexpr Yardstick other_felts{2, false};

template <class Enum>
std::string word(Enum value) {
  return std::string(Words<Enum>::all.at(static_cast<std::size_t>(value)));
}

// Means of what has one name, and words counted, in the order they first come.
class Table {
 public:
  void number(const std::string& what, const char* unit, int decimals, Yardstick yardstick,
              double value, bool outcome = false) {
    auto& fact = of(what, yardstick, outcome);
    fact.unit = unit;
    fact.decimals = decimals;
    auto& count = counts_[what];
    const double sum = fact.number.value_or(0) * count + value;
    fact.number = sum / ++count;
  }
  void count(const std::string& what, double more) {
    auto& fact = of(what, prints, true);
    fact.number = fact.number.value_or(0) + more;
  }
  // The same word said again is counted: "too dry, 3 times".
  void word(const std::string& what, Yardstick yardstick, const std::string& said,
            bool outcome = false) {
    of(what, yardstick, outcome);
    ++said_[what][said];
  }
  std::vector<Fact> take() {
    for (auto& fact : facts_) {
      for (const auto& [said, times] : said_[fact.what]) {
        if (!fact.words.empty()) fact.words += "; ";
        fact.words += said;
        if (times > 1) fact.words += ", " + std::to_string(times) + " times";
      }
    }
    return std::move(facts_);
  }

 private:
  Fact& of(const std::string& what, Yardstick yardstick, bool outcome) {
    const auto it =
        std::find_if(facts_.begin(), facts_.end(), [&](const Fact& f) { return f.what == what; });
    if (it != facts_.end()) return *it;
    return facts_.emplace_back(Fact{.what = what, .yardstick = yardstick, .outcome = outcome});
  }
  std::vector<Fact> facts_;
  std::map<std::string, int> counts_;
  std::map<std::string, std::map<std::string, int>> said_;
};

void add(Table& t, const Touch& k) { t.word("touch", another_touch, word(k.verdict)); }

void add(Table& t, const Air& k) {
  if (k.temperature) t.number("temperature", "degC", 1, degrees, units::in_celsius(*k.temperature));
  if (const auto h = humidity(k)) t.number("humidity", "%", 0, points, h->percent());
}

void add(Table& t, const Press& k) {
  const auto unit = k.scale.value_or("");
  const auto name = k.press.value_or("press");
  t.number(name + ", left" + (unit.empty() ? "" : ", " + unit), "", 2, press_reading, k.left);
  t.number(name + ", right" + (unit.empty() ? "" : ", " + unit), "", 2, press_reading, k.right);
}

void add(Table& t, const Felt& k) {
  t.word("blankets", other_felts, word(k.felt) + " " + word(k.done));
}

void add(Table& t, const Ink& k) {
  t.word("ink" + (k.plate ? " of " + *k.plate : ""), another_ink, k.what);
}

void add(Table& t, const Print& k) {
  const bool good = k.verdict == Print::Verdict::good;
  t.count("good prints", good ? 1 : 0);
  t.count("spoiled prints", good ? 0 : 1);
  if (!good && k.why) t.word("spoiled by", prints, *k.why, true);
}

// The rest take more than one entry, or are never compared.
template <class Kind>
void add(Table&, const Kind&) {}

}  // namespace

std::vector<Fact> facts(const Held& held) {
  Table t;
  for (const auto* entry : held.entries) {
    std::visit([&t](const auto& kind) { add(t, kind); }, entry->record);
  }
  std::vector<std::string> stocks;
  for (const auto* entry : held.entries) {
    const auto& stock = entry->stock;
    if (stock.empty() || std::count(stocks.begin(), stocks.end(), stock) > 0) continue;
    stocks.push_back(stock);
    t.word("paper", another_stock, stock);
  }
  for (const auto& taken : weighings(held)) {
    const auto state = word(taken.weighing->state);
    if (taken.weighing->state == Weighing::When::dry) {
      t.number("weight of a sheet, dry", "g", 1, weight, units::in_grams(taken.weighing->mass));
    } else if (taken.moisture) {
      t.number("water, " + state, "g/g", 2, water, taken.moisture->parts_of_one());
    } else {
      t.number("weight, " + state, "g", 1, weight, units::in_grams(taken.weighing->mass));
    }
  }
  for (const auto& grown : lengths(held)) {
    if (!grown.growth) continue;
    t.number("growth " + word(grown.length->direction) + ", " + word(grown.length->state), "%", 2,
             growth_percent, grown.growth->percent());
  }
  for (const auto& took : steps(held)) {
    const auto length = took.length();
    if (!length) continue;
    const auto plate = took.mark->plate ? " of " + *took.mark->plate : "";
    t.number("time to " + took.mark->step + plate, "min", 1, time_taken,
             units::in_minutes(*length));
  }
  return t.take();
}

std::string text(const Fact& fact) {
  if (!fact.number) return fact.words;
  return units::fixed(*fact.number, fact.decimals) + (fact.unit.empty() ? "" : " " + fact.unit);
}

}  // namespace dampline::journal
