#pragma once

#include <optional>
#include <span>
#include <string>
#include <vector>

#include <dampline/journal/entry.hpp>

namespace dampline::journal {

/// A value of a table: text, or a number in the unit its column names.
struct Cell {
  std::string text;
  std::optional<double> number{};
  [[nodiscard]] bool empty() const { return text.empty() && !number; }
};

/// Column names: time, session, day, stock, kind, note, then every field of every kind once, with
/// its unit ("mass_g"), then other: keys not known, "key=value; ...".
[[nodiscard]] const std::vector<std::string>& columns();

/// One row an entry, one cell a column.
[[nodiscard]] std::vector<Cell> row(const Entry& entry);

/// The rows as CSV (RFC 4180: commas, quotes where needed, CRLF), with a header. Control characters
/// other than line ends become "?".
[[nodiscard]] std::string csv(std::span<const Entry* const> entries);

}  // namespace dampline::journal
