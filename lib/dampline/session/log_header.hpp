#pragma once

#include <chrono>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

/// The header of a logger's table: which column is what, by name, in the words of several
/// languages, whatever their order and case.
namespace dampline::session {

enum class TemperatureScale { unstated, celsius, fahrenheit, kelvin };
enum class HumidityScale { unstated, percent, fraction };

struct LogHeader {
  int line = 0;  ///< of the header, from 1
  char separator = ',';
  std::optional<std::size_t> date;  ///< the column of dates, or of whole times when there is no
  std::optional<std::size_t> time;  ///< column of times beside it
  std::optional<std::size_t> temperature;
  std::optional<std::size_t> humidity;
  TemperatureScale temperature_scale = TemperatureScale::unstated;
  HumidityScale humidity_scale = HumidityScale::unstated;
  std::optional<std::chrono::minutes> offset;  ///< of its times, when the header states one
  std::vector<std::string> names;              ///< of all columns, as written
  std::vector<std::string> unused;             ///< names of the columns that are not needed

  [[nodiscard]] bool whole() const { return (date || time) && temperature && humidity; }
  [[nodiscard]] int found() const {
    return int(date || time) + int(!!temperature) + int(!!humidity);
  }
};

/// The first line with a column each for time, temperature and humidity, under the separator
/// (semicolon, tab or comma) that shows them; else the line that has most of them. Looks at the
/// first 100 lines.
[[nodiscard]] LogHeader find_header(std::span<const std::string_view> lines);

/// Takes what the cells of a line of units ("degC", "%") say, where the header is silent. False:
/// it is no such line.
bool take_units(LogHeader& header, std::string_view line);

/// What a unit behind a number says: "17,5 °C".
[[nodiscard]] TemperatureScale temperature_scale(std::string_view unit);
[[nodiscard]] HumidityScale humidity_scale(std::string_view unit);

/// Small letters without accents, words apart: "Température (°C)" is temperature, degc.
[[nodiscard]] std::vector<std::string> plain_words(std::string_view name);

}  // namespace dampline::session
