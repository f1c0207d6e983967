#include <algorithm>
#include <charconv>
#include <cmath>

#include <dampline/journal/kinds.hpp>
#include <dampline/journal/values.hpp>
#include <dampline/session/utf8.hpp>
#include <dampline/units/suggest.hpp>
#include <dampline/units/text.hpp>

namespace dampline::journal {
namespace {

using units::Parsed;
using units::Refusal;

constexpr int highest_number = 100000;   // of a sheet or a print
constexpr double highest_reading = 1e6;  // of a press, on its own scale

std::string like(const Label& label) { return "like \"" + std::string(label.example) + "\""; }

// `above`: the low end itself is out of range.
template <class Quantity>
Parsed<Quantity> within(Parsed<Quantity> found, Quantity low, Quantity high, bool above,
                        const Label& label) {
  const auto* value = std::get_if<Quantity>(&found);
  if (value == nullptr) return found;
  const bool good = (above ? *value > low : *value >= low) && *value <= high;
  if (good) return found;
  return Refusal{0,
                 "not " + std::string(above ? "above " : "from ") + units::text(low) +
                     (above ? " and up to " : " to ") + units::text(high),
                 "write what was measured, " + like(label)};
}

template <class Number>
std::optional<Number> whole_text(std::string_view text) {
  Number value{};
  const auto* end = text.data() + text.size();
  const auto got = std::from_chars(text.data(), end, value);
  if (got.ec != std::errc() || got.ptr != end) return std::nullopt;
  return value;
}

}  // namespace

std::optional<Refusal> text_fault(std::string_view text, std::size_t longest) {
  if (const auto bad = session::first_bad_byte(text); bad != std::string_view::npos) {
    return Refusal{bad, "not UTF-8 text", "type it anew, or set the terminal to UTF-8"};
  }
  if (session::code_points(text) > longest) {
    return Refusal{0, "longer than " + std::to_string(longest) + " characters",
                   "say it shorter, or in several entries"};
  }
  return std::nullopt;
}

Parsed<std::string> read_value(const Label& label, std::string_view text, std::string*) {
  if (auto fault = text_fault(text, label.longest)) return *fault;
  if (text.find_first_not_of(" \t\r\n") == std::string_view::npos) {
    return Refusal{0, "empty", "say something, " + like(label)};
  }
  return std::string(text);
}

Parsed<int> read_value(const Label& label, std::string_view text, int*) {
  const auto value = whole_text<int>(text);
  if (value && *value >= 1 && *value <= highest_number) return *value;
  return Refusal{0, "not a whole number from 1 to " + std::to_string(highest_number),
                 "write a number, " + like(label)};
}

Parsed<double> read_value(const Label& label, std::string_view text, double*) {
  const auto value = whole_text<double>(text);
  if (value && std::isfinite(*value) && std::abs(*value) <= highest_reading) return *value;
  return Refusal{0, "not a plain number",
                 "write the number alone, decimals after a point, " + like(label)};
}

Parsed<units::Mass> read_value(const Label& label, std::string_view text, units::Mass*) {
  return within(units::parse_mass(text), units::grams(0), units::kilograms(50), true, label);
}

Parsed<units::Length> read_value(const Label& label, std::string_view text, units::Length*) {
  return within(units::parse_length(text), units::metres(0), units::metres(10), true, label);
}

Parsed<units::Duration> read_value(const Label& label, std::string_view text, units::Duration*) {
  return within(units::parse_duration(text), units::seconds(0), units::hours(60 * 24), false,
                label);
}

Parsed<units::Temperature> read_value(const Label& label, std::string_view text,
                                      units::Temperature*) {
  return within(units::parse_temperature(text), units::celsius(-40), units::celsius(80), false,
                label);
}

Parsed<units::RelativeHumidity> read_value(const Label&, std::string_view text,
                                           units::RelativeHumidity*) {
  return units::parse_humidity(text);
}

Parsed<std::size_t> read_word(const Label&, std::string_view text,
                              const std::vector<std::string_view>& words) {
  std::string plain(text);
  std::replace(plain.begin(), plain.end(), '-', ' ');
  for (std::size_t i = 0; i < words.size(); ++i) {
    if (plain == words[i] || words[i].ends_with(" " + plain)) return i;
  }
  const std::vector<std::string> all(words.begin(), words.end());
  const auto near = units::nearest(plain, all);
  return Refusal{0, "not one of the words here",
                 (near ? "did you mean \"" + *near + "\"? " : "") + std::string("The words are ") +
                     units::listed(all)};
}

Shown shown(const std::string& v) { return {v}; }
Shown shown(int v) { return {std::to_string(v), v, true}; }
Shown shown(double v) { return {units::exact(v), v, true}; }
Shown shown(units::Mass v) { return {units::text(v), units::in_grams(v)}; }
Shown shown(units::Length v) {
  const double mm = units::in_millimetres(v);  // however long: pencil marks are read in mm
  return {units::shortest(mm) + " mm", mm};
}
Shown shown(units::Duration v) { return {units::text(v), units::in_minutes(v)}; }
Shown shown(units::Temperature v) { return {units::text(v), units::in_celsius(v)}; }
Shown shown(units::RelativeHumidity v) { return {units::text(v), v.percent()}; }

}  // namespace dampline::journal
