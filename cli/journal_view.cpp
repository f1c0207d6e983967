#include "journal_view.hpp"

#include <algorithm>
#include <ostream>

#include <dampline/journal/kinds.hpp>
#include <dampline/report/characters.hpp>
#include <dampline/report/clock.hpp>
#include <dampline/session/timestamp.hpp>
#include <dampline/units/suggest.hpp>

#include "input_file.hpp"
#include "journal_file.hpp"

namespace dampline::cli {
namespace {

constexpr std::size_t most_errors = 20;  // more say nothing new

void tell(const JournalText& text, const std::string& path, Streams& io) {
  if (text.set_aside) io.err << told(path, *text.set_aside);
  if (text.torn_line) {
    io.err << path << ":" << *text.torn_line
           << ": warning: the last entry was cut off while it was written, and is left out\n"
              "help: every entry before it is there\n";
  }
}

void tell(const session::InputErrors& errors, Streams& io) {
  for (std::size_t i = 0; i < std::min(errors.size(), most_errors); ++i) {
    io.err << session::rendered(errors[i], "warning") << '\n';
  }
  if (errors.size() > most_errors) {
    io.err << "and " << errors.size() - most_errors << " more like these\n";
  }
  if (!errors.empty()) io.err << "what could not be read stays in the journal; the rest is here\n";
}

std::optional<std::chrono::year_month_day> bound(const char* option,
                                                 const std::optional<std::string>& word) {
  if (!word) return std::nullopt;
  const auto date = date_in(*word);
  if (!date) {
    throw Failure(exit_status::usage, std::string(option) + " \"" + *word + "\": not a day",
                  "write it like " + std::string(option) + " 2026-03-14");
  }
  return date;
}

}  // namespace

std::optional<std::chrono::year_month_day> date_in(const std::string& text) {
  const auto read = session::read_time(text + " 00:00");
  if (!read || (!read->year_first && !read->dots)) return std::nullopt;
  return session::date_of(*read, session::DateOrder::day_first);
}

void add_view_options(Options& options, ViewWords& words) {
  std::string names;
  for (const auto& kind : journal::kinds()) {
    names += (names.empty() ? "" : ", ") + std::string(kind.name);
  }
  options.text("session", words.session, "TITLE", "only sessions of this title")
      .text("since", words.since, "DATE", "only days from this one on, like 2026-03-14")
      .text("until", words.until, "DATE", "only days up to this one")
      .text("kind", words.kind, "WORD", "only entries of one kind: " + names)
      .text("stock", words.stock, "NAME", "only entries on this paper")
      .text("journal", words.journal, "FILE",
            "another journal than the one `dampline paths` names; - reads standard input");
}

journal::Journal read_journal(const std::optional<std::string>& named, Streams& io) {
  const auto path = journal_path(named);
  const auto text = read_journal_text(path, io);
  tell(text, path, io);
  auto journal = journal::read(text.text, input_name(path));
  tell(journal.errors, io);
  return journal;
}

std::vector<journal::Entry> chosen(journal::Journal journal, const ViewWords& words) {
  const auto since = bound("--since", words.since);
  const auto until = bound("--until", words.until);
  auto& entries = journal.entries;
  if (words.kind && journal::find_kind(*words.kind) == nullptr) {
    std::vector<std::string> names;
    for (const auto& kind : journal::kinds()) names.emplace_back(kind.name);
    for (const auto& e : entries) names.emplace_back(journal::kind_name(e.record));
    if (std::find(names.begin(), names.end(), *words.kind) == names.end()) {
      const auto near = units::nearest(*words.kind, names);
      throw Failure(exit_status::usage, "--kind \"" + *words.kind + "\": no such kind of entry",
                    near ? "did you mean " + *near + "?" : "dampline log --help lists them");
    }
  }
  std::erase_if(entries, [&](const journal::Entry& e) {
    return (words.session && e.session != *words.session) || (since && e.day < *since) ||
           (until && e.day > *until) || (words.stock && e.stock != *words.stock) ||
           (words.kind && journal::kind_name(e.record) != *words.kind);
  });
  return std::move(entries);
}

std::string printable(const std::string& text, const Streams& io) {
  return io.utf8 ? report::clean(text) : report::ascii(report::clean(text));
}

std::string heading(const journal::Held& held, const Streams& io) {
  const auto day = report::date_text({}, std::chrono::sys_days(held.day));
  return (held.title.empty() ? "Without a title" : printable(held.title, io)) + ", " + day;
}

std::string hanging(const std::string& first, const std::string& text, const Streams& io) {
  const int indent = report::display_width(first);
  const int width = std::max(std::clamp(io.columns, 40, 100) - indent, 20);
  const auto safe = printable(text, io);
  if (report::display_width(safe) <= width) return first + safe + '\n';
  std::string out;
  for (const auto& line : report::wrap(safe, width)) {
    out += (out.empty() ? first : std::string(static_cast<std::size_t>(indent), ' ')) + line + '\n';
  }
  return out;
}

}  // namespace dampline::cli
