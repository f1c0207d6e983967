#include <algorithm>
#include <string>

#include <dampline/session/syntax_help.hpp>
#include <dampline/session/utf8.hpp>

namespace dampline::session {
namespace {

std::string_view trimmed(std::string_view s) {
  const auto begin = s.find_first_not_of(" \t\r");
  if (begin == std::string_view::npos) return "";
  return s.substr(begin, s.find_last_not_of(" \t\r") - begin + 1);
}

bool contains(std::string_view text, std::string_view part) {
  return text.find(part) != std::string_view::npos;
}

bool digit(char c) { return c >= '0' && c <= '9'; }

bool letter(char c) { return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z'); }

std::string_view line_at(std::string_view text, int number) {
  for (int n = 1; n < number; ++n) {
    const auto end = text.find('\n');
    if (end == std::string_view::npos) return "";
    text.remove_prefix(end + 1);
  }
  return text.substr(0, text.find('\n'));
}

// A line "key = value" apart, the comment off the value where no quotes are in the way.
struct Assignment {
  std::string_view key;
  std::string_view value;
  int value_column = 0;  // from 1; 0: not an assignment
};

Assignment assignment(std::string_view line) {
  const auto equals = line.find('=');
  if (equals == std::string_view::npos) return {};
  auto rest = line.substr(equals + 1);
  if (!contains(rest, "\"") && !contains(rest, "'")) rest = rest.substr(0, rest.find('#'));
  const auto value = trimmed(rest);
  const auto column =
      value.empty()
          ? code_points(line.substr(0, equals)) + 2
          : code_points(line.substr(0, static_cast<std::size_t>(value.data() - line.data()))) + 1;
  return {trimmed(line.substr(0, equals)), value, static_cast<int>(column)};
}

struct Remedy {
  Place where;
  std::string what;
  std::string help;
};

bool is_clock_time(std::string_view v) {
  const auto colon = v.find(':');
  return colon != std::string_view::npos && colon > 0 && colon <= 2 &&
         std::all_of(v.begin(), v.begin() + static_cast<std::ptrdiff_t>(colon), digit);
}

bool is_date(std::string_view v) {
  return std::count(v.begin(), v.end(), '-') >= 2 && !v.empty() && digit(v.front());
}

// A curly quotation mark, as word processors make them.
bool curly(std::string_view v) {
  return contains(v, "\u201c") || contains(v, "\u201d") || contains(v, "\u201e") ||
         contains(v, "\u2018") || contains(v, "\u2019");
}

Remedy unquoted(const Assignment& a, Place where) {
  const std::string key(a.key);
  std::string value(a.value);
  where.column = a.value_column;
  if (is_clock_time(value)) {
    return {where, "a clock time without quotes",
            "write it in quotes: " + key + " = \"" + value + "\""};
  }
  if (is_date(value)) {
    return {where, "this is not a date there is",
            "write year, month and day, with two digits for month and day: 2026-03-14"};
  }
  std::string lower = value;
  for (char& c : lower) {
    if (c >= 'A' && c <= 'Z') c = static_cast<char>(c - 'A' + 'a');
  }
  if (lower == "yes" || lower == "true" || lower == "on") {
    return {where, "\"" + value + "\" is not a value", "write: " + key + " = true"};
  }
  if (lower == "no" || lower == "false" || lower == "off") {
    return {where, "\"" + value + "\" is not a value", "write: " + key + " = false"};
  }
  const auto comma = value.find(',');
  if (comma != std::string::npos && comma > 0 && comma + 1 < value.size() &&
      digit(value[comma - 1]) && digit(value[comma + 1])) {
    value[comma] = '.';
    return {where, "a comma in a number",
            "write the decimals after a point, and the whole in quotes: " + key + " = \"" + value +
                "\""};
  }
  const bool quantity = digit(value.front()) || value.front() == '-' || value.front() == '+';
  return {where, quantity ? "a quantity without quotes" : "text without quotes",
          "write it in quotes: " + key + " = \"" + value + "\""};
}

Remedy remedy(std::string_view text, Place where, std::string_view said) {
  const auto line = line_at(text, where.line);
  const auto a = assignment(line);
  if (curly(line) && !contains(said, "redefine")) {
    const auto mark = line.find("\u201c") != std::string_view::npos
                          ? line.find("\u201c")
                          : std::min({line.find("\u201d"), line.find("\u201e"), line.find("\u2018"),
                                      line.find("\u2019")});
    return {{where.line, static_cast<int>(code_points(line.substr(0, mark))) + 1},
            "a curly quotation mark",
            "use straight quotes \"...\"; a plain text editor types them"};
  }
  if (contains(said, "redefine")) {
    const bool header = trimmed(line).starts_with('[');
    const auto name = header ? std::string(trimmed(line)) : std::string(a.key);
    where.column = static_cast<int>(line.find_first_not_of(" \t")) + 1;
    return {where, name + " stands here for the second time",
            header ? "keep one, or write [[plates]] with double brackets for each of several"
                   : "keep one of the two lines"};
  }
  if (contains(said, "string")) {
    if (contains(said, "escape sequence")) {
      return {where, "a backslash in the text", "write it twice: \\\\"};
    }
    if (a.value_column > 0) where.column = a.value_column;
    return {where, "text without its closing quote on the same line",
            "end it with the quote it began with: \"...\""};
  }
  if (contains(said, "table header") || trimmed(line).starts_with('[')) {
    return {where, "the name of a table is not closed",
            "write it alone on a line, in brackets: [paper], or [[plates]] for each of several"};
  }
  if (contains(said, "array")) {
    return {where, "a list is not closed, or a comma is missing in it",
            "separate with commas and end with ]: [\"tone\", \"key\"]"};
  }
  if (contains(said, "inline table")) {
    return {where, "a table in braces is not closed on its line",
            "write it on one line, with commas: { at = \"13:00\", for = \"40 min\" }"};
  }
  if (a.value_column == 0) {
    return {
        where, "not a line of the form key = value",
        "write a key, an equals sign and a value, like grain = \"long\"; begin a remark with #"};
  }
  if (a.key.empty()) {
    return {where, "no key before the equals sign", "write one, like grain = \"long\""};
  }
  if (a.value.empty()) {
    return {{where.line, a.value_column},
            "no value after the equals sign",
            "give " + std::string(a.key) + " a value, or delete the line"};
  }
  if (contains(a.key, " ") || (!letter(a.key.front()) && a.key.front() != '"')) {
    return {where, "this is not a key", "keys are single words, like evening_before"};
  }
  if (a.value.front() == '"' || a.value.front() == '\'') {
    return {where, "something stands after the closing quote",
            "one value a line; begin a remark with #"};
  }
  return unquoted(a, where);
}

}  // namespace

InputError syntax_error(std::string_view file, std::string_view text, Place where,
                        std::string_view description) {
  auto r = remedy(text, where, description);
  return at(file, text, r.where, std::move(r.what), std::move(r.help));
}

}  // namespace dampline::session
