#pragma once

#include <optional>
#include <string>

#include <dampline/session/readings.hpp>

#include "options.hpp"

namespace dampline::cli {

/// A log named on the command line.
struct LogWords {
  std::optional<std::string> readings;
  std::optional<std::string> zone;
};

/// Adds --readings and --zone.
void add_log_options(Options& options, LogWords& words);

/// The log named; none when none is. `day` as in session::ReadingsOptions. --zone without
/// --readings is a Failure 2.
[[nodiscard]] std::optional<session::Readings> log_of(
    const LogWords& words, const std::optional<std::chrono::year_month_day>& day, Streams& io);

}  // namespace dampline::cli
