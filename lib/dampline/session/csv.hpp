#pragma once

#include <string>
#include <string_view>
#include <vector>

/// Tables of values in lines of text (RFC 4180, with any separator). A line is a row: a quote that
/// is not closed spoils its own line and no more, and every cell knows its place.
namespace dampline::session {

struct Cell {
  std::string text;  ///< without its quotes and without blanks round it
  int column = 1;    ///< of its first character, counted from 1
};

struct Cells {
  std::vector<Cell> cells;
  bool open_quote = false;  ///< a quote was not closed by the end of the line
};

/// Lines without their ends: LF, CRLF or CR.
[[nodiscard]] std::vector<std::string_view> lines_of(std::string_view text);

/// The cells of one line of UTF-8 text.
[[nodiscard]] Cells cells_of(std::string_view line, char separator);

/// UTF-8 as it is; anything else byte by byte as Latin-1. `from_latin1` tells which it was.
[[nodiscard]] std::string as_utf8(std::string_view text, bool& from_latin1);

}  // namespace dampline::session
