#pragma once

#include <cstddef>
#include <string>
#include <string_view>

/// UTF-8 (RFC 3629), as far as messages about a text need it.
namespace dampline::session {

/// Length of the well-formed sequence at byte `at`; 0 when there is none.
[[nodiscard]] std::size_t sequence_length(std::string_view text, std::size_t at);

/// Byte at which the text stops being UTF-8; npos when all of it is.
[[nodiscard]] std::size_t first_bad_byte(std::string_view text);

/// Code points in well-formed text.
[[nodiscard]] std::size_t code_points(std::string_view text);

/// Columns a terminal gives the text: 2 for East Asian wide characters, 0 for combining marks.
/// Source: Unicode UAX 11, the large blocks only, from memory.
[[nodiscard]] std::size_t columns(std::string_view text);

/// The text with control characters other than tab as '?', so that what a file holds cannot steer
/// the terminal that shows it.
[[nodiscard]] std::string without_controls(std::string_view text);

}  // namespace dampline::session
