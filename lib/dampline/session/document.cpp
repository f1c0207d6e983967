#include <algorithm>

#include <toml++/toml.h>

#include <dampline/session/document.hpp>
#include <dampline/session/syntax_help.hpp>
#include <dampline/session/utf8.hpp>

namespace dampline::session {
namespace {

constexpr std::ptrdiff_t most_full_stops = 10000;
constexpr int deepest = 8;  // tables in tables; a session needs four

Place place_of(const toml::source_region& r) {
  return {static_cast<int>(r.begin.line), static_cast<int>(r.begin.column)};
}

struct TooDeep {
  Place where;
};

std::chrono::year_month_day date_from(const toml::date& d) {
  return std::chrono::year(d.year) / std::chrono::month(d.month) / std::chrono::day(d.day);
}

std::chrono::seconds time_from(const toml::time& t) {
  return std::chrono::hours(t.hour) + std::chrono::minutes(t.minute) +
         std::chrono::seconds(t.second);
}

Value converted(const toml::node& node, int depth) {
  Value v;
  v.where = place_of(node.source());
  if (depth > deepest) throw TooDeep{v.where};
  if (const auto* table = node.as_table()) {
    v.kind = Kind::table;
    for (const auto& [key, child] : *table) {
      v.members.push_back(
          {std::string(key.str()), place_of(key.source()), converted(child, depth + 1)});
    }
    // The library keeps keys sorted by name.
    std::stable_sort(v.members.begin(), v.members.end(), [](const Member& a, const Member& b) {
      return std::pair(a.where.line, a.where.column) < std::pair(b.where.line, b.where.column);
    });
  } else if (const auto* list = node.as_array()) {
    v.kind = Kind::list;
    for (const auto& item : *list) v.items.push_back(converted(item, depth + 1));
  } else if (const auto* text = node.as_string()) {
    v.kind = Kind::text;
    v.text = text->get();
  } else if (const auto* whole = node.as_integer()) {
    v.kind = Kind::whole;
    v.whole = whole->get();
    v.number = static_cast<double>(v.whole);
  } else if (const auto* number = node.as_floating_point()) {
    v.kind = Kind::number;
    v.number = number->get();
  } else if (const auto* truth = node.as_boolean()) {
    v.kind = Kind::truth;
    v.truth = truth->get();
  } else if (const auto* date = node.as_date()) {
    v.kind = Kind::date;
    v.date = date_from(date->get());
  } else if (const auto* time = node.as_time()) {
    v.kind = Kind::time;
    v.time = time_from(time->get());
  } else if (const auto* both = node.as_date_time()) {
    v.kind = Kind::date_time;
    v.date = date_from(both->get().date);
    v.time = time_from(both->get().time);
    if (both->get().offset) v.offset = std::chrono::minutes(both->get().offset->minutes);
  }
  return v;
}

InputError unreadable(InputError e) {
  e.unreadable = true;
  return e;
}

InputError not_utf8(std::string_view text, std::string_view file, std::size_t byte) {
  const auto before = text.substr(0, byte);
  const auto line_start = before.find_last_of('\n') + 1;  // npos + 1 is 0
  const Place where{static_cast<int>(std::count(before.begin(), before.end(), '\n')) + 1,
                    static_cast<int>(code_points(before.substr(line_start))) + 1};
  return at(file, text, where, "this character is not UTF-8 text",
            "save the file as UTF-8 (not Latin-1 or Windows-1252), or type the character anew");
}

}  // namespace

std::string_view named(Kind kind) {
  switch (kind) {
    case Kind::text:
      return "text";
    case Kind::whole:
      return "a whole number";
    case Kind::number:
      return "a number";
    case Kind::truth:
      return "true or false";
    case Kind::date:
      return "a date";
    case Kind::time:
      return "a clock time";
    case Kind::date_time:
      return "a date with a time";
    case Kind::list:
      return "a list";
    case Kind::table:
      break;
  }
  return "a table";
}

std::variant<Value, InputError> parse_document(std::string_view text, std::string_view file) {
  if (text.size() > largest_session) {
    return unreadable(at(file, text, {}, "larger than 256 KiB, which no session is",
                         "is it the right file? dampline new shows what a session looks like"));
  }
  if (const auto bad = first_bad_byte(text); bad != std::string_view::npos) {
    return unreadable(not_utf8(text, file, bad));
  }
  if (std::count(text.begin(), text.end(), '.') > most_full_stops) {
    return unreadable(at(file, text, {}, "more than 10,000 full stops, which no session has",
                         "is it the right file? dampline new shows what a session looks like"));
  }
  if (text.starts_with("\xEF\xBB\xBF")) text.remove_prefix(3);
  try {
    return converted(toml::parse(text, file), 0);
  } catch (const toml::parse_error& e) {
    return unreadable(syntax_error(file, text, place_of(e.source()), e.description()));
  } catch (const TooDeep& e) {
    return unreadable(at(file, text, e.where, "tables nested deeper than any session needs",
                         "dampline new shows what a session looks like"));
  }
}

}  // namespace dampline::session
