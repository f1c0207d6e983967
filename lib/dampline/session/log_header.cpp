#include <algorithm>
#include <array>

#include <dampline/session/csv.hpp>
#include <dampline/session/log_header.hpp>

namespace dampline::session {
namespace {

using Words = std::vector<std::string>;

template <std::size_t N>
bool among(const std::array<std::string_view, N>& known, std::string_view word) {
  return std::find(known.begin(), known.end(), word) != known.end();
}

// Words of English, German, French, Spanish, Portuguese, Italian, Dutch, Danish, Norwegian,
// Swedish, Finnish, Polish, Czech and Hungarian loggers, from memory.
constexpr std::array<std::string_view, 18> date_words{
    "date",     "datum",     "dato",      "data", "fecha",     "jour",
    "dia",      "day",       "tag",       "pvm",  "paiva",     "paivamaara",
    "datetime", "dateheure", "datumtijd", "nap",  "timestamp", "horodatage"};
constexpr std::array<std::string_view, 25> time_words{
    "time",      "zeit",        "uhrzeit", "heure",       "hora",      "ora",         "orario",
    "tijd",      "tijdstip",    "tid",     "klokkeslett", "klockslag", "czas",        "cas",
    "aika",      "kello",       "ido",     "idopont",     "zeitpunkt", "zeitstempel", "timestamp",
    "tidspunkt", "tijdstempel", "epoch",   "tidsstempel"};
// Beside those, in the name of a column of times.
constexpr std::array<std::string_view, 24> time_company{
    "utc",      "gmt",    "z",           "local", "iso", "unix", "of",      "and",
    "et",       "und",    "y",           "e",     "s",   "h",    "reading", "logged",
    "recorded", "sample", "measurement", "yyyy",  "mm",  "dd",   "hh",      "ss"};
constexpr std::array<std::string_view, 13> temperature_words{"temperature",
                                                             "temp",
                                                             "t",
                                                             "temperatur",
                                                             "temperatura",
                                                             "temperatuur",
                                                             "lufttemperatur",
                                                             "raumtemperatur",
                                                             "teplota",
                                                             "lampotila",
                                                             "homerseklet",
                                                             "tair",
                                                             "ta"};
constexpr std::array<std::string_view, 26> humidity_words{"humidity",
                                                          "rh",
                                                          "hum",
                                                          "humidite",
                                                          "hr",
                                                          "feuchte",
                                                          "luftfeuchte",
                                                          "feuchtigkeit",
                                                          "luftfeuchtigkeit",
                                                          "rf",
                                                          "humedad",
                                                          "umidade",
                                                          "humidade",
                                                          "umidita",
                                                          "ur",
                                                          "vochtigheid",
                                                          "luchtvochtigheid",
                                                          "rv",
                                                          "fugtighed",
                                                          "luftfugtighed",
                                                          "fuktighet",
                                                          "luftfuktighet",
                                                          "wilgotnosc",
                                                          "vlhkost",
                                                          "kosteus",
                                                          "paratartalom"};
// Columns of other things that are called temperature or humidity too.
constexpr std::array<std::string_view, 42> other_things{
    "dew",      "taupunkt", "taupunkttemperatur",
    "rosee",    "rocio",    "orvalho",
    "rugiada",  "dauwpunt", "dugpunkt",
    "wet",      "bulb",     "feuchtkugel",
    "abs",      "absolute", "absolue",
    "absoluta", "absolut",  "specific",
    "mixing",   "vpd",      "heat",
    "index",    "feels",    "max",
    "min",      "maximum",  "minimum",
    "outdoor",  "outside",  "aussen",
    "ext",      "exterior", "exterieure",
    "buiten",   "esterna",  "ute",
    "water",    "pressure", "druck",
    "setpoint", "alarm",    "battery"};

bool any_in(const Words& words, const auto& known) {
  return std::any_of(words.begin(), words.end(), [&](const auto& w) { return among(known, w); });
}

bool is_number(const std::string& word) {
  return std::all_of(word.begin(), word.end(), [](char c) { return c >= '0' && c <= '9'; });
}

enum class Role { none, date, time, stamp, temperature, humidity };

Role role_of(const Words& words) {
  const bool date = any_in(words, date_words);
  const bool time = any_in(words, time_words);
  if (date || time) {
    const bool only = std::all_of(words.begin(), words.end(), [](const auto& w) {
      return among(date_words, w) || among(time_words, w) || among(time_company, w) || is_number(w);
    });
    if (only) return date && time ? Role::stamp : date ? Role::date : Role::time;
    if (time) return Role::none;  // "time (hr)": hours gone by
  }
  if (any_in(words, other_things)) return Role::none;
  if (any_in(words, humidity_words)) return Role::humidity;
  return any_in(words, temperature_words) ? Role::temperature : Role::none;
}

bool has(const Words& words, std::string_view word) {
  return std::find(words.begin(), words.end(), word) != words.end();
}

TemperatureScale temperature_in(const Words& words) {
  const auto one_of = [&](std::initializer_list<std::string_view> known) {
    return std::any_of(known.begin(), known.end(), [&](auto w) { return has(words, w); });
  };
  if (one_of({"degf", "f", "fahrenheit"})) return TemperatureScale::fahrenheit;
  if (one_of({"degc", "c", "celsius"})) return TemperatureScale::celsius;
  return one_of({"k", "kelvin"}) ? TemperatureScale::kelvin : TemperatureScale::unstated;
}

HumidityScale humidity_in(const Words& words) {
  for (const auto* w : {"%", "percent", "pct", "prozent"}) {
    if (has(words, w)) return HumidityScale::percent;
  }
  const bool zero_to_one = has(words, "0") && has(words, "1");
  return has(words, "fraction") || zero_to_one ? HumidityScale::fraction : HumidityScale::unstated;
}

// "Date Time, GMT+01:00": an offset in the name of a column.
std::optional<std::chrono::minutes> offset_in(std::string_view name) {
  auto at = name.find("GMT");
  if (at == std::string_view::npos) at = name.find("UTC");
  if (at == std::string_view::npos) return std::nullopt;
  auto rest = name.substr(at + 3);
  if (rest.empty() || (rest[0] != '+' && rest[0] != '-')) return std::chrono::minutes(0);
  const int sign = rest[0] == '-' ? -1 : 1;
  rest.remove_prefix(1);
  int numbers[2] = {0, 0};
  int n = 0;
  int digits = 0;
  for (const char c : rest) {
    if (c >= '0' && c <= '9' && digits < 4) {
      if (digits == 2) n = 1;
      numbers[n] = numbers[n] * 10 + (c - '0');
      ++digits;
    } else if (c == ':' && n == 0) {
      n = 1;
      digits = 2;
    } else {
      break;
    }
  }
  if (numbers[0] > 15 || numbers[1] > 59) return std::nullopt;
  return std::chrono::minutes(sign * (numbers[0] * 60 + numbers[1]));
}

LogHeader as_header(std::string_view line, char separator) {
  LogHeader h;
  h.separator = separator;
  std::optional<std::size_t> stamp;
  const auto cells = cells_of(line, separator).cells;
  std::vector<Role> roles;
  for (std::size_t i = 0; i < cells.size(); ++i) {
    const auto words = plain_words(cells[i].text);
    const auto role = role_of(words);
    h.names.push_back(cells[i].text);
    roles.push_back(role);
    if (role == Role::date && !h.date) h.date = i;
    if (role == Role::time && !h.time) h.time = i;
    if (role == Role::stamp && !stamp) stamp = i;
    if (role == Role::temperature && !h.temperature) {
      h.temperature = i;
      h.temperature_scale = temperature_in(words);
    }
    if (role == Role::humidity && !h.humidity) {
      h.humidity = i;
      h.humidity_scale = humidity_in(words);
    }
  }
  if (stamp) {
    h.date = stamp;
    h.time.reset();
  }
  for (const auto column : {h.date, h.time}) {
    if (column && !h.offset) h.offset = offset_in(h.names[*column]);
  }
  for (std::size_t i = 0; i < cells.size(); ++i) {
    const bool used = h.date == i || h.time == i || h.temperature == i || h.humidity == i;
    if (!used && !cells[i].text.empty()) h.unused.push_back(cells[i].text);
  }
  return h;
}

}  // namespace

LogHeader find_header(std::span<const std::string_view> lines) {
  constexpr std::size_t deepest = 100;
  constexpr std::size_t longest = 4096;
  LogHeader best;
  for (std::size_t i = 0; i < std::min(lines.size(), deepest); ++i) {
    if (lines[i].size() > longest) continue;
    for (const char separator : {';', '\t', ','}) {
      auto header = as_header(lines[i], separator);
      header.line = static_cast<int>(i) + 1;
      if (header.whole()) return header;
      if (header.found() > best.found() && header.names.size() > 1) best = std::move(header);
    }
  }
  return best;
}

TemperatureScale temperature_scale(std::string_view unit) {
  return temperature_in(plain_words(unit));
}
HumidityScale humidity_scale(std::string_view unit) { return humidity_in(plain_words(unit)); }

bool take_units(LogHeader& h, std::string_view line) {
  const auto cells = cells_of(line, h.separator).cells;
  const auto cell = [&](const std::optional<std::size_t>& column) {
    return column && *column < cells.size() ? cells[*column].text : std::string();
  };
  const auto t = cell(h.temperature);
  const auto u = cell(h.humidity);
  const bool numbers = (t + u).find_first_of("0123456789") != std::string::npos;
  if (numbers) return false;
  const auto scale = temperature_scale(t);
  const auto share = humidity_scale(u);
  if (scale == TemperatureScale::unstated && share == HumidityScale::unstated) return false;
  if (h.temperature_scale == TemperatureScale::unstated) h.temperature_scale = scale;
  if (h.humidity_scale == HumidityScale::unstated) h.humidity_scale = share;
  return true;
}

}  // namespace dampline::session
