#pragma once

/// What the program's exit status says. Numbers from 64 up are those of sysexits.h.
namespace dampline::cli::exit_status {

inline constexpr int done = 0;
inline constexpr int problems = 1;        ///< the plan does not fit, or check found something wrong
inline constexpr int usage = 2;           ///< the command line
inline constexpr int bad_data = 65;       ///< a file that cannot be read as what it should be
inline constexpr int no_input = 66;       ///< an input that is missing or cannot be opened
inline constexpr int internal = 70;       ///< a fault of the program
inline constexpr int cannot_create = 73;  ///< an output that cannot be made
inline constexpr int io_failed = 74;      ///< reading or writing broke off

}  // namespace dampline::cli::exit_status
