#pragma once

#include <map>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include <dampline/session/log_header.hpp>
#include <dampline/session/readings.hpp>
#include <dampline/session/timestamp.hpp>

/// The rows of a log on their way to readings.
namespace dampline::session {

/// Why rows are left out; each kind is told of once, with its first lines.
enum class Fault { shape, missing, number, time, skipped_time, range, backwards, twice };

struct FaultAt {
  Place where;
  std::string what;
};

/// Gathers what is left out.
class Faults {
 public:
  void add(Fault kind, Place where, const std::string& what);
  [[nodiscard]] const std::map<Fault, LeftOut>& rows() const { return rows_; }
  [[nodiscard]] const std::map<Fault, FaultAt>& first() const { return first_; }
  [[nodiscard]] bool any() const { return !rows_.empty(); }

 private:
  std::map<Fault, LeftOut> rows_;
  std::map<Fault, FaultAt> first_;
};

/// A number as written, and the unit behind it.
struct WrittenNumber {
  double value = 0;
  int column = 1;
  TemperatureScale temperature = TemperatureScale::unstated;
  HumidityScale humidity = HumidityScale::unstated;
};

struct LogRow {
  int line = 0;
  int time_column = 1;
  WrittenTime time;
  WrittenNumber temperature;
  WrittenNumber humidity;
};

/// A decimal number with point or comma and, behind it, a unit or nothing. None for anything else,
/// NaN and infinity among it.
[[nodiscard]] std::optional<WrittenNumber> read_number(std::string_view text);

/// The rows below the header that have a readable time and two numbers.
[[nodiscard]] std::vector<LogRow> read_rows(std::span<const std::string_view> lines,
                                            const LogHeader& header, Faults& faults);

/// Times as instants, in rising order. Rows stand by rising time, or by falling time throughout
/// (`newest_first`). An hour that comes twice is told apart by the order of the rows.
struct TimedRow {
  LogRow row;
  std::chrono::sys_seconds at{};
};
struct Timed {
  std::vector<TimedRow> rows;
  bool newest_first = false;
  int in_repeated_hour = 0;  ///< rows whose clock time comes twice that day
};
[[nodiscard]] Timed timed(std::vector<LogRow> rows, DateOrder order, const std::string& zone,
                          const std::optional<std::chrono::minutes>& offset, Faults& faults);

}  // namespace dampline::session
