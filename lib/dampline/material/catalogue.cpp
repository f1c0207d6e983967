#include <algorithm>
#include <cmath>
#include <map>

#include <toml++/toml.h>

#include <dampline/material/catalogue.hpp>
#include <dampline/material/classes.hpp>
#include <dampline/material/numbers.hpp>
#include <dampline/units/parse.hpp>

namespace dampline::material {

namespace {

// A file of stocks is some 50 kB. The parser recurses once a part of a dotted key and overflows the
// stack near 30000 parts, so the points of the whole text are counted first.
constexpr std::size_t largest_file = std::size_t{256} * 1024;
constexpr std::ptrdiff_t most_points = 10'000;

units::Parsed<units::Grammage> read(std::string_view t, units::Grammage*) {
  return units::parse_grammage(t);
}
units::Parsed<units::Length> read(std::string_view t, units::Length*) {
  return units::parse_length(t);
}
units::Parsed<units::Moisture> read(std::string_view t, units::Moisture*) {
  return units::parse_moisture(t);
}
units::Parsed<units::Strain> read(std::string_view t, units::Strain*) {
  return units::parse_strain(t);
}
units::Parsed<units::Density> read(std::string_view t, units::Density*) {
  return units::parse_density(t);
}
units::Parsed<units::Diffusivity> read(std::string_view t, units::Diffusivity*) {
  return units::parse_diffusivity(t);
}
units::Parsed<units::Duration> read(std::string_view t, units::Duration*) {
  return units::parse_duration(t);
}

using Keys = std::vector<std::string_view>;

class Reader {
 public:
  Reader(std::string_view text, std::string_view file) : text_(text), file_(file) {}

  std::variant<Catalogue, CatalogueErrors> run() {
    if (guard()) parse();
    if (faults_.none()) return std::move(catalogue_);
    return faults_.in_file_order();
  }

 private:
  bool guard() {
    if (text_.size() > largest_file) {
      fail({}, "the file is larger than 256 KiB", "keep stocks of your own in a file of their own");
    } else if (std::count(text_.begin(), text_.end(), '.') > most_points) {
      fail({}, "more than 10000 points in the file", "remove the long dotted key");
    }
    return faults_.none();
  }

  void parse() {
    try {
      const toml::table root = toml::parse(text_, std::string(file_));
      only(root, {"sizing", "making", "furnish", "growth", "stock"});
      for_each(root, "sizing", [&](const auto& t) { sizing(t); });
      for_each(root, "making", [&](const auto& t) { making(t); });
      for_each(root, "furnish", [&](const auto& t) { furnish(t); });
      for_each(root, "growth", [&](const auto& t) { growth(t); });
      classes_sound_ = faults_.none();
      for_each(root, "stock", [&](const auto& t) { stock(t); });
      if (faults_.none() && catalogue_.stocks.empty()) {
        fail({}, "no [[stock]] in the file", "add one, with a name, a grammage and a sizing");
      }
    } catch (const toml::parse_error& e) {
      fail(e.source().begin, std::string(e.description()),
           "put text and quantities in double quotes, one key a line");
    }
  }

  // ---- errors
  void fail(toml::source_position where, std::string what, std::string help) {
    faults_.add(static_cast<int>(where.line), static_cast<int>(where.column), std::move(what),
                std::move(help));
  }

  void only(const toml::table& t, const Keys& known) {
    for (const auto& [key, node] : t) {
      if (std::find(known.begin(), known.end(), key.str()) != known.end()) continue;
      std::string all;
      for (const auto k : known) all += (all.empty() ? "" : ", ") + std::string(k);
      fail(key.source().begin, "unknown key \"" + std::string(key.str()) + "\"", "one of: " + all);
    }
  }

  // ---- pieces
  template <class Function>
  void for_each(const toml::table& root, std::string_view key, Function f) {
    const toml::node* node = root.get(key);
    if (node == nullptr) return;
    const toml::array* all = node->as_array();
    if (all == nullptr || !all->is_homogeneous(toml::node_type::table)) {
      fail(node->source().begin, std::string(key) + " is not a list of tables",
           "head each with [[" + std::string(key) + "]]");
      return;
    }
    for (const auto& one : *all) f(*one.as_table());
  }

  std::string text_of(const toml::table& t, std::string_view key, bool needed = true) {
    const toml::node* node = t.get(key);
    if (node == nullptr) {
      if (needed) {
        fail(t.source().begin, "no " + std::string(key), "add " + std::string(key) + " = \"...\"");
      }
      return {};
    }
    const auto* value = node->as_string();
    if (value == nullptr || value->get().empty()) {
      fail(node->source().begin, std::string(key) + " is not a text", "write it in double quotes");
      return {};
    }
    return value->get();
  }

