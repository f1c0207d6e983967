#pragma once

#include <string>

#include <dampline/session/session.hpp>

#include "command.hpp"

namespace dampline::cli {

/// A log from its file, warnings printed. What is wrong with it is printed too, as a Failure
/// without text and with status 65; a file that is missing or cannot be opened is a Failure 66.
[[nodiscard]] session::Readings read_log(const std::string& path,
                                         const session::ReadingsOptions& options, Streams& io);

/// Puts into a session the log it names, if it names one. The name goes from where the session file
/// stands.
void add_readings(session::Session& session, const std::string& session_path, Streams& io);

/// The zone of a log's times: as asked, else the zone of the process. Failure 2 for a name that is
/// no zone.
[[nodiscard]] std::string log_zone(const std::optional<std::string>& asked);

}  // namespace dampline::cli
