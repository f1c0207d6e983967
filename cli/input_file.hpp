#pragma once

#include <cstddef>
#include <string>

#include "command.hpp"

namespace dampline::cli {

inline constexpr std::size_t largest_text = 1
                                            << 26;  ///< bytes, for files without a cap of their own

/// The bytes of a file, or of io.in for "-". One message for whatever is in the way: missing, a
/// directory, unreadable (Failure 66), broken off (74), larger than `cap` (65).
[[nodiscard]] std::string read_input(const std::string& path, Streams& io,
                                     std::size_t cap = largest_text);

/// What messages call the file: the path, or "(standard input)" for "-".
[[nodiscard]] std::string input_name(const std::string& path);

}  // namespace dampline::cli
