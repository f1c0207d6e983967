#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace dampline::session {

/// A place in a text, counted from 1; line 0 means the file as a whole.
struct Place {
  int line = 0;
  int column = 0;
};

/// One thing wrong (or doubtful) in what a person wrote.
struct InputError {
  std::string file;
  Place where;
  std::string what;     ///< what is wrong, and what was expected
  std::string excerpt;  ///< the source line, tabs kept; empty for the file as a whole
  std::string help;     ///< what to type instead; never empty
  /// The file is not one that can be read at all (not text, not TOML); nothing else in it was
  /// judged.
  bool unreadable = false;
};

using InputErrors = std::vector<InputError>;  ///< everything wrong in one file, in file order

/// "file:line:col: error: what", the source line, a caret, "help: ...".
[[nodiscard]] std::string rendered(const InputError& e, std::string_view severity = "error");

/// The error with its excerpt cut from `text`.
[[nodiscard]] InputError at(std::string_view file, std::string_view text, Place where,
                            std::string what, std::string help);

}  // namespace dampline::session
