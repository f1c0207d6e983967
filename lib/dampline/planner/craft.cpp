#include <algorithm>
#include <cmath>

#include <toml++/toml.h>

#include <dampline/planner/craft.hpp>

namespace dampline::planner {
namespace {

constexpr std::array<double, 3> areas_cm2{150, 600, 2400};  // 10 x 15, 20 x 30, 40 x 60 cm

[[noreturn]] void fail(std::string_view file, const toml::source_region& where,
                       const std::string& what) {
  throw DataError(std::string(file) + ":" + std::to_string(where.begin.line) + ":" +
                  std::to_string(where.begin.column) + ": " + what +
                  "; reinstall the data files or mend this one");
}

toml::table parsed(std::string_view text, std::string_view file) {
  try {
    return toml::parse(text, file);
  } catch (const toml::parse_error& e) {
    fail(file, e.source(), std::string(e.description()));
  }
}

struct Reader {
  std::string_view file;

  std::string text(const toml::table& table, std::string_view key) const {
    const auto value = table[key].value<std::string>();
    if (!value) fail(file, table.source(), "no text \"" + std::string(key) + "\" here");
    return *value;
  }

  double minutes(const toml::node& node) const {
    const auto written = node.value<std::string>();
    const auto read = units::parse_duration(written.value_or(""));
    if (!units::ok(read)) fail(file, node.source(), std::get<units::Refusal>(read).what);
    return units::in_minutes(std::get<units::Duration>(read));
  }

  StepTimes times(const toml::table& table, std::string_view key) const {
    const auto* row = table[key].as_array();
    if (row == nullptr || row->size() != 3) {
      fail(file, table.source(), "\"" + std::string(key) + "\" must be [least, typical, most]");
    }
    const StepTimes t{minutes((*row)[0]), minutes((*row)[1]), minutes((*row)[2])};
    if (!(t.least <= t.typical && t.typical <= t.most)) {
      fail(file, row->source(), "times must rise: least, typical, most");
    }
    return t;
  }

  Hands hands(const toml::table& table) const {
    const auto word = text(table, "hands");
    if (word == "inky") return Hands::inky;
    if (word == "clean") return Hands::clean;
    if (word == "any") return Hands::any;
    if (word == "none") return Hands::none;
    fail(file, table.source(), "hands is one of inky, clean, any, none");
  }

  StepKind step(const toml::table& table) const {
    StepKind kind;
    kind.what = text(table, "what");
    kind.cue = text(table, "cue");
    kind.hands = hands(table);
    if (table.contains("times")) {
      kind.by_size.fill(times(table, "times"));
    } else {
      kind.by_size = {times(table, "small"), times(table, "medium"), times(table, "large")};
    }
    return kind;
  }

  const toml::table& sub_table(const toml::table& table, std::string_view key) const {
    const auto* found = table[key].as_table();
    if (found == nullptr) fail(file, table.source(), "no table [" + std::string(key) + "]");
    return *found;
  }

  std::vector<std::string> step_names(const toml::table& table, std::string_view key,
                                      const Craft& craft) const {
    const auto* node = table.get(key);
    if (node == nullptr) return {};
    auto names = words(*node);
    for (const auto& name : names) {
      if (!craft.steps.contains(name)) fail(file, node->source(), "no step \"" + name + "\"");
    }
    return names;
  }

  Extra extra(const toml::table& table, const Craft& craft) const {
    Extra e{step_names(table, "charging", craft), step_names(table, "laying", craft),
            step_names(table, "slower", craft), table["by"].value_or(1.0)};
    if (!(e.by > 0)) fail(file, table.source(), "\"by\" must be above 0");
    return e;
  }

  method::PressHabits catcher(const toml::table& table) const {
    method::PressHabits h;
    const auto whole = [&](std::string_view key, int low, int high) {
      const auto value = table[key].value<int>();
      if (!value || *value < low || *value > high) {
        fail(file, table.source(),
             std::string(key) + " is a whole number from " + std::to_string(low) + " to " +
                 std::to_string(high));
      }
      return *value;
    };
    h.newsprint = whole("newsprint", 0, 8);
    h.newsprint_pulls = whole("newsprint_pulls", 1, 1000);
    const auto aired = table["aired"].value<bool>();
    if (!aired) fail(file, table.source(), "aired is true or false");
    h.aired = *aired;
    const auto* lying = table.get("lying");
    if (lying == nullptr) fail(file, table.source(), "no \"lying\" here");
    h.lying = units::minutes(minutes(*lying));
    const auto clammy = units::parse_humidity(text(table, "clammy"));
    if (!units::ok(clammy)) fail(file, table.source(), std::get<units::Refusal>(clammy).what);
    h.clammy = std::get<units::RelativeHumidity>(clammy);
    return h;
  }

