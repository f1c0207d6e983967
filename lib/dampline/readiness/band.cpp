#include <algorithm>
#include <cctype>
#include <optional>

#include <toml++/toml.h>

#include <dampline/readiness/band.hpp>
#include <dampline/units/parse.hpp>

namespace dampline::readiness {

namespace {

using material::CatalogueError;
using material::CatalogueErrors;
using material::Ranged;

constexpr std::size_t largest_file = 256 * 1024;
// The parser recurses once a part of a dotted key and overflows the stack near 30000 parts.
constexpr std::ptrdiff_t most_points = 10'000;

class Reader {
 public:
  Reader(std::string_view text, std::string_view file) : text_(text), file_(file) {}

  std::variant<Processes, CatalogueErrors> run() {
    if (text_.size() > largest_file) {
      fail({}, "the file is larger than 256 KiB", "keep processes of your own in a file apart");
    } else if (std::count(text_.begin(), text_.end(), '.') > most_points) {
      fail({}, "more than 10000 points in the file", "remove the long dotted key");
    } else {
      parse();
    }
    if (faults_.none()) return std::move(processes_);
    return faults_.in_file_order();
  }

 private:
  void parse() {
    try {
      const toml::table root = toml::parse(text_, std::string(file_));
      only(root, {"water_ink", "process"});
      if (const auto* ink = root["water_ink"].as_table()) {
        only(*ink, {"ceiling", "note", "basis"});
        processes_.water_ink_note = text_of(*ink, "note", false);
        moisture(*ink, "ceiling", processes_.water_ink, text_of(*ink, "basis", true));
      } else {
        fail(root.source().begin, "no [water_ink] table", "add one with a ceiling and a basis");
      }
      const auto* all = root["process"].as_array();
      if (all == nullptr || all->empty()) {
        fail(root.source().begin, "no [[process]] in the file", "add one, with a name and bounds");
        return;
      }
      for (const auto& node : *all) {
        if (const auto* t = node.as_table()) {
          process(*t);
        } else {
          fail(node.source().begin, "a process must be a table", "write [[process]]");
        }
      }
    } catch (const toml::parse_error& e) {
      fail(e.source().begin, std::string(e.description()),
           "put text and quantities in double quotes, one key a line");
    }
  }

  void process(const toml::table& t) {
    only(t, {"name", "also", "level", "mean", "driest", "surface", "spread", "note", "basis"});
    Band b;
    b.process = text_of(t, "name", true);
    b.note = text_of(t, "note", false);
    b.basis = text_of(t, "basis", true);
    if (const auto* also = t["also"].as_array()) {
      for (const auto& word : *also) {
        if (const auto* s = word.as_string()) {
          b.also.push_back(s->get());
        } else {
          fail(word.source().begin, "another word must be text", "write also = [\"...\"]");
        }
      }
    }
    const auto level = t["level"].value<int>();
    if (!level || *level < 0 || *level > 4) {
      fail(t.source().begin, "level must be a whole number from 0 to 4",
           "0 dry, 1 barely damp, 2 evenly damp, 3 damp and limp, 4 wet");
    } else {
      b.level = *level;
    }
    if (const auto* mean = t["mean"].as_table()) {
      only(*mean, {"low", "best", "high"});
      moisture(*mean, "low", b.low, b.basis);
      moisture(*mean, "best", b.best, b.basis);
      moisture(*mean, "high", b.high, b.basis);
    } else {
      fail(t.source().begin, "process without mean.low, mean.best and mean.high",
           "mean.low = { value = \"0.40 g/g\", low = \"0.30 g/g\", high = \"0.48 g/g\" }");
    }
    moisture(t, "driest", b.driest, b.basis);
    moisture(t, "spread", b.spread, b.basis);
    share(t, "surface", b.surface, b.basis);
    if (faults_.none() && !(b.low.value < b.best.value && b.best.value < b.high.value)) {
      fail(t.source().begin, "mean.low, mean.best and mean.high must rise", "put them in order");
    }
    for (const Band& other : processes_.bands) {
      if (other.process == b.process) {
        fail(t.source().begin, "two processes named \"" + b.process + "\"", "keep one of them");
      }
    }
    processes_.bands.push_back(std::move(b));
  }

