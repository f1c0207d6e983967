#include <algorithm>

#include <dampline/session/clock_time.hpp>
#include <dampline/session/section.hpp>
#include <dampline/session/utf8.hpp>
#include <dampline/session/wording.hpp>
#include <dampline/units/suggest.hpp>

// Texts, numbers, dates, clock times and words.
namespace dampline::session {
namespace {

constexpr std::size_t longest_text = 200;  // code points; names stand in columns

std::vector<std::string> strings(std::span<const std::string_view> words) {
  return {words.begin(), words.end()};
}

}  // namespace

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
  const auto found = clock_time_from(v->text);
  if (!found) {
    findings_->error(v->where, called(name) + ": " + quoted(v->text) + " is not a clock time",
                     "write hours and minutes in 24 hours, from \"00:00\" to \"24:00\": " +
                         example_line(name, k));
    return false;
  }
  to = *found;
  return true;
}

bool Section::word(std::string_view name, std::size_t& to) {
  const auto* v = value(name);
  if (v == nullptr) return false;
  const auto& k = key(name);
  const auto known = strings(k.words);
  if (v->kind != Kind::text) {
    return wrong_kind(name, *v, "use one of the words " + units::listed(known));
  }
  const auto it = std::find(known.begin(), known.end(), v->text);
  if (it == known.end()) {
    const auto near = units::nearest(v->text, known);
    findings_->error(v->where, called(name) + ": " + quoted(v->text) + " is not one of its words",
                     (near ? "did you mean " + quoted(*near) + "? The words are " : "use ") +
                         units::listed(known));
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
        "use " + units::listed(known));
    good = false;
  }
  return good;
}

}  // namespace dampline::session