  template <class Thing>
  bool word_of(const toml::table& t, std::string_view key, Thing& to,
               std::optional<Thing> (*meaning)(std::string_view), bool needed = true) {
    if (!needed && t.get(key) == nullptr) return true;
    const std::string text = text_of(t, key);
    if (text.empty()) return false;
    return word_at(t.get(key)->source().begin, key, text, to, meaning);
  }

  template <class Thing>
  bool word_at(toml::source_position where, std::string_view key, const std::string& text,
               Thing& to, std::optional<Thing> (*meaning)(std::string_view)) {
    const auto thing = meaning(text);
    if (!thing) {
      std::string known;
      for (int i = 0; i < 12; ++i) {
        const auto w = word(static_cast<Thing>(i));
        if (!w.empty()) known += (known.empty() ? "" : ", ") + std::string(w);
      }
      fail(where, "unknown " + std::string(key) + " \"" + text + "\"", "one of: " + known);
      return false;
    }
    to = *thing;
    return true;
  }

  template <class Thing>
  std::vector<Thing> words_of(const toml::table& t, std::string_view key,
                              std::optional<Thing> (*meaning)(std::string_view)) {
    std::vector<Thing> out;
    const toml::node* node = t.get(key);
    const toml::array* all = node == nullptr ? nullptr : node->as_array();
    if (all == nullptr || all->empty()) {
      fail(node == nullptr ? t.source().begin : node->source().begin,
           std::string(key) + " is not a list of words",
           "write " + std::string(key) + " = [\"...\"]");
      return out;
    }
    for (const auto& one : *all) {
      Thing thing{};
      if (word_at(one.source().begin, key, one.value_or(std::string()), thing, meaning)) {
        out.push_back(thing);
      }
    }
    return out;
  }

  // One of value, low, high.
  template <class Quantity>
  bool part(const toml::table& number, std::string_view key, std::string_view which, Quantity& to) {
    const std::string text = text_of(number, which);
    if (text.empty()) return false;
    const auto parsed = read(text, static_cast<Quantity*>(nullptr));
    if (units::ok(parsed)) {
      to = std::get<Quantity>(parsed);
      return true;
    }
    const auto& refusal = std::get<units::Refusal>(parsed);
    auto where = number.get(which)->source().begin;
    where.column += static_cast<toml::source_index>(refusal.column + 1);
    fail(where, std::string(key) + ": " + refusal.what, refusal.help);
    return false;
  }
  bool part(const toml::table& number, std::string_view key, std::string_view which, double& to) {
    const toml::node* node = number.get(which);
    const auto value = node == nullptr ? std::nullopt : node->value<double>();
    if (!value || !std::isfinite(*value) || *value < 0) {
      fail(node == nullptr ? number.source().begin : node->source().begin,
           std::string(key) + ": " + std::string(which) + " is not a plain number of 0 or more",
           "write it without quotes, like 1.2");
      return false;
    }
    to = *value;
    return true;
  }

  template <class Quantity>
  bool ranged(const toml::table& t, std::string_view key, Ranged<Quantity>& to) {
    const toml::node* node = t.get(key);
    if (node == nullptr) {
      fail(
          t.source().begin, "no " + std::string(key),
          "add " + std::string(key) + " = { value = ..., low = ..., high = ..., basis = \"...\" }");
      return false;
    }
    const toml::table* number = node->as_table();
    if (number == nullptr) {
      fail(node->source().begin, std::string(key) + " has no range and no basis",
           "write { value = ..., low = ..., high = ..., basis = \"...\" }");
      return false;
    }
    only(*number, {"value", "low", "high", "basis"});
    bool good = part(*number, key, "value", to.value);
    good = part(*number, key, "low", to.low) && good;
    good = part(*number, key, "high", to.high) && good;
    to.basis = text_of(*number, "basis");
    if (good && !(to.low <= to.value && to.value <= to.high)) {
      fail(node->source().begin, std::string(key) + " does not lie between its low and high",
           "put them in order: low, value, high");
      good = false;
    }
    return good && !to.basis.empty();
  }

