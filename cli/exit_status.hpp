#pragma once

#include <array>
#include <string_view>

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

struct Meaning {
  int status;
  std::string_view text;
};
/// What help and manual say of each.
inline constexpr std::array<Meaning, 8> meanings{
    {{done, "done"},
     {problems, "the plan does not fit, or check found something wrong"},
     {usage, "the command line is wrong"},
     {bad_data, "a file that cannot be read as what it should be"},
     {no_input, "an input is missing or cannot be opened"},
     {internal, "a fault of the program"},
     {cannot_create, "an output cannot be created"},
     {io_failed, "reading or writing broke off"}}};

}  // namespace dampline::cli::exit_status
