#include <algorithm>

#include <dampline/planner/look_up.hpp>
#include <dampline/planner/people.hpp>
#include <dampline/planner/today.hpp>
#include <dampline/units/suggest.hpp>
#include <dampline/units/text.hpp>

namespace dampline::planner {
namespace {

using session::InputErrors;
using session::Place;
using session::Session;

class LookUp {
 public:
  LookUp(const Session& s, const Knowledge& k) : s_(s), k_(k) {}

  std::variant<Subject, InputErrors> all() {
    paper();
    method();
    for (const auto& plate : s_.plates) names_of(plate);
    if (subject_.bands.size() == s_.plates.size()) common_damp();
    hands();
    if (!errors_.empty()) {
      std::stable_sort(errors_.begin(), errors_.end(), [](const auto& a, const auto& b) {
        return a.where.line != b.where.line ? a.where.line < b.where.line
                                            : a.where.column < b.where.column;
      });
      return std::move(errors_);
    }
    return std::move(subject_);
  }

 private:
  void error(Place where, std::string what, std::string help) {
    errors_.push_back(session::at(s_.file, s_.text, where, std::move(what), std::move(help)));
  }

  static std::string meant(const std::string& word, const std::vector<std::string>& known,
                           const std::string& where) {
    const auto near = units::nearest(word, known);
    return (near ? "did you mean \"" + *near + "\"? " : std::string()) + "The known ones are " +
           units::listed(known) + where;
  }

  void paper() {
    material::Description d;
    const auto& p = s_.paper;
    if (!p.stock.empty()) {
      d.base = material::find_stock(k_.catalogue, p.stock);
      if (d.base == nullptr) return unknown_stock();
    }
    d.grammage = p.grammage;
    d.thickness = p.thickness;
    d.cobb60 = p.cobb;
    if (p.furnish) d.furnish = material::furnish_from(*p.furnish);
    if (p.making) d.making = material::making_from(*p.making);
    if (p.sizing) d.sizing = material::sizing_from(*p.sizing);
    auto described = material::describe(k_.catalogue, d);
    if (const auto* wrong = std::get_if<material::DescriptionError>(&described)) {
      return error(p.where, wrong->what, wrong->help);
    }
    auto& good = std::get<material::Described>(described);
    subject_.stock = std::move(good.stock);
    for (const auto& used : good.defaults_used) subject_.defaults_used.push_back("paper: " + used);
    if (subject_.stock.kind != material::Kind::paper &&
        subject_.stock.kind != material::Kind::tissue) {
      error(p.where_stock, "\"" + p.stock + "\" is not a paper to print on",
            "name a paper that `dampline papers` lists");
    }
  }

  void unknown_stock() {
    const auto& name = s_.paper.stock;
    const auto near = material::similar_names(k_.catalogue, name);
    error(s_.paper.where_stock, "no paper \"" + name + "\" is known",
          (near.empty() ? std::string() : "did you mean " + units::listed(near) + "? ") +
              "`dampline papers` lists them; or leave stock out and give grammage = \"300 g/m2\"");
  }

  // Four words leave the amounts to be worked out; a method of the book is done as it is written.
  void method() {
    static const std::vector<std::string> words{"soak", "sponge", "mist", "pack"};
    const auto& word = s_.damping.method;
    if (word.empty() || std::find(words.begin(), words.end(), word) != words.end()) return;
    const auto* found = method::find_method(k_.methods, word);
    if (found == nullptr) {
      const auto near = method::similar_methods(k_.methods, word);
      return error(s_.damping.where_method, "no method \"" + word + "\" is known",
                   (near.empty() ? std::string() : "did you mean " + units::listed(near) + "? ") +
                       "write soak, sponge, mist or pack, or a method of methods.toml "
                       "(docs/methods.md)");
    }
    if (found->purpose != method::Purpose::damping) {
      return error(s_.damping.where_method, "\"" + word + "\" is a way of drying, not of damping",
                   "write soak, sponge, mist or pack, or a damping method of methods.toml");
    }
    const auto stages = method::stages_for(*found, subject_.stock);
    if (method::any_in_tub(stages) && !s_.equipment.tub) {
      return error(s_.damping.where_method, "\"" + word + "\" needs a tub and there is none",
                   "add tub = { sheets = 8, water = \"18 degC\" } under [equipment]");
    }
    subject_.own = found;
  }