  // ---- tables
  void sizing(const toml::table& t) {
    SizingClass c;
    only(t, {"name", "cobb60", "accessible", "swelling", "vapour", "wetting_delay"});
    bool good = word_of(t, "name", c.sizing, sizing_from);
    if (c.sizing != Sizing::waterleaf) {
      good = ranged(t, "cobb60", c.cobb60) && good;
    } else {
      c.cobb60.basis = "not measurable: a sheet without size fills before the minute is up";
    }
    good = ranged(t, "accessible", c.accessible) && good;
    good = ranged(t, "swelling", c.swelling) && good;
    good = ranged(t, "vapour", c.vapour) && good;
    good = ranged(t, "wetting_delay", c.wetting_delay) && good;
    if (good) catalogue_.classes.sizings.push_back(std::move(c));
  }

  void making(const toml::table& t) {
    MakingClass c;
    only(t, {"name", "density", "pore_ratio"});
    bool good = word_of(t, "name", c.making, making_from);
    good = ranged(t, "density", c.density) && good;
    good = ranged(t, "pore_ratio", c.pore_ratio) && good;
    if (good) catalogue_.classes.makings.push_back(std::move(c));
  }

  void furnish(const toml::table& t) {
    FurnishClass c;
    only(t, {"name", "isotherm_scale", "fibre_full"});
    bool good = word_of(t, "name", c.furnish, furnish_from);
    good = ranged(t, "isotherm_scale", c.isotherm_scale) && good;
    good = ranged(t, "fibre_full", c.fibre_full) && good;
    if (good) catalogue_.classes.furnishes.push_back(std::move(c));
  }

  void growth(const toml::table& t) {
    GrowthClass c;
    only(t, {"name", "makings", "furnishes", "free_along", "dried_in_along", "free_across",
             "dried_in_across"});
    c.name = text_of(t, "name");
    c.makings = words_of(t, "makings", making_from);
    c.furnishes = words_of(t, "furnishes", furnish_from);
    bool good = !c.name.empty() && !c.makings.empty() && !c.furnishes.empty();
    good = ranged(t, "free_along", c.along.free) && good;
    good = ranged(t, "dried_in_along", c.along.dried_in) && good;
    good = ranged(t, "free_across", c.across.free) && good;
    good = ranged(t, "dried_in_across", c.across.dried_in) && good;
    if (good) catalogue_.classes.growths.push_back(std::move(c));
  }

  void stock(const toml::table& t) {
    Stock s;
    Keys known{"name", "remark", "kind", "furnish", "making", "sizing"};
    each_number(s, [&](std::string_view key, auto&) { known.push_back(key); });
    only(t, known);
    s.name = text_of(t, "name");
    s.remark = text_of(t, "remark", false);
    bool good = word_of(t, "kind", s.kind, kind_from, false);
    good = word_of(t, "furnish", s.furnish, furnish_from) && good;
    good = word_of(t, "making", s.making, making_from) && good;
    good = word_of(t, "sizing", s.sizing, sizing_from) && good;
    if (!good || s.name.empty()) return;
    // With an error in a class above, what follows from it would only repeat it.
    const auto& classes = catalogue_.classes;
    const bool filled = take_sizing(s, classes) & take_making(s, classes) &
                        take_furnish(s, classes) & take_growth(s, classes);
    each_number(s, [&](std::string_view key, auto& number) {
      if (t.get(key) != nullptr) good = ranged(t, key, number) && good;
    });
    if (t.get("grammage") == nullptr) good = ranged(t, "grammage", s.grammage) && good;
    if (t.get("thickness") == nullptr) good = take_thickness(s, classes) && good;
    if (!filled && classes_sound_) {
      fail(t.source().begin,
           "no class for " + std::string(word(s.making)) + "-made " + std::string(word(s.furnish)) +
               ", " + std::string(word(s.sizing)) + " size",
           "add the [[sizing]], [[making]], [[furnish]] or [[growth]] it lacks");
      return;
    }
    if (!good || !classes_sound_) return;
    if (auto wrong = impossible(s); !wrong.empty()) {
      fail(t.source().begin, std::move(wrong), "check the units");
      return;
    }
    if (find_stock(catalogue_, s.name) != nullptr) {
      fail(t.get("name")->source().begin, "a second stock named \"" + s.name + "\"",
           "give it a name of its own");
      return;
    }
    catalogue_.stocks.push_back(std::move(s));
  }

  std::string_view text_;
  std::string_view file_;
  Catalogue catalogue_;
  Faults faults_{text_, file_};
  bool classes_sound_ = true;
};

}  // namespace

std::variant<Catalogue, CatalogueErrors> read_catalogue(std::string_view text,
                                                        std::string_view file) {
  return Reader(text, file).run();
}

}  // namespace dampline::material
