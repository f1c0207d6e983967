#include "sheet_method.hpp"

#include <algorithm>

#include <dampline/readiness/limits.hpp>
#include <dampline/units/text.hpp>

#include "methods_file.hpp"

namespace dampline::cli {
namespace {

using method::Stage;

bool lays_water(const Stage& s) {
  return units::in_si(s.film) > 0 || s.film_share > units::Moisture(0);
}

bool blots(const Stage& s) {
  return s.arrangement == method::Arrangement::blot || s.arrangement == method::Arrangement::towel;
}

Failure no_use(const char* option, const std::string& method, const char* what) {
  return {exit_status::usage,
          std::string(option) + " has no use here: the method \"" + method + "\" has no " + what,
          "leave it out, or choose another --method"};
}

// Time in place of what the book says, or until something.
void last(Stage& s, units::Duration time) {
  s.duration = time;
  s.until.reset();
}

std::string taken(const Stage& s) {
  if (s.until) return "until " + text(*s.until) + ", at most " + units::text(s.duration);
  return units::text(s.duration);
}

}  // namespace

void add_method_options(Options& options, MethodWords& words) {
  options
      .text("method", words.method, "NAME",
            "how it is damped or dried, as data/methods.toml has it: soak, sponge, mist, dip, "
            "pack, boards, rack, ... (default soak; mist where the tub would spoil it)")
      .text("methods", words.methods, "FILE",
            "a file of your own methods, before those installed (docs/methods.md)")
      .quantity("soak", words.soak, &units::parse_duration, "30 min",
                "time in the tub (default the method's, by sizing)")
      .quantity("water", words.water, &units::parse_temperature, "18 degC",
                "of the tub (default the method's, mostly 18 degC)")
      .quantity("film", words.film, &units::parse_grammage, "100 g/m2",
                "water sponged or misted on (default a third of the sheet's weight)")
      .whole("blot", words.blot, 0, 20, "passes between dry blotters (default the method's, 2)")
      .quantity("rest", words.rest, &units::parse_duration, "30 min",
                "left alone after that (default the method's, mostly 30 min; a pack 12 h)");
}

SheetMethod sheet_method(const MethodWords& words, const material::Stock& stock,
                         const method::Book& book) {
  SheetMethod m;
  std::string name = words.method.value_or("");
  if (name.empty()) {
    const bool tub = words.soak || words.blot || readiness::tub_limit(stock).has_value();
    name = tub ? "soak" : "mist";
    m.defaults_used.push_back("method = " + name);
  }
  const auto& chosen = method_named(book, name);
  m.purpose = chosen.purpose;
  auto parts = method::parts_of(method::stages_for(chosen, stock));
  // A method that is one exchange all through, such as a pack, rests in it.
  std::vector<Stage>& rest = parts.rest.empty() ? parts.wetting : parts.rest;
  const Stage* rested = nullptr;
  if (words.rest) {
    if (method::needs_hands(rest.back()) || method::uses_tub(rest.back())) {
      throw no_use("--rest", chosen.name, "rest");
    }
    last(rest.back(), *words.rest);
    rested = &rest.back();
  }
  bool soaks = false, wets = false, has_blots = false;
  std::vector<const Stage*> told;
  for (Stage& s : parts.wetting) {
    if (method::uses_tub(s)) {
      soaks = true;
      if (words.water) s.water = *words.water;
      if (words.soak) {
        last(s, *words.soak);
        told.push_back(&s);
      }
      for (const auto& d : readiness::dangers_of_soaking(stock, s.duration, s.water)) {
        m.warnings.push_back(d.text + ": " + d.help);
      }
    }
    if (lays_water(s)) {
      wets = true;
      if (words.film) {
        s.film = *words.film;
        s.film_share = {};
        told.push_back(&s);
      }
    }
    if (blots(s)) {
      has_blots = true;
      if (words.blot) {
        s.duration *= static_cast<double>(*words.blot) / s.passes;
        s.passes = std::max(1, *words.blot);
        told.push_back(&s);
      }
    }
  }
  if (words.soak && !soaks) throw no_use("--soak", chosen.name, "soak");
  if (words.water && !soaks) throw no_use("--water", chosen.name, "soak");
  if (words.film && !wets) throw no_use("--film", chosen.name, "water laid on");
  if (words.blot && *words.blot > 0 && !has_blots) throw no_use("--blot", chosen.name, "blotting");
  for (const auto* part : {&parts.wetting, &parts.rest}) {
    for (const Stage& s : *part) {
      if (&s == rested || std::find(told.begin(), told.end(), &s) != told.end()) continue;
      m.defaults_used.push_back(s.name + " = " + taken(s));
    }
  }
  const auto unused = [](const Stage& s) { return blots(s) && !(units::in_si(s.duration) > 0); };
  parts.wetting.erase(std::remove_if(parts.wetting.begin(), parts.wetting.end(), unused),
                      parts.wetting.end());
  m.stages = std::move(parts.wetting);
  m.wet_stages = m.stages.size();
  const auto zero = [](const Stage& s) { return !(units::in_si(s.duration) > 0); };
  parts.rest.erase(std::remove_if(parts.rest.begin(), parts.rest.end(), zero), parts.rest.end());
  m.stages.insert(m.stages.end(), parts.rest.begin(), parts.rest.end());
  return m;
}

}  // namespace dampline::cli