  // All the paper of a day is damped in one way.
  void common_damp() {
    for (std::size_t i = 1; i < subject_.bands.size(); ++i) {
      for (std::size_t k = 0; k < i; ++k) {
        if (!is_today(s_, s_.plates[i].name) || !is_today(s_, s_.plates[k].name)) continue;
        const auto& a = subject_.bands[k];
        const auto& b = subject_.bands[i];
        if (std::max(a.low.value, b.low.value) < std::min(a.high.value, b.high.value)) continue;
        return error(s_.plates[i].where_process,
                     "no damp suits both " + a.process + " (" + band_text(a) + ") and " +
                         b.process + " (" + band_text(b) +
                         "), and a day damps its paper in one way",
                     "plan each in a session of its own");
      }
    }
  }

  static std::string band_text(const readiness::Band& band) {
    return units::text(band.low.value) + " to " + units::text(band.high.value);
  }

  void names_of(const session::Plate& plate) {
    process_of(plate);
    extras_of(plate);
    if (!k_.craft.open_time.contains(plate.ink)) {
      std::vector<std::string> inks;
      for (const auto& [name, time] : k_.craft.open_time) inks.push_back(name);
      error(plate.where_ink, "no ink \"" + plate.ink + "\" is known", meant(plate.ink, inks, ""));
    }
    for (const auto& [step, time] : plate.times) {
      if (k_.craft.steps.contains(step)) continue;
      std::vector<std::string> steps;
      for (const auto& [name, kind] : k_.craft.steps) steps.push_back(name);
      const auto where = plate.where_times.find(step);
      error(where == plate.where_times.end() ? plate.where : where->second,
            "no step \"" + step + "\" is known", meant(step, steps, ""));
    }
  }

  void extras_of(const session::Plate& plate) {
    std::vector<std::string> known;
    for (const auto& [name, extra] : k_.craft.extras) known.push_back(name);
    for (std::size_t i = 0; i < plate.extras.size(); ++i) {
      if (k_.craft.extras.contains(plate.extras[i])) continue;
      error(plate.where_extras[i], "no extra \"" + plate.extras[i] + "\" is known",
            meant(plate.extras[i], known, ""));
    }
  }

  void process_of(const session::Plate& plate) {
    if (const auto* band = readiness::find_band(k_.processes, plate.process)) {
      const bool water =
          plate.ink.starts_with("water") || plate.ink.find("water-based") != std::string::npos;
      subject_.bands.push_back(water ? readiness::with_water_ink(*band, k_.processes) : *band);
      return;
    }
    std::vector<std::string> known;
    for (const auto& band : k_.processes.bands) known.push_back(band.process);
    error(plate.where_process, "no process \"" + plate.process + "\" is known",
          meant(plate.process, known, ""));
  }

  void hands() {
    if (paper_hands(s_).empty()) {
      error({}, "nobody is down for clean hands",
            "give somebody does = [\"paper\"], or both [\"ink\", \"paper\"]");
    }
    if (inky_hands(s_).empty()) {
      error({}, "nobody is down for ink", "give somebody does = [\"ink\"], or both");
    }
  }

  const Session& s_;
  const Knowledge& k_;
  Subject subject_;
  InputErrors errors_;
};

}  // namespace

std::variant<Subject, InputErrors> look_up(const Session& session, const Knowledge& knowledge) {
  return LookUp(session, knowledge).all();
}

}  // namespace dampline::planner
