#pragma once

#include <string>
#include <string_view>
#include <vector>

/// UTF-8 text laid out in columns of a terminal.
namespace dampline::report {

/// Text that is safe to show: control characters become spaces, bytes that are not UTF-8 become
/// U+FFFD, and characters that would turn the direction of what follows are left out.
[[nodiscard]] std::string clean(std::string_view text);

/// Columns the text takes: 0 for combining marks, 2 for wide characters and emoji. An estimate:
/// terminals differ on joined emoji, and this never counts fewer than they show.
[[nodiscard]] int display_width(std::string_view text);

/// ASCII only: accents are dropped, dashes and quotes made plain, what has no likeness becomes "?".
[[nodiscard]] std::string ascii(std::string_view text);

/// Lines of at most `width` columns, broken at spaces (not between a number and its unit "%"); a
/// longer word is cut. Never empty.
[[nodiscard]] std::vector<std::string> wrap(std::string_view text, int width);

/// At most `width` columns; what is cut off ends in ".".
[[nodiscard]] std::string shortened(std::string_view text, int width);

enum class Align { left, right };

/// `text` with spaces added up to `width` columns.
[[nodiscard]] std::string padded(std::string_view text, int width, Align align = Align::left);

}  // namespace dampline::report
