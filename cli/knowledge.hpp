#pragma once

#include <optional>
#include <string>

#include <dampline/planner/day.hpp>

#include "command.hpp"

namespace dampline::cli {

/// The data files of the program, read: stocks, methods, processes, steps, drying and cautions;
/// before the installed methods those of a file of the printer's own, when one is named. A file
/// that is missing is a Failure 66, one that cannot be used a Failure 65 that names the line. None
/// when the methods could not be used: what is wrong with them has been printed.
[[nodiscard]] std::optional<planner::Knowledge> read_knowledge(
    const std::optional<std::string>& own_methods, Streams& io);

}  // namespace dampline::cli
