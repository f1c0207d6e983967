#include <algorithm>

#include <dampline/method/book.hpp>
#include <dampline/method/document.hpp>

namespace dampline::method {

namespace {

using document::Faults;
using document::Keys;
using document::Node;

constexpr std::size_t most_stages = 64;
constexpr std::size_t most_methods = 500;
constexpr double longest_days = 90;

constexpr std::array<std::pair<std::string_view, material::Sizing>, sizings> by_size{{
    {"waterleaf", material::Sizing::waterleaf},
    {"soft", material::Sizing::soft},
    {"internal", material::Sizing::internal},
    {"hard", material::Sizing::hard},
    {"tub", material::Sizing::tub},
}};

class Reader {
 public:
  Reader(std::string_view text, std::string_view file) : faults_(text, file) {}

  std::variant<Book, material::CatalogueErrors> run(std::string_view text, std::string_view file) {
    if (const auto root = document::parse(text, file, faults_)) whole(*root);
    if (faults_.none()) return std::move(book_);
    return faults_.in_file_order();
  }

 private:
  void whole(const Node& root) {
    Keys keys(root, faults_);
    for_each(keys, "method", "[[method]]", most_methods, [&](const Node& t) { method(t); });
    keys.refuse_the_rest();
    if (faults_.none() && book_.methods.empty()) {
      faults_.add({}, "no [[method]] in the file", "add one, with a name, a purpose and stages");
    }
  }

  template <class Function>
  void for_each(Keys& keys, std::string_view key, const char* head, std::size_t most, Function f) {
    const Node* node = keys.find(key);
    if (node == nullptr) return;
    const auto table = [](const Node& one) { return one.kind == Node::Kind::table; };
    if (node->kind != Node::Kind::list ||
        !std::all_of(node->items.begin(), node->items.end(), table)) {
      keys.fault(key, std::string(key) + " is not a list of tables",
                 "head each with " + std::string(head));
      return;
    }
    if (node->items.size() > most) {
      keys.fault(key, "more than " + std::to_string(most) + " of " + std::string(key),
                 "split them up");
      return;
    }
    for (const Node& one : node->items) f(one);
  }

  void method(const Node& t) {
    Keys keys(t, faults_);
    Method m;
    m.name = keys.text("name", true);
    m.also = keys.texts("also");
    m.remark = keys.text("remark", false);
    m.basis = keys.text("basis", false);
    m.purpose =
        keys.word<Purpose>("purpose", {{"damping", Purpose::damping}, {"drying", Purpose::drying}})
            .value_or(Purpose::damping);
    for_each(keys, "stage", "[[method.stage]]", most_stages,
             [&](const Node& one) { stage(one, m); });
    keys.refuse_the_rest();
    if (keys.find("stage") == nullptr) {
      faults_.add(keys.place(), "a method without stages",
                  "add a [[method.stage]] with as = \"tub\" and for = \"30 min\"");
    }
    if (!m.name.empty() && find_method(book_, m.name) != nullptr) {
      keys.fault("name", "a second method named \"" + m.name + "\"", "give it a name of its own");
    }
    book_.methods.push_back(std::move(m));
  }

  void stage(const Node& t, Method& m) {
    Keys keys(t, faults_);
    StageRule rule;
    Stage& s = rule.stage;
    rule.basis = keys.text("basis", false);
    if (rule.basis.empty()) rule.basis = m.basis;
    arranged(keys, s);
    timed(keys, rule);
    watered(keys, s);
    absorbing(keys, s);
    covered(keys, s);
    s.air = keys.word<air::AirMovement>("air", {{"still", air::AirMovement::still},
                                                {"ordinary", air::AirMovement::ordinary},
                                                {"fan", air::AirMovement::fan}});
    s.contact = keys.word<stack::Contact>("contact", {{"laid", stack::Contact::laid},
                                                      {"boards", stack::Contact::boards},
                                                      {"hand", stack::Contact::hand},
                                                      {"roller", stack::Contact::roller},
                                                      {"nip", stack::Contact::nip}});
    s.hands = keys.truth("hands");
    s.name = keys.text("name", false);
    if (s.name.empty()) s.name = word(s.arrangement);
    keys.refuse_the_rest();
    m.stages.push_back(std::move(rule));
  }

  void arranged(Keys& keys, Stage& s) {
    const std::string as = keys.text("as", false);
    const auto stack = keys.parsed<Layout>("stack", parse_layout);
    if (!as.empty() && keys.has("stack")) {
      keys.fault("stack", "a stage has as or stack, not both", "leave one of them out");
    } else if (!as.empty()) {
      if (const auto a = arrangement_from(as); a && *a != Arrangement::pack) {
        s.arrangement = *a;
      } else {
        keys.fault("as", "unknown arrangement \"" + as + "\"",
                   "one of: tub, film, drain, blot, towel, covered, bench, hang, rack, boards, "
                   "press, dip, line, taped, forced, pile; or write stack = \"air / sheet / "
                   "table\"");
      }
    } else if (keys.has("stack")) {
      s.arrangement = Arrangement::own;
      s.stack = stack;
    } else {
      faults_.add(keys.place(), "a stage without as and without stack",
                  "add as = \"covered\" or stack = \"plastic / sheet / plastic\"");
    }
  }