  std::string text_of(const toml::table& t, std::string_view key, bool wanted) {
    if (const auto s = t[key].value<std::string>(); s && !s->empty()) return *s;
    if (wanted || t.contains(key)) {
      fail(t.source().begin, "\"" + std::string(key) + "\" must be text", "write it in quotes");
    }
    return {};
  }

  // Calls put(member, text) for value, low and high of a bound.
  template <class Put>
  void bound(const toml::table& t, std::string_view key, Put put) {
    const auto* range = t[key].as_table();
    if (range == nullptr) {
      fail(t.source().begin, "missing bound \"" + std::string(key) + "\"",
           std::string(key) + " = { value = ..., low = ..., high = ... }");
      return;
    }
    only(*range, {"value", "low", "high"});
    for (const char* part : {"value", "low", "high"}) {
      const auto text = (*range)[part].value<std::string>();
      if (!text) {
        fail(range->source().begin, "\"" + std::string(part) + "\" of a bound must be text",
             "write a unit: " + std::string(part) + " = \"0.40 g/g\"");
      } else {
        put(std::string_view(part), *text, range->source().begin);
      }
    }
  }

  void moisture(const toml::table& t, std::string_view key, Ranged<units::Moisture>& into,
                const std::string& basis) {
    into.basis = basis;
    bound(t, key, [&](std::string_view part, const std::string& text, toml::source_position at) {
      const auto parsed = units::parse_moisture(text);
      if (const auto* u = std::get_if<units::Moisture>(&parsed)) {
        (part == "value" ? into.value : part == "low" ? into.low : into.high) = *u;
      } else {
        const auto& refusal = std::get<units::Refusal>(parsed);
        fail(at, refusal.what, refusal.help);
      }
    });
  }

  void share(const toml::table& t, std::string_view key, Ranged<double>& into,
             const std::string& basis) {
    into.basis = basis;
    bound(t, key, [&](std::string_view part, const std::string& text, toml::source_position at) {
      const auto parsed = units::parse_humidity(text);  // a percentage from 0 to 100
      if (const auto* p = std::get_if<units::RelativeHumidity>(&parsed)) {
        (part == "value" ? into.value : part == "low" ? into.low : into.high) = p->parts_of_one();
      } else {
        const auto& refusal = std::get<units::Refusal>(parsed);
        fail(at, refusal.what, refusal.help);
      }
    });
  }

  void only(const toml::table& t, const std::vector<std::string_view>& known) {
    for (const auto& [key, node] : t) {
      if (std::find(known.begin(), known.end(), key.str()) != known.end()) continue;
      std::string all;
      for (const auto k : known) all += (all.empty() ? "" : ", ") + std::string(k);
      fail(key.source().begin, "unknown key \"" + std::string(key.str()) + "\"", "one of: " + all);
    }
  }

  void fail(toml::source_position where, std::string what, std::string help) {
    faults_.add(static_cast<int>(where.line), static_cast<int>(where.column), std::move(what),
                std::move(help));
  }

  std::string_view text_;
  std::string_view file_;
  Processes processes_;
  material::Faults faults_{text_, file_};
};

std::string folded(std::string_view text) {
  std::string out;
  for (const char c : text) {
    if (c == ' ' || c == '-' || c == '_' || c == ',') continue;
    out += static_cast<char>(std::tolower(static_cast<unsigned char>(c)));
  }
  return out;
}

}  // namespace

std::variant<Processes, CatalogueErrors> read_processes(std::string_view text,
                                                        std::string_view file) {
  return Reader(text, file).run();
}

const Band* find_band(const Processes& processes, std::string_view process) {
  const std::string wanted = folded(process);
  for (const Band& b : processes.bands) {
    if (folded(b.process) == wanted) return &b;
  }
  for (const Band& b : processes.bands) {
    for (const std::string& word : b.also) {
      if (folded(word) == wanted) return &b;
    }
  }
  return nullptr;
}

Band with_water_ink(Band band, const Processes& processes) {
  const auto& ceiling = processes.water_ink;
  if (ceiling.value < band.high.value) {
    band.high = ceiling;
    if (band.best.value > ceiling.value) {
      band.best.value =
          units::Moisture(0.5 * (band.low.value.parts_of_one() + ceiling.value.parts_of_one()));
    }
  }
  return band;
}

}  // namespace dampline::readiness
