#pragma once

#include <optional>
#include <string>

#include <dampline/journal/entry.hpp>

#include "options.hpp"

namespace dampline::cli {

/// What every entry may be told on the command line.
struct EntryWords {
  std::optional<std::string> session;  ///< a title, or a session file
  std::optional<std::string> at;
  std::optional<std::string> on;
  std::optional<std::string> zone;
  std::optional<std::string> stock;
  std::optional<std::string> note;
  std::optional<std::string> journal;
};

/// Adds --session, --at, --on, --zone, --stock, --note and --journal.
void add_entry_options(Options& options, EntryWords& words);

/// An entry with everything but its record: when, and to which session it belongs. A session that
/// is not named is the one going on by the end of the journal at `path`. A time that cannot be is a
/// Failure 2.
[[nodiscard]] journal::Entry begun_entry(const EntryWords& words, const std::string& path,
                                         Streams& io);

}  // namespace dampline::cli
