#pragma once

#include <string>
#include <string_view>
#include <vector>

#include <dampline/report/clock.hpp>

namespace dampline::report {

/// How a table is written for a spreadsheet.
enum class Separator {
  comma,     ///< RFC 4180: "," between cells, "." in numbers
  semicolon  ///< ";" and the decimal comma, for places that write numbers so
};

/// A row of cells, quoted where they must be, ended with CRLF.
[[nodiscard]] std::string csv_row(const std::vector<std::string>& cells,
                                  Separator separator = Separator::comma);
/// A number with so many decimals, as the separator wants it.
[[nodiscard]] std::string csv_number(double value, int decimals,
                                     Separator separator = Separator::comma);

/// The steps on the clock, one row each, in order; the columns of moisture, chance, growth and
/// misfit are filled for passes through the press. The head names units.
[[nodiscard]] std::string plan_csv(const planner::Plan& plan, const Clock& clock,
                                   Separator separator = Separator::comma);

}  // namespace dampline::report
