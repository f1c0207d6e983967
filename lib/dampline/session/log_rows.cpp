#include <algorithm>
#include <charconv>
#include <cmath>

#include <dampline/session/csv.hpp>
#include <dampline/session/log_rows.hpp>
#include <dampline/session/utf8.hpp>
#include <dampline/session/wording.hpp>

namespace dampline::session {
namespace {

constexpr std::size_t longest_line = 4096;  // bytes
constexpr std::size_t first_few = 5;

// For messages: a cell may hold anything.
std::string shown(std::string_view cell) {
  constexpr std::size_t longest = 40;
  std::string out;
  std::size_t count = 0;
  for (std::size_t at = 0; at < cell.size() && count < longest; ++count) {
    const auto length = std::max<std::size_t>(sequence_length(cell, at), 1);
    out += cell.substr(at, length);
    at += length;
  }
  return quoted(without_controls(out) + (out.size() < cell.size() ? "..." : ""));
}

// What stands in a row for the time, from one column or two.
Cell time_cell(const std::vector<Cell>& cells, const LogHeader& h) {
  const auto cell = [&](std::size_t i) { return i < cells.size() ? cells[i] : Cell{}; };
  if (!h.date) return cell(*h.time);
  Cell whole = cell(*h.date);
  // A column of dates may hold whole times, whatever stands beside it.
  const bool has_clock = whole.text.find(':') != std::string::npos;
  if (!h.time || has_clock) return whole;
  const auto time = cell(*h.time);
  if (whole.text.empty() || time.text.empty()) return {"", whole.column};
  whole.text += " " + time.text;
  return whole;
}

class RowReader {
 public:
  RowReader(const LogHeader& header, Faults& faults) : header_(header), faults_(faults) {}

  std::optional<LogRow> read(std::string_view line, int number) {
    line_ = number;
    if (line.size() > longest_line) {
      return left_out(Fault::shape, 0, "the line is longer than 4096 bytes");
    }
    const auto [cells, open_quote] = cells_of(line, header_.separator);
    if (open_quote) return left_out(Fault::shape, cells.back().column, "a quote is not closed");
    if (cells.size() > header_.names.size() && !rest_empty(cells)) {
      return left_out(Fault::shape, cells[header_.names.size()].column,
                      "it has " + std::to_string(cells.size()) + " values for " +
                          std::to_string(header_.names.size()) + " columns");
    }
    LogRow row;
    row.line = number;
    if (!time(cells, row) || !value(cells, *header_.temperature, "temperature", row.temperature) ||
        !value(cells, *header_.humidity, "humidity", row.humidity)) {
      return std::nullopt;
    }
    return row;
  }

 private:
  std::optional<LogRow> left_out(Fault kind, int column, const std::string& what) {
    faults_.add(kind, {line_, std::max(1, column)}, what);
    return std::nullopt;
  }

  // Some loggers end every row with a separator.
  [[nodiscard]] bool rest_empty(const std::vector<Cell>& cells) const {
    return std::all_of(cells.begin() + static_cast<std::ptrdiff_t>(header_.names.size()),
                       cells.end(), [](const Cell& c) { return c.text.empty(); });
  }

  bool time(const std::vector<Cell>& cells, LogRow& row) {
    const auto cell = time_cell(cells, header_);
    row.time_column = cell.column;
    if (cell.text.empty()) {
      left_out(Fault::missing, cell.column, "there is no time in it");
      return false;
    }
    const auto found = read_time(cell.text);
    if (!found) {
      left_out(Fault::time, cell.column, shown(cell.text) + " is not a date with a time");
      return false;
    }
    row.time = *found;
    return true;
  }

  bool value(const std::vector<Cell>& cells, std::size_t column, const std::string& name,
             WrittenNumber& to) {
    if (column >= cells.size() || cells[column].text.empty()) {
      const int at = column < cells.size() ? cells[column].column : cells.back().column;
      left_out(Fault::missing, at, "there is no " + name + " in it");
      return false;
    }
    const auto& cell = cells[column];
    const auto found = read_number(cell.text);
    if (!found) {
      left_out(Fault::number, cell.column, name + " " + shown(cell.text) + " is not a number");
      return false;
    }
    to = *found;
    to.column = cell.column;
    return true;
  }

  const LogHeader& header_;
  Faults& faults_;
  int line_ = 0;
};

}  // namespace

void Faults::add(Fault kind, Place where, const std::string& what) {
  auto& rows = rows_[kind];
  if (rows.count++ == 0) {
    rows.why = what;
    first_[kind] = {where, what};
  }
  if (rows.lines.size() < first_few) rows.lines.push_back(where.line);
}

std::optional<WrittenNumber> read_number(std::string_view text) {
  constexpr std::size_t longest = 40;
  std::string digits;
  std::size_t at = 0;
  for (; at < text.size() && at < longest; ++at) {
    const char c = text[at];
    const bool sign = (c == '-' || c == '+') && digits.empty();
    const bool exponent = (c == 'e' || c == 'E') && at + 1 < text.size() &&
                          (text[at + 1] == '-' || text[at + 1] == '+' ||
                           (text[at + 1] >= '0' && text[at + 1] <= '9'));
    const bool after_exponent = (c == '-' || c == '+') && !digits.empty() && digits.back() == 'e';
    if ((c >= '0' && c <= '9') || sign || after_exponent) {
      digits += c;
    } else if (c == '.' || c == ',') {
      digits += '.';
    } else if (exponent) {
      digits += 'e';
    } else {
      break;
    }
  }
  if (digits.starts_with('+')) digits.erase(0, 1);
  WrittenNumber n;
  const auto [end, error] = std::from_chars(digits.data(), digits.data() + digits.size(), n.value);
  if (error != std::errc() || end != digits.data() + digits.size() || !std::isfinite(n.value)) {
    return std::nullopt;
  }
  const auto unit = text.substr(at);
  if (unit.find_first_not_of(" \t") == std::string_view::npos) return n;
  n.temperature = temperature_scale(unit);
  n.humidity = humidity_scale(unit);
  const bool known =
      n.temperature != TemperatureScale::unstated || n.humidity != HumidityScale::unstated;
  return known && plain_words(unit).size() <= 2 ? std::optional(n) : std::nullopt;
}

std::vector<LogRow> read_rows(std::span<const std::string_view> lines, const LogHeader& header,
                              Faults& faults) {
  std::vector<LogRow> rows;
  RowReader reader(header, faults);
  for (std::size_t i = static_cast<std::size_t>(header.line); i < lines.size(); ++i) {
    const auto first = lines[i].find_first_not_of(" \t");
    if (first == std::string_view::npos || lines[i][first] == '#') continue;
    if (auto row = reader.read(lines[i], static_cast<int>(i) + 1)) rows.push_back(std::move(*row));
  }
  return rows;
}

}  // namespace dampline::session
