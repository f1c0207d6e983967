#pragma once

#include <chrono>
#include <string>

#include <dampline/session/read.hpp>

#include "command.hpp"

namespace dampline::cli {

/// What stands in for a date or zone the file does not state: $SOURCE_DATE_EPOCH or the clock, and
/// $TZ when it names a zone or else the zone of the system.
[[nodiscard]] session::Here here_of_process();
/// $SOURCE_DATE_EPOCH or the clock.
[[nodiscard]] std::chrono::sys_seconds now_of_process();

/// Every error on io.err, in file order, with a count at the end.
void print_errors(const session::InputErrors& errors, Streams& io);
/// Every warning on io.err.
void print_warnings(const session::InputErrors& warnings, Streams& io);

/// The session in a file ("-": io.in) with the log it names, warnings printed. When something is
/// wrong with it, prints all of it and throws a Failure without text and with status 65; a file
/// that is missing or cannot be opened is a Failure 66.
[[nodiscard]] session::Session read_session(const std::string& path, Streams& io);

}  // namespace dampline::cli
