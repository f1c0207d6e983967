#pragma once

#include "command.hpp"

namespace dampline::cli {

/// The whole program but for argv and the terminal: finds the command, runs it, turns whatever
/// goes wrong into one message and an exit status.
[[nodiscard]] int run(Arguments args, Streams io);

/// "dampline 0.1.0"
[[nodiscard]] std::string version_line();

}  // namespace dampline::cli