  std::vector<std::string> words(const toml::node& node) const {
    std::vector<std::string> out;
    const auto* row = node.as_array();
    if (row == nullptr) fail(file, node.source(), "a list of words was expected");
    for (const auto& word : *row) out.push_back(word.value_or(std::string()));
    return out;
  }
};

}  // namespace

Craft read_craft(std::string_view text, std::string_view file) {
  const auto document = parsed(text, file);
  const Reader reader{file};
  Craft craft;
  craft.basis = reader.text(document, "basis");
  for (const auto& [name, node] : reader.sub_table(document, "step")) {
    const auto* table = node.as_table();
    if (table == nullptr) fail(file, node.source(), "a step must be a table");
    craft.steps[std::string(name.str())] = reader.step(*table);
  }
  const auto& by_process = reader.sub_table(document, "charging");
  for (const auto& [process, node] : by_process) {
    craft.charging[std::string(process.str())] =
        reader.step_names(by_process, process.str(), craft);
  }
  if (!craft.charging.contains("default")) fail(file, document.source(), "no default charging");
  for (const auto& [name, node] : reader.sub_table(document, "extra")) {
    const auto* table = node.as_table();
    if (table == nullptr) fail(file, node.source(), "an extra must be a table");
    craft.extras[std::string(name.str())] = reader.extra(*table, craft);
  }
  for (const auto& [ink, node] : reader.sub_table(document, "open-time")) {
    const auto* table = node.as_table();
    if (table == nullptr) fail(file, node.source(), "an open time must be a table");
    const auto* comfortable = table->get("comfortable");
    const auto* redo = table->get("redo");
    if (comfortable == nullptr || redo == nullptr) {
      fail(file, node.source(), "an open time needs comfortable and redo");
    }
    craft.open_time[std::string(ink.str())] = {units::minutes(reader.minutes(*comfortable)),
                                               units::minutes(reader.minutes(*redo))};
  }
  if (!craft.open_time.contains("oil")) fail(file, document.source(), "no open time for oil");
  if (const auto* evening = document.get("evening")) {
    craft.evening = units::minutes(reader.minutes(*evening));
  } else {
    fail(file, document.source(), "no \"evening\" here");
  }
  craft.press = reader.catcher(reader.sub_table(document, "catcher"));
  craft.learner_pace = document["learner_pace"].value_or(0.0);
  if (!(craft.learner_pace > 0)) fail(file, document.source(), "no learner_pace here");
  craft.blotters_a_place = document["blotters_a_place"].value_or(0);
  if (craft.blotters_a_place < 1) fail(file, document.source(), "no blotters_a_place here");
  const auto& supplies = reader.sub_table(document, "supplies");
  const auto count = [&](const char* key) {
    const int n = supplies[key].value_or(0);
    if (n < 1) fail(file, supplies.source(), "no number \"" + std::string(key) + "\" here");
    return n;
  };
  craft.supplies = {count("blotters_a_sheet"), count("newsprint_a_pull"), count("tissue_a_print"),
                    count("pads_a_plate")};
  return craft;
}

const StepKind& step_kind(const Craft& craft, const std::string& kind) {
  const auto found = craft.steps.find(kind);
  if (found == craft.steps.end()) throw DataError("steps.toml has no step \"" + kind + "\"");
  return found->second;
}

units::Duration step_time(const Craft& craft, const std::string& kind, const units::Size& plate) {
  const auto& by_size = step_kind(craft, kind).by_size;
  const double cm2 = units::in_si(plate.width) * units::in_si(plate.height) * 1e4;
  if (!(cm2 > areas_cm2[0])) return units::minutes(by_size[0].typical);
  if (cm2 >= areas_cm2[2]) return units::minutes(by_size[2].typical);
  const std::size_t i = cm2 < areas_cm2[1] ? 0 : 1;
  const double part = std::log(cm2 / areas_cm2[i]) / std::log(areas_cm2[i + 1] / areas_cm2[i]);
  return units::minutes(by_size[i].typical + part * (by_size[i + 1].typical - by_size[i].typical));
}

std::vector<std::string> charging(const Craft& craft, const std::string& process,
                                  const std::vector<std::string>& extras) {
  const auto found = craft.charging.find(process);
  auto steps = found == craft.charging.end() ? craft.charging.at("default") : found->second;
  for (const auto& name : extras) {
    const auto& more = craft.extras.at(name).charging;
    steps.insert(steps.end(), more.begin(), more.end());
  }
  return steps;
}

std::vector<std::string> laying(const Craft& craft, const std::vector<std::string>& extras) {
  std::vector<std::string> steps;
  for (const auto& name : extras) {
    const auto& more = craft.extras.at(name).laying;
    steps.insert(steps.end(), more.begin(), more.end());
  }
  return steps;
}

double slowed(const Craft& craft, const std::vector<std::string>& extras, const std::string& kind) {
  double factor = 1;
  for (const auto& name : extras) {
    const auto& extra = craft.extras.at(name);
    if (std::find(extra.slower.begin(), extra.slower.end(), kind) != extra.slower.end()) {
      factor *= extra.by;
    }
  }
  return factor;
}

const OpenTime& open_time_of(const Craft& craft, const std::string& ink) {
  const auto found = craft.open_time.find(ink);
  return found == craft.open_time.end() ? craft.open_time.at("oil") : found->second;
}

std::vector<CautionRule> read_cautions(std::string_view text, std::string_view file) {
  const auto document = parsed(text, file);
  const Reader reader{file};
  std::vector<CautionRule> rules;
  const auto* list = document["caution"].as_array();
  if (list == nullptr) fail(file, document.source(), "no [[caution]] in the file");
  for (const auto& node : *list) {
    const auto* table = node.as_table();
    if (table == nullptr) fail(file, node.source(), "a caution must be a table");
    const auto* when = table->get("when");
    if (when == nullptr) fail(file, node.source(), "a caution needs \"when\"");
    rules.push_back({reader.text(*table, "code"), reader.text(*table, "text"), reader.words(*when),
                     reader.text(*table, "basis")});
  }
  return rules;
}

}  // namespace dampline::planner
