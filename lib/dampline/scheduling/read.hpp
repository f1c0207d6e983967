#pragma once

#include <stdexcept>
#include <string>
#include <string_view>

#include <dampline/scheduling/problem.hpp>

namespace dampline::scheduling {

/// Text that is not in the form it claims to be; `line` counts from 1.
class ReadError : public std::runtime_error {
 public:
  ReadError(int at, const std::string& what)
      : std::runtime_error("line " + std::to_string(at) + ": " + what), line(at) {}
  int line;
};

/// Reads a project with minimum and maximum time lags in the form of the generator of
/// [schwindt1998]: activities with lags in brackets, then durations and demands, then capacities.
/// Single-mode projects with renewable resources only. Throws ReadError.
[[nodiscard]] Problem read_sch(std::string_view text);

/// Reads a project without maximum lags in the form of the library of [kolisch1997]; each
/// successor waits for the end of its predecessor. Single-mode projects with renewable resources
/// only. Throws ReadError.
[[nodiscard]] Problem read_sm(std::string_view text);

}  // namespace dampline::scheduling
