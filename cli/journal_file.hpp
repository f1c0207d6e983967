#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "command.hpp"

/// The journal on disk: appended to under a lock, one write an entry, synced before it is said to
/// be stored. What a crash cut off is moved beside the journal, never lost.
namespace dampline::cli {

/// The tail of a journal, moved to a file of its own.
struct SetAside {
  std::string file;  ///< the journal's name with ".torn" behind it; later tails are added to it
  int line = 0;      ///< at which the tail began
  std::size_t bytes = 0;
};

/// The file named, or the journal in the state directory. Failure 2 when there is no such place.
[[nodiscard]] std::string journal_path(const std::optional<std::string>& named);

/// Adds one block (journal::written) at the end; a journal that is not there yet is begun, in the
/// state directory with its folders. When it returns the block is on the disk; when it throws the
/// journal is as it was. Failure 65 not a journal, 73 cannot be opened for writing, 74 writing
/// broke off (disk full) or another process keeps it locked for ten seconds.
std::optional<SetAside> append_to_journal(const std::string& path, std::string_view block);

struct JournalText {
  std::string text;                     ///< without a torn tail
  std::optional<SetAside> set_aside{};  ///< the tail, when it could be moved
  std::optional<int> torn_line{};       ///< the tail, when it could not and still stands there
};

/// The journal's text ("-": io.in, which is left as it is). Failure 66 when it cannot be opened, 65
/// when it is no journal.
[[nodiscard]] JournalText read_journal_text(const std::string& path, Streams& io);

/// Its last entries, as many as 256 KiB hold, without waiting for a lock; empty when there are none
/// or they cannot be read.
[[nodiscard]] std::string journal_end(const std::string& path);

/// "journal.toml:41: warning: ..." with what was done about it.
[[nodiscard]] std::string told(const std::string& path, const SetAside& tail);

}  // namespace dampline::cli