  // A time; refused beyond what a stage may last.
  std::optional<units::Duration> time(Keys& keys, std::string_view key,
                                      const std::optional<units::Duration>& t) {
    if (t && !(units::in_hours(*t) <= 24 * longest_days)) {
      keys.fault(key, std::string(key) + " is longer than 90 days", "write a shorter time");
      return std::nullopt;
    }
    return t;
  }

  void timed(Keys& keys, StageRule& rule) {
    rule.stage.until = keys.parsed<Until>("until", parse_until);
    const bool until = keys.has("until");
    const char* key = until ? "most" : "for";
    const Node* node = keys.find(key);
    if (keys.has(until ? "for" : "most")) {
      keys.fault(
          until ? "for" : "most",
          until ? "a stage lasts for a time or until something, not both" : "most belongs to until",
          until ? "write most = \"2 h\" in place of for" : "write for = \"2 h\"");
      return;
    }
    if (node == nullptr) {
      faults_.add(keys.place(), std::string("a stage without ") + key,
                  until ? "say how long it may take: most = \"2 h\""
                        : "add for = \"30 min\", or until = \"even\" with most = \"2 h\"");
      return;
    }
    if (node->kind == Node::Kind::table) {
      Keys each(*node, faults_);
      for (const auto& [name, sizing] : by_size) {
        const auto t = time(each, name, each.parsed<units::Duration>(name, units::parse_duration));
        if (!each.has(name)) {
          faults_.add(each.place(), std::string(key) + " has no time for " + std::string(name),
                      "give one for waterleaf, soft, internal, hard and tub");
        }
        rule.duration.at(static_cast<std::size_t>(sizing)) = t.value_or(units::Duration{});
      }
      each.refuse_the_rest();
    } else {
      const auto t = time(keys, key, keys.parsed<units::Duration>(key, units::parse_duration));
      rule.duration.fill(t.value_or(units::Duration{}));
    }
    rule.stage.duration = rule.duration.at(static_cast<std::size_t>(material::Sizing::internal));
  }

  void watered(Keys& keys, Stage& s) {
    const auto water = keys.parsed<units::Temperature>("water", units::parse_temperature);
    if (water) {
      s.water = *water;
      if (!(units::in_celsius(*water) >= 0 && units::in_celsius(*water) <= 60)) {
        keys.fault("water", "water is outside 0 to 60 degC", "write water = \"18 degC\"");
      }
    }
    const auto faces = keys.whole("faces", 1, 2);
    s.film_faces = faces.value_or(2);
    const std::string lay = keys.text("lay", false);
    if (lay.empty()) {
      if (s.arrangement == Arrangement::film && !keys.has("lay")) {
        faults_.add(keys.place(), "a film without water to lay on",
                    "add lay = \"100 g/m2\", lay = \"33 %\" of the sheet or lay = \"wet, not "
                    "dripping\"");
      }
      return;
    }
    if (lay == "wet, not dripping") {
      s.film = static_cast<double>(s.film_faces) * wet_not_dripping();
    } else if (lay.find("m2") != std::string::npos || lay.find("gsm") != std::string::npos) {
      s.film = keys.taken("lay", units::parse_grammage(lay)).value_or(units::Grammage{});
    } else {
      s.film_share = keys.taken("lay", units::parse_moisture(lay)).value_or(units::Moisture{});
    }
    if (s.film > units::grams_per_m2(2000) || s.film_share > units::Moisture(3)) {
      keys.fault("lay", "more water than a sheet can carry",
                 "at most 2000 g/m2, or 300 % of the sheet");
    }
  }

  void absorbing(Keys& keys, Stage& s) {
    s.passes = keys.whole("passes", 1, 1000).value_or(1);
    for (const auto& text : keys.texts("fresh_at")) {
      const auto t = keys.taken("fresh_at", units::parse_duration(text));
      if (const auto good = time(keys, "fresh_at", t)) s.changes.push_back(*good);
    }
    if (!std::is_sorted(s.changes.begin(), s.changes.end())) {
      keys.fault("fresh_at", "the times of fresh_at do not rise", "put them in order");
    }
    const auto every = time(keys, "fresh_every",
                            keys.parsed<units::Duration>("fresh_every", units::parse_duration));
    s.change_every = every.value_or(units::Duration{});
    if (every && units::in_minutes(*every) < 1) {
      keys.fault("fresh_every", "fresh_every is under a minute", "use passes for quick blotting");
    }
    const auto absorbent = keys.parsed<units::Moisture>("absorbent", units::parse_moisture);
    if (absorbent) s.absorbent = *absorbent;
  }

  void covered(Keys& keys, Stage& s) {
    s.pile = keys.whole("pile", 1, 1000).value_or(s.pile);
    const auto film = keys.parsed<units::Length>("film", units::parse_length);
    if (film) s.cover.film = *film;
    if (film && !(*film >= units::micrometres(5) && *film <= units::millimetres(1))) {
      keys.fault("film", "film is outside 5 um to 1 mm", "write film = \"50 um\"");
    }
    s.cover.closed = keys.word<Closed>("closed", {{"tucked", Closed::tucked},
                                                  {"draped", Closed::draped},
                                                  {"loose", Closed::loose}})
                         .value_or(Closed::draped);
  }

  Faults faults_;
  Book book_;
};

}  // namespace

std::variant<Book, material::CatalogueErrors> read_methods(std::string_view text,
                                                           std::string_view file) {
  return Reader(text, file).run(text, file);
}

}  // namespace dampline::method
