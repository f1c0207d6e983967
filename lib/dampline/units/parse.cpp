#include <array>
#include <charconv>
#include <cmath>
#include <span>

#include <dampline/units/parse.hpp>
#include <dampline/units/text.hpp>

namespace dampline::units {
namespace {

constexpr double inch = 0.0254;             // m, exact by definition
constexpr double pound = 0.45359237;        // kg, exact by definition
constexpr double sheets_in_a_ream = 500;    // the count US basis weights are stated for
constexpr double largest_magnitude = 1e12;  // nothing in a print room is larger in any unit here

struct Unit {
  std::string_view name;
  double to_si;
  double offset = 0;  // added after scaling (temperatures)
};

struct Number {
  double value = 0;
  std::size_t begin = 0;
  std::size_t end = 0;  // one past the number
};

std::size_t skip_space(std::string_view text, std::size_t at) {
  // Non-breaking spaces too, as copied from a printed page.
  static constexpr std::array<std::string_view, 4> spaces{" ", "\t", "\u00a0", "\u202f"};
  for (std::size_t i = 0; i < spaces.size();) {
    if (text.substr(at).starts_with(spaces[i])) {
      at += spaces[i].size();
      i = 0;
    } else {
      ++i;
    }
  }
  return at;
}

std::string_view trimmed(std::string_view s) {
  while (!s.empty() && (s.front() == ' ' || s.front() == '\t')) s.remove_prefix(1);
  while (!s.empty() && (s.back() == ' ' || s.back() == '\t')) s.remove_suffix(1);
  return s;
}

std::variant<Number, Refusal> read_number(std::string_view text, std::size_t at,
                                          std::string_view example) {
  at = skip_space(text, at);
  const std::size_t begin = at;
  if (at < text.size() && text[at] == '+') ++at;
  double value = 0;
  const auto got = std::from_chars(text.data() + at, text.data() + text.size(), value);
  const auto help = "write a number and a unit, like \"" + std::string(example) + "\"";
  if (got.ec == std::errc::invalid_argument) {
    return Refusal{begin,
                   text.empty() ? "empty text where a quantity was expected"
                                : "no number at the start of \"" + std::string(text) + "\"",
                   help};
  }
  if (got.ec != std::errc() || !std::isfinite(value) || std::abs(value) > largest_magnitude) {
    return Refusal{begin, "the number is not one that can be measured", help};
  }
  const auto end = static_cast<std::size_t>(got.ptr - text.data());
  if (end < text.size() && text[end] == ',') {
    return Refusal{end, "a comma in a number",
                   "write the decimals after a point, like \"" + std::string(example) + "\""};
  }
  return Number{value, begin, end};
}

std::string listed(std::span<const Unit> units) {
  std::string out;
  for (const auto& unit : units) {
    if (!out.empty()) out += ", ";
    out += unit.name;
  }
  return out;
}

const Unit* find_unit(std::string_view name, std::span<const Unit> units) {
  for (const auto& unit : units) {
    if (unit.name == name) return &unit;
  }
  return nullptr;
}

Refusal bare_number(const Number& n, std::string_view what, std::string_view example) {
  return {n.end, "bare number for " + std::string(what),
          "write a unit, like \"" + std::string(example) + "\""};
}

Refusal unknown_unit(std::size_t at, std::string_view name, std::string_view what,
                     std::span<const Unit> units, std::string_view example) {
  return {at, "unknown unit \"" + std::string(name) + "\" for " + std::string(what),
          "use one of " + listed(units) + ", like \"" + std::string(example) + "\""};
}

std::variant<double, Refusal> read_scaled(std::string_view text, std::string_view what,
                                          std::span<const Unit> units, std::string_view example) {
  auto number = read_number(text, 0, example);
  if (auto* refusal = std::get_if<Refusal>(&number)) return *refusal;
  const auto n = std::get<Number>(number);
  const std::size_t at = skip_space(text, n.end);
  const auto name = trimmed(text.substr(at));
  if (name.empty()) return bare_number(n, what, example);
  const auto* unit = find_unit(name, units);
  if (unit == nullptr) return unknown_unit(at, name, what, units, example);
  return n.value * unit->to_si + unit->offset;
}

struct Bound {
  double low = 0;
  bool low_included = true;
};

template <class Quantity, class Make>
Parsed<Quantity> scaled(std::string_view text, std::string_view what, std::span<const Unit> units,
                        std::string_view example, Make make, Bound bound = {}) {
  auto read = read_scaled(text, what, units, example);
  if (auto* refusal = std::get_if<Refusal>(&read)) return *refusal;
  const double value = std::get<double>(read);
  if (value < bound.low || (value == bound.low && !bound.low_included)) {
    return Refusal{0, std::string(what) + " cannot be " + (value < 0 ? "negative" : "so small"),
                   "give a value like \"" + std::string(example) + "\""};
  }
  return make(value);
}

constexpr std::array<Unit, 11> length_units{{{"mm", 1e-3},
                                             {"cm", 1e-2},
                                             {"m", 1},
                                             {"um", 1e-6},
                                             {"\u00b5m", 1e-6},
                                             {"\u03bcm", 1e-6},
                                             {"in", inch},
                                             {"\"", inch},
                                             {"inch", inch},
                                             {"inches", inch},
                                             {"ft", 12 * inch}}};

constexpr std::array<Unit, 8> grammage_units{{{"g/m2", 1e-3},
                                              {"gsm", 1e-3},
                                              {"g/m\u00b2", 1e-3},
                                              {"g/m^2", 1e-3},
                                              {"kg/m2", 1},
                                              {"kg/m\u00b2", 1},
                                              {"oz/yd2", pound / 16 / (0.9144 * 0.9144)},
                                              {"kg/m^2", 1}}};

constexpr std::string_view ream_help =
    "write grams, like \"245 g/m2\", or name the basis size: \"90 lb text 25x38 in\" is 133 g/m2, "
    "\"90 lb cover 20x26 in\" is 243 g/m2";

bool is_pound(std::string_view word) {
  return word == "lb" || word == "lbs" || word == "#" || word == "pound" || word == "pounds";
}

// "<words> 25x38 in": any trade name of the grade, then the basis size that fixes the weight.
Parsed<Grammage> basis_weight(std::string_view text, const Number& n, std::size_t after_pound) {
  std::string_view rest = trimmed(text.substr(after_pound));
  const auto digit = rest.find_first_of("0123456789");
  if (digit == std::string_view::npos) {
    return Refusal{n.end, "\"lb\" without a basis size can mean several weights",
                   std::string(ream_help)};
  }
  const auto size = parse_size(rest.substr(digit));
  if (!ok(size)) {
    const auto& refusal = std::get<Refusal>(size);
    const auto begin = static_cast<std::size_t>(rest.data() - text.data()) + digit;
    return Refusal{begin + refusal.column, "no basis size in a weight in lb: " + refusal.what,
                   std::string(ream_help)};
  }
  const auto& basis = std::get<Size>(size);
  const double area = in_si(basis.width) * in_si(basis.height);
  return kilograms_per_m2(n.value * pound / (sheets_in_a_ream * area));
}

struct IsoSize {
  std::string_view name;
  double width_mm;
  double height_mm;
};

// ISO 216 trimmed sizes [iso216], millimetres.
constexpr std::array<IsoSize, 18> iso_sizes{{{"A0", 841, 1189},
                                             {"A1", 594, 841},
                                             {"A2", 420, 594},
                                             {"A3", 297, 420},
                                             {"A4", 210, 297},
                                             {"A5", 148, 210},
                                             {"A6", 105, 148},
                                             {"A7", 74, 105},
                                             {"A8", 52, 74},
                                             {"B0", 1000, 1414},
                                             {"B1", 707, 1000},
                                             {"B2", 500, 707},
                                             {"B3", 353, 500},
                                             {"B4", 250, 353},
                                             {"B5", 176, 250},
                                             {"B6", 125, 176},
                                             {"B7", 88, 125},
                                             {"B8", 62, 88}}};

constexpr std::array<Unit, 12> duration_units{{{"s", 1},
                                               {"sec", 1},
                                               {"min", 60},
                                               {"minute", 60},
                                               {"minutes", 60},
                                               {"h", 3600},
                                               {"hour", 3600},
                                               {"hours", 3600},
                                               {"d", 86400},
                                               {"day", 86400},
                                               {"days", 86400},
                                               {"seconds", 1}}};

}  // namespace

Parsed<Grammage> parse_grammage(std::string_view text) {
  constexpr std::string_view example = "300 g/m2";
  auto number = read_number(text, 0, example);
  if (auto* refusal = std::get_if<Refusal>(&number)) return *refusal;
  const auto n = std::get<Number>(number);
  if (n.value < 0) {
    return Refusal{n.begin, "a grammage cannot be negative",
                   "give the weight on the label, like \"300 g/m2\""};
  }
  if (n.value == 0) {
    return Refusal{n.begin, "a grammage of nothing",
                   "give the weight on the label, like \"300 g/m2\""};
  }
  const std::size_t at = skip_space(text, n.end);
  const auto name = trimmed(text.substr(at));
  if (name.empty()) return bare_number(n, "a grammage", example);
  const auto word_end = name.find_first_of(" \t0123456789");
  const auto word = name.substr(0, word_end);
  if (is_pound(word)) return basis_weight(text, n, at + word.size());
  const auto* unit = find_unit(name, grammage_units);
  if (unit == nullptr) return unknown_unit(at, name, "a grammage", grammage_units, example);
  return kilograms_per_m2(n.value * unit->to_si);
}

Parsed<Length> parse_length(std::string_view text) {
  return scaled<Length>(text, "a length", length_units, "38 cm", metres);
}

Parsed<Size> parse_size(std::string_view text) {
  constexpr std::string_view example = "38 x 56 cm";
  for (const auto& iso : iso_sizes) {
    if (trimmed(text) == iso.name)
      return Size{millimetres(iso.width_mm), millimetres(iso.height_mm)};
  }
  auto first = read_number(text, 0, example);
  if (auto* refusal = std::get_if<Refusal>(&first)) return *refusal;
  const auto a = std::get<Number>(first);
  std::size_t at = skip_space(text, a.end);
  auto times = text.find_first_of("xX*", at);
  std::size_t times_length = 1;
  if (const auto cross = text.find("\u00d7", at); cross < times) {
    times = cross;
    times_length = 2;
  }
  if (times == std::string_view::npos) {
    return Refusal{a.end, "one length where a size was expected",
                   "write both sides, like \"38 x 56 cm\""};
  }
  const auto first_unit = trimmed(text.substr(at, times - at));
  auto second = read_number(text, times + times_length, example);
  if (auto* refusal = std::get_if<Refusal>(&second)) return *refusal;
  const auto b = std::get<Number>(second);
  at = skip_space(text, b.end);
  const auto unit_name = trimmed(text.substr(at));
  if (unit_name.empty()) return bare_number(b, "a size", example);
  const auto* unit = find_unit(unit_name, length_units);
  if (unit == nullptr) return unknown_unit(at, unit_name, "a size", length_units, example);
  const auto* unit_a = first_unit.empty() ? unit : find_unit(first_unit, length_units);
  if (unit_a == nullptr) {
    return unknown_unit(skip_space(text, a.end), first_unit, "a size", length_units, example);
  }
  if (!(a.value > 0 && b.value > 0)) {
    return Refusal{a.value > 0 ? b.begin : a.begin, "a side must be longer than nothing",
                   "write both sides, like \"38 x 56 cm\""};
  }
  return Size{metres(a.value * unit_a->to_si), metres(b.value * unit->to_si)};
}

Parsed<Duration> parse_duration(std::string_view text) {
  constexpr std::string_view example = "35 min";
  double total = 0;
  std::size_t at = 0;
  do {
    auto number = read_number(text, at, example);
    if (auto* refusal = std::get_if<Refusal>(&number)) return *refusal;
    const auto n = std::get<Number>(number);
    if (n.value < 0) {
      return Refusal{n.begin, "a duration cannot be negative", "give a time like \"35 min\""};
    }
    at = skip_space(text, n.end);
    std::size_t end = at;
    while (end < text.size() && std::string_view("abcdefghijklmnopqrstuvwxyz").find(text[end]) !=
                                    std::string_view::npos) {
      ++end;
    }
    const auto name = text.substr(at, end - at);
    if (name.empty() && at >= text.size()) return bare_number(n, "a duration", example);
    const auto* unit = find_unit(name, duration_units);
    if (unit == nullptr) {
      return unknown_unit(at, trimmed(text.substr(at)), "a duration", duration_units, example);
    }
    total += n.value * unit->to_si;
    at = skip_space(text, end);
  } while (at < text.size());
  return seconds(total);
}

Parsed<Temperature> parse_temperature(std::string_view text) {
  constexpr double zero = 273.15;
  constexpr double fahrenheit = 5.0 / 9.0;
  constexpr double fahrenheit_zero = zero - 32 * fahrenheit;
  static constexpr std::array<Unit, 8> units{{{"degC", 1, zero},
                                              {"C", 1, zero},
                                              {"\u00b0C", 1, zero},
                                              {"\u2103", 1, zero},
                                              {"degF", fahrenheit, fahrenheit_zero},
                                              {"F", fahrenheit, fahrenheit_zero},
                                              {"\u00b0F", fahrenheit, fahrenheit_zero},
                                              {"K", 1, 0}}};
  return scaled<Temperature>(text, "a temperature", units, "17 degC", kelvin);
}

namespace {

constexpr std::array<Unit, 3> percent_units{{{"%", 0.01}, {"percent", 0.01}, {"per cent", 0.01}}};

}  // namespace

Parsed<RelativeHumidity> parse_humidity(std::string_view text) {
  static constexpr std::array<Unit, 4> units{
      {{"%", 0.01}, {"percent", 0.01}, {"% RH", 0.01}, {"%RH", 0.01}}};
  auto read = read_scaled(text, "a humidity", units, "52 %");
  if (auto* refusal = std::get_if<Refusal>(&read)) return *refusal;
  const double value = std::get<double>(read);
  if (value < 0 || value > 1) {
    return Refusal{0, "humidity " + shortest(value * 100) + " % is outside 0 to 100 %",
                   "give the reading of the hygrometer, like \"52 %\""};
  }
  return RelativeHumidity(value);
}

Parsed<Mass> parse_mass(std::string_view text) {
  static constexpr std::array<Unit, 4> units{
      {{"g", 1e-3}, {"kg", 1}, {"oz", pound / 16}, {"lb", pound}}};
  return scaled<Mass>(text, "a weight", units, "64 g", kilograms);
}

Parsed<Pressure> parse_pressure(std::string_view text) {
  static constexpr std::array<Unit, 7> units{{{"hPa", 100},
                                              {"kPa", 1000},
                                              {"Pa", 1},
                                              {"mbar", 100},
                                              {"bar", 1e5},
                                              {"inHg", 3386.389},
                                              {"mmHg", 133.322387}}};
  return scaled<Pressure>(text, "a pressure", units, "1013 hPa", pascal);
}

Parsed<Moisture> parse_moisture(std::string_view text) {
  static constexpr std::array<Unit, 3> units{{{"g/g", 1}, {"kg/kg", 1}, {"%", 0.01}}};
  return scaled<Moisture>(text, "a moisture", units, "0.6 g/g",
                          [](double v) { return Moisture(v); });
}

Parsed<Strain> parse_strain(std::string_view text) {
  return scaled<Strain>(text, "a growth", percent_units, "0.85 %",
                        [](double v) { return Strain(v); }, {-1, true});
}

Parsed<Density> parse_density(std::string_view text) {
  static constexpr std::array<Unit, 4> units{
      {{"g/cm3", 1000}, {"kg/m3", 1}, {"g/cm\u00b3", 1000}, {"kg/m\u00b3", 1}}};
  return scaled<Density>(text, "a density", units, "0.55 g/cm3", kilograms_per_m3, {0, false});
}

Parsed<Velocity> parse_velocity(std::string_view text) {
  static constexpr std::array<Unit, 4> units{
      {{"m/s", 1}, {"cm/s", 0.01}, {"km/h", 1 / 3.6}, {"ft/min", 12 * inch / 60}}};
  return scaled<Velocity>(text, "an air speed", units, "0.15 m/s", metres_per_second);
}

Parsed<Diffusivity> parse_diffusivity(std::string_view text) {
  static constexpr std::array<Unit, 3> units{{{"m2/s", 1}, {"mm2/s", 1e-6}, {"m\u00b2/s", 1}}};
  return scaled<Diffusivity>(text, "a diffusivity", units, "1.1e-6 m2/s", m2_per_s);
}

Parsed<Flux> parse_flux(std::string_view text) {
  static constexpr std::array<Unit, 5> units{{{"g/m2h", 1 / 3.6e6},
                                              {"g/(m2 h)", 1 / 3.6e6},
                                              {"g/m2 h", 1 / 3.6e6},
                                              {"kg/m2s", 1},
                                              {"kg/(m2 s)", 1}}};
  return scaled<Flux>(text, "a drying rate", units, "73 g/m2h", kilograms_per_m2_s);
}

Parsed<Area> parse_area(std::string_view text) {
  static constexpr std::array<Unit, 4> units{
      {{"m2", 1}, {"cm2", 1e-4}, {"mm2", 1e-6}, {"in2", inch * inch}}};
  return scaled<Area>(text, "an area", units, "85 cm2", square_metres);
}

}  // namespace dampline::units
