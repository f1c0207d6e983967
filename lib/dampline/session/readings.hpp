#pragma once

#include <chrono>
#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

#include <dampline/session/input_error.hpp>
#include <dampline/units/quantity.hpp>

/// The log of a hygrometer: a table of times, temperatures and humidities.
namespace dampline::session {

inline constexpr std::size_t largest_log = 16U << 20U;  ///< bytes
inline constexpr std::size_t most_readings = 300000;

struct Reading {
  int line = 0;  ///< in the file, from 1
  std::chrono::sys_seconds at{};
  units::Temperature temperature = units::celsius(20);
  units::RelativeHumidity humidity{};
};

/// Rows that were left out for one reason.
struct LeftOut {
  std::string why;         ///< of the first: "humidity \"5o\" is not a number"
  std::vector<int> lines;  ///< the first five of them
  int count = 0;
};

/// Two neighbours further apart than three usual intervals or an hour, but never for less than ten
/// minutes. `assumed`
struct Gap {
  std::chrono::sys_seconds from{};
  std::chrono::sys_seconds until{};
  int line_before = 0;
  int line_after = 0;
};

struct Readings {
  std::string file;
  std::string zone;                 ///< of times without an offset
  std::vector<Reading> rows;        ///< by rising time; one or more
  std::vector<LeftOut> left_out;    ///< in the order of their first lines
  std::vector<Gap> gaps;            ///< by time
  std::chrono::seconds interval{};  ///< the usual one, between neighbours; 0: a single row
  std::vector<std::string> notes;   ///< how the file was understood, a sentence each
  InputErrors warnings;             ///< what was left out, and what is doubtful
};

struct ReadingsOptions {
  std::string zone = "UTC";  ///< IANA name: of times without an offset
  /// Decides which number of a date is the day, where the file itself does not.
  std::optional<std::chrono::year_month_day> day{};
};

/// Reads a log: a header with a column each for time (or date and time), temperature and humidity,
/// then rows; comma, semicolon or tab apart, decimal point or comma. Lines before the header,
/// further columns and the order of columns do not matter. Rows that cannot be used are left out
/// and told of; a file without a usable row, one whose units or dates can be taken two ways, or one
/// that is no text is one error.
///
/// Range   -40 to 80 degC, 0 to 100 %; 16 MiB, 300 000 rows, 4096 bytes a line; years 1970 to 2200.
[[nodiscard]] std::variant<Readings, InputErrors> read_readings(
    std::string_view text, std::string_view file, const ReadingsOptions& options = {});

/// Rows that were left out, all reasons together.
[[nodiscard]] int left_out(const Readings& readings);

/// "lines 7, 19, 33 and 4 more"
[[nodiscard]] std::string lines_text(const LeftOut& rows);

}  // namespace dampline::session
