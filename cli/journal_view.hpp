#pragma once

#include <optional>
#include <string>
#include <vector>

#include <dampline/journal/read.hpp>
#include <dampline/journal/sessions.hpp>

#include "options.hpp"

namespace dampline::cli {

/// Which entries to show.
struct ViewWords {
  std::optional<std::string> session;
  std::optional<std::string> since;
  std::optional<std::string> until;
  std::optional<std::string> kind;
  std::optional<std::string> stock;
  std::optional<std::string> journal;
};

/// Adds --session, --since, --until, --kind, --stock and --journal.
void add_view_options(Options& options, ViewWords& words);

/// The journal named, read. What could not be read of it, and a torn tail, are told on io.err; the
/// rest is there. Failure 66 when it is missing, 65 when it is no journal.
[[nodiscard]] journal::Journal read_journal(const std::optional<std::string>& named, Streams& io);

/// Entries that the words ask for, in the order of the file; they stay in the journal. A word that
/// says nothing is a Failure 2.
[[nodiscard]] std::vector<journal::Entry> chosen(journal::Journal journal, const ViewWords& words);

/// "2026-03-14" as a date; none when the text is no date.
[[nodiscard]] std::optional<std::chrono::year_month_day> date_in(const std::string& text);

/// "Salt marsh, Saturday 14 March 2026"
[[nodiscard]] std::string heading(const journal::Held& held, const Streams& io);

/// Text that is safe to print there.
[[nodiscard]] std::string printable(const std::string& text, const Streams& io);

/// The text below `first`, wrapped to the width of the terminal, later lines as far in.
[[nodiscard]] std::string hanging(const std::string& first, const std::string& text,
                                  const Streams& io);

}  // namespace dampline::cli
