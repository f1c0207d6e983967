#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include <dampline/journal/entry.hpp>
#include <dampline/session/input_error.hpp>

namespace dampline::journal {

/// The last block, cut off while it was written.
struct Torn {
  std::size_t begin = 0;  ///< bytes into the text
  int line = 0;
};

struct Journal {
  std::string file;
  std::vector<Entry> entries;  ///< in the order of the file
  /// Of blocks that could not be read; the other blocks were. When the text is no journal at all,
  /// one error that is `unreadable`.
  session::InputErrors errors;
  std::optional<Torn> torn;
};

/// Reads a journal block by block. The last block counts as torn, and is neither an entry nor an
/// error, when it opens with the mark of this program and does not close with it, or has no such
/// mark and cannot be read. Kinds and keys not known are kept: Unknown, Entry::others.
///
/// Range   64 MiB; 32 KiB a block; years 1970 to 2200.
[[nodiscard]] Journal read(std::string_view text, std::string_view file);

/// The torn block, if the last one is; reads no other.
[[nodiscard]] std::optional<Torn> torn_tail(std::string_view text);

/// Whether `dampline log` wrote the text, as far as can be told: it has an entry or nothing.
[[nodiscard]] bool is_journal(std::string_view text);

}  // namespace dampline::journal
