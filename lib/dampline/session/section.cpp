#include <algorithm>
#include <array>
#include <cmath>

#include <dampline/session/section.hpp>
#include <dampline/session/suggest.hpp>
#include <dampline/session/utf8.hpp>
#include <dampline/session/zone.hpp>
#include <dampline/units/text.hpp>

namespace dampline::session {
namespace {

constexpr std::size_t longest_text = 200;  // code points; names stand in columns

std::string quoted(std::string_view text) { return "\"" + std::string(text) + "\""; }

std::string unquoted(std::string_view text) {
  std::string out(text);
  std::erase(out, '"');
  return out;
}

// "grammage = \"300 g/m2\"", for help lines.
std::string example_line(std::string_view name, const Key& key) {
  return std::string(name) + " = " + std::string(key.example);
}

// Defaults as values, read once from the key table by the same reader as the file.
const Value* default_value(const Key& key) {
  static const auto all = [] {
    std::map<std::string_view, Value> values;
    for (const auto& k : keys()) {
      if (k.need != Need::fallback) continue;
      auto parsed = parse_document("x = " + std::string(k.fallback), "defaults");
      values.emplace(k.path, std::get<Value>(std::move(parsed)).members.at(0).value);
    }
    return values;
  }();
  const auto it = all.find(key.path);
  return it == all.end() ? nullptr : &it->second;
}

// Where the character at byte `column` of a text stands in the file.
Place inside_text(const Value& v, std::string_view file_text, std::size_t column) {
  Place place = v.where;
  auto line = file_text;
  for (int n = 1; n < place.line; ++n) line.remove_prefix(line.find('\n') + 1);
  line = line.substr(0, line.find('\n'));
  std::size_t byte = 0;
  for (int n = 1; n < place.column && byte < line.size(); ++n) {
    byte += std::max<std::size_t>(sequence_length(line, byte), 1);
  }
  // Only where the text stands as it is, on one line behind one quote.
  if (byte < line.size() && line.substr(byte + 1).starts_with(v.text)) {
    place.column += 1 + static_cast<int>(code_points(std::string_view(v.text).substr(0, column)));
  }
  return place;
}

std::string number_text(const Value& v) {
  return v.kind == Kind::whole ? std::to_string(v.whole) : units::shortest(v.number);
}

bool is_number(const Value& v) { return v.kind == Kind::whole || v.kind == Kind::number; }

// "300" for a key whose example is "300 g/m2": the number with that unit.
std::string with_unit(const Value& v, const Key& key) {
  const auto example = unquoted(key.example);
  const auto space = example.find_last_of("0123456789");
  return quoted(number_text(v) +
                example.substr(space + 1 == example.size()
                                   ? example.find(' ')
                                   : example.find(' ', example.find_first_of("0123456789"))));
}

std::vector<std::string> strings(std::span<const std::string_view> words) {
  return {words.begin(), words.end()};
}

double read_plain(std::string_view digits) {
  return std::get<Value>(parse_document("x = " + std::string(digits), "keys"))
      .members[0]
      .value.number;
}

}  // namespace

Section::Section(Findings& findings, const Value& top) : Section(findings, "", "", &top, Place{}) {}

Section::Section(Findings& findings, std::string path, std::string shown, const Value* table,
                 Place where, bool quiet)
    : findings_(&findings),
      path_(std::move(path)),
      shown_(std::move(shown)),
      table_(table),
      where_(where),
      quiet_(quiet) {
  refuse_unknown_keys();
}

void Section::refuse_unknown_keys() {
  if (table_ == nullptr) return;
  const auto known = names_inside(path_);
  for (const auto& m : table_->members) {
    if (std::find(known.begin(), known.end(), m.key) != known.end()) continue;
    const auto near = nearest(m.key, known);
    const auto place = shown_.empty() ? std::string("a session") : "[" + shown_ + "]";
    findings_->error(
        m.where, "unknown key " + quoted(m.key) + " in " + place,
        near ? "did you mean " + *near + "?" : "the keys here are " + listed(known, "", "and"));
  }
}

const Key& Section::key(std::string_view name) const {
  const auto path = path_.empty() ? std::string(name) : path_ + "." + std::string(name);
  const auto* found = find_key(path);
  if (found == nullptr) throw std::logic_error("no such key in the table: " + path);
  return *found;
}

const Value* Section::member(std::string_view name) const {
  if (table_ == nullptr) return nullptr;
  for (const auto& m : table_->members) {
    if (m.key == name) return &m.value;
  }
  return nullptr;
}

Place Section::where(std::string_view name) const {
  const auto* v = member(name);
  return v == nullptr ? where_ : v->where;
}

std::string Section::called(std::string_view name) const {
  return shown_.empty() ? std::string(name) : shown_ + "." + std::string(name);
}

void Section::note_default(std::string_view name, const std::string& value) {
  if (quiet_) return;
  findings_->defaults.push_back(called(name) + " = " + value);
}

const Value* Section::value(std::string_view name) {
  const auto& k = key(name);
  if (const auto* v = member(name)) return v;
  if (k.need == Need::required) {
    const bool block = k.form == Form::table || k.form == Form::tables;
    const auto header =
        k.form == Form::tables ? "[[" + called(name) + "]]" : "[" + called(name) + "]";
    findings_->error(
        where_,
        block ? header + " is missing: " + std::string(k.meaning) : called(name) + " is missing",
        block ? "add it; dampline new writes an example"
              : "add: " + example_line(name, k) + "  (" + std::string(k.meaning) + ")");
    return nullptr;
  }
  const auto* v = default_value(k);
  const bool list = k.form == Form::tables;
  if (v != nullptr) note_default(name, list ? std::string(k.fallback) : unquoted(k.fallback));
  return v;
}

bool Section::wrong_kind(std::string_view name, const Value& v, const std::string& help) {
  const auto& k = key(name);
  findings_->error(v.where,
                   called(name) + " is " + std::string(named(v.kind)) + "; it wants " + expected(k),
                   help.empty() ? "write: " + example_line(name, k) : help);
  return false;
}

bool Section::refuse(std::string_view name, const Value& v, const units::Refusal& refusal) {
  findings_->error(inside_text(v, findings_->text(), refusal.column),
                   called(name) + ": " + refusal.what, refusal.help);
  return false;
}

bool Section::text(std::string_view name, std::string& to) {
  const auto* v = value(name);
  if (v == nullptr) return false;
  if (v->kind != Kind::text) return wrong_kind(name, *v, "");
  const auto& k = key(name);
  if (v->text.find_first_not_of(" \t\r\n") == std::string::npos) {
    findings_->error(v->where, called(name) + " is empty", "write: " + example_line(name, k));
    return false;
  }
  if (code_points(v->text) > longest_text || without_controls(v->text) != v->text) {
    findings_->error(
        v->where, called(name) + " is longer than 200 characters or has control characters in it",
        "write a short text on one line, like " + example_line(name, k));
    return false;
  }
  to = v->text;
  return true;
}

bool Section::counted(std::string_view name, double& to, bool whole) {
  const auto* v = value(name);
  if (v == nullptr) return false;
  const auto& k = key(name);
  if (!is_number(*v) || (whole && v->kind != Kind::whole)) {
    return wrong_kind(name, *v, "write without quotes: " + example_line(name, k));
  }
  if (!(v->number >= read_plain(k.low) && v->number <= read_plain(k.high))) {
    const auto range = std::string(k.low) + " to " + std::string(k.high);
    findings_->error(
        v->where, called(name) + " is " + number_text(*v) + ", outside " + range,
        "give " + std::string(whole ? "a whole number" : "a number") + " from " + range);
    return false;
  }
  to = v->number;
  return true;
}

bool Section::whole(std::string_view name, int& to) {
  double found = 0;
  if (!counted(name, found, true)) return false;
  to = static_cast<int>(found);
  return true;
}

bool Section::number(std::string_view name, double& to) { return counted(name, to, false); }

bool Section::truth(std::string_view name, bool& to) {
  const auto* v = value(name);
  if (v == nullptr) return false;
  if (v->kind != Kind::truth) {
    return wrong_kind(name, *v, "write without quotes: " + std::string(name) + " = true, or false");
  }
  to = v->truth;
  return true;
}

bool Section::names(std::string_view name, std::vector<std::string>& to,
                    std::vector<Place>& places) {
  const auto* v = value(name);
  if (v == nullptr) return false;
  if (v->kind != Kind::list) return wrong_kind(name, *v, "");
  bool good = true;
  for (const auto& item : v->items) {
    if (item.kind != Kind::text) {
      good = wrong_kind(name, item, "");
      continue;
    }
    to.push_back(item.text);
    places.push_back(item.where);
  }
  return good;
}

bool Section::date(std::string_view name, std::chrono::year_month_day& to) {
  const auto* v = value(name);
  if (v == nullptr) return false;
  if (v->kind != Kind::date) {
    return wrong_kind(name, *v, "write year, month and day without quotes: date = 2026-03-14");
  }
  using std::chrono::year;
  if (v->date.year() < year(1970) || v->date.year() > year(2200)) {
    findings_->error(v->where, called(name) + " is outside the years 1970 to 2200",
                     "write year, month and day: date = 2026-03-14");
    return false;
  }
  to = v->date;
  return true;
}

namespace {

std::optional<ClockTime> read_clock(const std::string& text) {
  const auto colon = text.find(':');
  const bool shape = (colon == 1 || colon == 2) && text.size() == colon + 3;
  if (!shape) return std::nullopt;
  int hours = 0;
  int minutes = 0;
  for (std::size_t i = 0; i < text.size(); ++i) {
    if (i == colon) continue;
    if (text[i] < '0' || text[i] > '9') return std::nullopt;
    int& part = i < colon ? hours : minutes;
    part = part * 10 + (text[i] - '0');
  }
  const bool in_a_day = minutes < 60 && (hours < 24 || (hours == 24 && minutes == 0));
  if (!in_a_day) return std::nullopt;
  return std::chrono::hours(hours) + std::chrono::minutes(minutes);
}

}  // namespace

bool Section::clock(std::string_view name, ClockTime& to) {
  const auto* v = value(name);
  if (v == nullptr) return false;
  const auto& k = key(name);
  if (v->kind == Kind::time) {
    to = std::chrono::floor<std::chrono::minutes>(v->time);
    if (to == v->time) return true;
    findings_->error(v->where, called(name) + " has seconds in it",
                     "write hours and minutes: " + example_line(name, k));
    return false;
  }
  if (v->kind != Kind::text) return wrong_kind(name, *v, "");
  const auto found = read_clock(v->text);
  if (!found) {
    findings_->error(v->where, called(name) + ": " + quoted(v->text) + " is not a clock time",
                     "write hours and minutes in 24 hours, from \"00:00\" to \"24:00\": " +
                         example_line(name, k));
    return false;
  }
  to = *found;
  return true;
}

template <class Quantity, class Parse, class InSi>
bool Section::measured(std::string_view name, Quantity& to, Parse parse, InSi within) {
  const auto* v = value(name);
  if (v == nullptr) return false;
  const auto& k = key(name);
  if (is_number(*v)) {
    const auto wants = expected(k);
    const auto noun = wants.substr(0, wants.find(" with"));
    const auto fix = k.form == Form::size ? std::string(k.example) : with_unit(*v, k);
    findings_->error(v->where,
                     called(name) + ": bare number for " + noun.substr(0, noun.find(" in quotes")),
                     "write a unit: " + std::string(name) + " = " + fix);
    return false;
  }
  if (v->kind != Kind::text) return wrong_kind(name, *v, "");
  const auto parsed = parse(v->text);
  if (!units::ok(parsed)) return refuse(name, *v, std::get<units::Refusal>(parsed));
  const auto& found = std::get<Quantity>(parsed);
  if (!within(found, k)) {
    const auto range = std::string(k.low) + " to " + std::string(k.high);
    findings_->error(v->where, called(name) + " is " + v->text + ", outside " + range,
                     "give a value from " + range + ", like " + std::string(k.example));
    return false;
  }
  to = found;
  return true;
}

namespace {

template <class Quantity, class Parse>
auto within_range(Parse parse) {
  return [parse](const Quantity& q, const Key& k) {
    // The bounds and the value come through the same reader, so equal texts are equal numbers.
    const auto low = std::get<Quantity>(parse(k.low));
    const auto high = std::get<Quantity>(parse(k.high));
    return low <= q && q <= high;
  };
}

}  // namespace

bool Section::quantity(std::string_view name, units::Length& to) {
  return measured(name, to, units::parse_length, within_range<units::Length>(units::parse_length));
}

bool Section::quantity(std::string_view name, units::Size& to) {
  const auto within = [](const units::Size& s, const Key& k) {
    const auto in_range = within_range<units::Length>(units::parse_length);
    return in_range(s.width, k) && in_range(s.height, k);
  };
  return measured(name, to, units::parse_size, within);
}

bool Section::quantity(std::string_view name, units::Duration& to) {
  return measured(name, to, units::parse_duration,
                  within_range<units::Duration>(units::parse_duration));
}

bool Section::quantity(std::string_view name, units::Temperature& to) {
  return measured(name, to, units::parse_temperature,
                  within_range<units::Temperature>(units::parse_temperature));
}

bool Section::quantity(std::string_view name, units::RelativeHumidity& to) {
  return measured(name, to, units::parse_humidity,
                  within_range<units::RelativeHumidity>(units::parse_humidity));
}

bool Section::quantity(std::string_view name, units::Grammage& to) {
  return measured(name, to, units::parse_grammage,
                  within_range<units::Grammage>(units::parse_grammage));
}

bool Section::word(std::string_view name, std::size_t& to) {
  const auto* v = value(name);
  if (v == nullptr) return false;
  const auto& k = key(name);
  const auto known = strings(k.words);
  if (v->kind != Kind::text) {
    return wrong_kind(name, *v, "use one of the words " + listed(known));
  }
  const auto it = std::find(known.begin(), known.end(), v->text);
  if (it == known.end()) {
    const auto near = nearest(v->text, known);
    findings_->error(
        v->where, called(name) + ": " + quoted(v->text) + " is not one of its words",
        (near ? "did you mean " + quoted(*near) + "? The words are " : "use ") + listed(known));
    return false;
  }
  to = static_cast<std::size_t>(it - known.begin());
  return true;
}

bool Section::words(std::string_view name, std::vector<std::size_t>& to) {
  const auto* v = value(name);
  if (v == nullptr) return false;
  const auto& k = key(name);
  const auto known = strings(k.words);
  if (v->kind != Kind::list || v->items.empty()) {
    return wrong_kind(name, *v, "write a list, like " + example_line(name, k));
  }
  bool good = true;
  for (const auto& item : v->items) {
    const auto it =
        item.kind == Kind::text ? std::find(known.begin(), known.end(), item.text) : known.end();
    if (it != known.end()) {
      to.push_back(static_cast<std::size_t>(it - known.begin()));
      continue;
    }
    findings_->error(
        item.where,
        called(name) + ": " +
            (item.kind == Kind::text ? quoted(item.text) : std::string(named(item.kind))) +
            " is not one of its words",
        "use " + listed(known));
    good = false;
  }
  return good;
}

bool Section::durations(std::string_view name, std::map<std::string, units::Duration>& to,
                        std::map<std::string, Place>& places) {
  const auto* v = value(name);
  if (v == nullptr) return false;
  if (v->kind != Kind::table) return wrong_kind(name, *v, "");
  const auto& k = key(name);
  bool good = true;
  for (const auto& m : v->members) {
    const auto shown = called(name) + "." + m.key;
    const auto help = "write a duration with its unit: " + m.key + " = \"14 min\"";
    if (m.value.kind != Kind::text) {
      findings_->error(m.value.where,
                       is_number(m.value) ? shown + ": bare number for a duration"
                                          : shown + " is " + std::string(named(m.value.kind)) +
                                                "; it wants a duration with its unit in quotes",
                       is_number(m.value) ? "write a unit: " + m.key + " = " +
                                                quoted(number_text(m.value) + " min")
                                          : help);
      good = false;
      continue;
    }
    const auto parsed = units::parse_duration(m.value.text);
    if (!units::ok(parsed)) {
      const auto& refusal = std::get<units::Refusal>(parsed);
      findings_->error(inside_text(m.value, findings_->text(), refusal.column),
                       shown + ": " + refusal.what, refusal.help);
      good = false;
    } else if (!within_range<units::Duration>(units::parse_duration)(
                   std::get<units::Duration>(parsed), k)) {
      const auto range = std::string(k.low) + " to " + std::string(k.high);
      findings_->error(m.value.where, shown + " is " + m.value.text + ", outside " + range,
                       "give a duration from " + range);
      good = false;
    } else {
      to[m.key] = std::get<units::Duration>(parsed);
      places[m.key] = m.where;
    }
  }
  return good;
}

Section Section::inside(std::string_view name) {
  const auto& k = key(name);
  const auto path = path_.empty() ? std::string(name) : path_ + "." + std::string(name);
  const auto* v = member(name);
  if (v == nullptr && k.need == Need::required) static_cast<void>(value(name));  // notes it
  if (v != nullptr && v->kind != Kind::table) {
    wrong_kind(name, *v, "write the name in brackets alone on a line: [" + called(name) + "]");
    v = nullptr;
  }
  return {*findings_, path, called(name), v, v == nullptr ? where_ : v->where};
}

std::vector<Section> Section::each(std::string_view name) {
  const auto& k = key(name);
  const auto path = (path_.empty() ? std::string(name) : path_ + "." + std::string(name)) + "[]";
  const auto* v = value(name);
  std::vector<Section> out;
  if (v == nullptr) return out;
  if (v->kind == Kind::table) {
    wrong_kind(name, *v, "write [[" + called(name) + "]] with double brackets for each");
    return out;
  }
  if (v->kind != Kind::list) {
    wrong_kind(name, *v, k.example.empty() ? "write [[" + called(name) + "]] for each" : "");
    return out;
  }
  const auto most = read_plain(k.high);
  if (static_cast<double>(v->items.size()) > most ||
      (v->items.empty() && k.need != Need::optional)) {
    findings_->error(v->where,
                     called(name) + " has " + std::to_string(v->items.size()) + ", outside 1 to " +
                         std::string(k.high),
                     "give from 1 to " + std::string(k.high) + " of them");
    return out;
  }
  int n = 0;
  for (const auto& item : v->items) {
    const auto shown = called(name) + "[" + std::to_string(++n) + "]";
    if (item.kind != Kind::table) {
      findings_->error(item.where,
                       shown + " is " + std::string(named(item.kind)) + "; it wants a table",
                       k.example.empty() ? "write [[" + called(name) + "]] for each"
                                         : "write: " + example_line(name, k));
      continue;
    }
    const bool given = has(name);
    out.push_back(Section(*findings_, path, shown, &item, given ? item.where : where_, !given));
  }
  return out;
}

}  // namespace dampline::session
