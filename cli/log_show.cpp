#include <algorithm>
#include <ostream>

#include <dampline/journal/card.hpp>
#include <dampline/journal/compare.hpp>
#include <dampline/journal/kinds.hpp>
#include <dampline/journal/write.hpp>
#include <dampline/report/characters.hpp>
#include <dampline/units/suggest.hpp>

#include "journal_view.hpp"
#include "log_words.hpp"

namespace dampline::cli {
namespace {

using journal::Held;

Failure nothing_yet() {
  return {exit_status::no_input, "the journal has no entries yet",
          "dampline log note TEXT writes one"};
}

// "2026-03-14" or a title: the sessions of that day, or the latest of that title.
std::vector<Held> sessions_named(const std::vector<Held>& all, const std::string& word) {
  std::vector<Held> out;
  if (const auto day = date_in(word)) {
    std::copy_if(all.begin(), all.end(), std::back_inserter(out),
                 [&](const Held& h) { return h.day == *day; });
    if (!out.empty()) return out;
    std::string days;
    for (std::size_t i = all.size() > 5 ? all.size() - 5 : 0; i < all.size(); ++i) {
      days += (days.empty() ? "" : ", ") + journal::date_text(all[i].day);
    }
    throw Failure(exit_status::usage, "the journal has nothing on " + word,
                  "the latest sessions were on " + days);
  }
  const auto last =
      std::find_if(all.rbegin(), all.rend(), [&](const Held& h) { return h.title == word; });
  if (last != all.rend()) return {*last};
  std::vector<std::string> titles;
  for (const auto& held : all) {
    if (!held.title.empty()) titles.push_back(held.title);
  }
  const auto near = units::nearest(word, titles);
  throw Failure(
      exit_status::usage, "the journal has no session \"" + word + "\"",
      near ? "did you mean \"" + *near + "\"?" : "give a day, or a title as it was logged");
}

Held one_session(const std::vector<Held>& all, const std::string& word) {
  auto found = sessions_named(all, word);
  if (found.size() == 1) return std::move(found.front());
  std::vector<std::string> titles;
  for (const auto& held : found) titles.push_back(held.title.empty() ? "" : held.title);
  throw Failure(exit_status::usage,
                "there were " + std::to_string(found.size()) + " sessions on " + word,
                "give a title instead: " + units::listed(titles));
}

void print_card(const Held& held, Streams& io) {
  io.out << heading(held, io) << '\n';
  const auto& first = held.entries.front()->time;
  const auto& last = held.entries.back()->time;
  io.out << "  " << held.entries.size() << (held.entries.size() == 1 ? " entry" : " entries")
         << ", " << journal::clock_text(first) << " to " << journal::clock_text(last) << '\n';
  for (const auto& part : journal::card(held)) {
    io.out << '\n' << part.name << '\n';
    for (const auto& line : part.lines) {
      io.out << hanging("  " + line.time + (line.time.empty() ? "" : "  "), line.text, io);
    }
  }
}

std::string column(const std::string& text, int width, const Streams& io) {
  return report::padded(report::shortened(printable(text, io), width), width);
}

void print_difference(const journal::Difference& d, Streams& io) {
  const bool fits = d.first.size() <= 14 && d.second.size() <= 14;
  if (fits) {
    io.out << "  " << column(d.what, 26, io) << "  " << column(d.first, 14, io) << "  "
           << column(d.second, 14, io) << "  " << d.change << '\n';
    return;
  }
  io.out << "  " << printable(d.what, io) << '\n'
         << hanging("    first   ", d.first.empty() ? "-" : d.first, io)
         << hanging("    second  ", d.second.empty() ? "-" : d.second, io);
}

void print_only(const char* title, const std::vector<journal::Fact>& facts, Streams& io) {
  if (facts.empty()) return;
  io.out << '\n' << title << '\n';
  for (const auto& fact : facts) {
    io.out << hanging("  ", fact.what + ": " + journal::text(fact), io);
  }
}

void print_comparison(const Held& first, const Held& second, Streams& io) {
  const auto c = journal::compare(first, second);
  io.out << "first   " << heading(first, io) << "\nsecond  " << heading(second, io) << '\n';
  if (!c.outcome.empty()) io.out << "\nWhat came of it\n";
  for (const auto& d : c.outcome) print_difference(d, io);
  io.out << "\nWhat differs, the largest first\n";
  for (const auto& d : c.differ) print_difference(d, io);
  if (c.differ.empty()) io.out << "  nothing that was written down on both days\n";
  print_only("Written down on the first day only", c.first_only, io);
  print_only("Written down on the second day only", c.second_only, io);
  if (c.alike > 0) {
    io.out << '\n' << c.alike << (c.alike == 1 ? " thing" : " things") << " alike, not shown\n";
  }
}

}  // namespace

int log_list(Arguments args, Streams io) {
  ViewWords words;
  Options options({.command = "log list",
                   .purpose = "the entries, by session",
                   .usage = "[OPTIONS]",
                   .examples = {"dampline log list --since 2026-03-01",
                                "dampline log list --kind weigh --session \"Salt marsh\""}});
  add_view_options(options, words);
  if (!options.parse(args, io)) return exit_status::done;
  const auto entries = chosen(read_journal(words.journal, io), words);
  std::size_t unknown = 0;
  bool first = true;
  for (const auto& held : journal::sessions(entries)) {
    io.out << (first ? "" : "\n") << heading(held, io) << '\n';
    first = false;
    for (const auto* e : held.entries) {
      const auto kind = printable(std::string(journal::kind_name(e->record)), io);
      const bool known = !std::holds_alternative<journal::Unknown>(e->record);
      unknown += known && e->others.empty() ? 0U : 1U;
      io.out << hanging("  " + journal::clock_text(e->time) + "  " + report::padded(kind, 7) +
                            (known ? " " : "?"),
                        journal::summary(*e), io);
    }
  }
  if (entries.empty()) io.err << "no such entries\n";
  if (unknown > 0) {
    io.err
        << "\n"
        << unknown << (unknown == 1 ? " entry has" : " entries have")
        << " a kind or key this version does not know: written by a newer one? They are shown as "
           "they are\n";
  }
  return exit_status::done;
}

int log_card(Arguments args, Streams io) {
  std::optional<std::string> which;
  ViewWords words;
  Options options({.command = "log card",
                   .purpose = "the record card of a session",
                   .usage = "[DATE | TITLE] [OPTIONS]",
                   .examples = {"dampline log card", "dampline log card 2026-03-14",
                                "dampline log card \"Salt marsh\""}});
  options
      .optional_operand("DATE | TITLE", which,
                        "a day, or a title and then its latest day (default: the latest session)")
      .text("journal", words.journal, "FILE", "another journal; - reads standard input");
  if (!options.parse(args, io)) return exit_status::done;
  const auto journal = read_journal(words.journal, io);
  const auto all = journal::sessions(journal.entries);
  if (all.empty()) throw nothing_yet();
  const auto held = which ? sessions_named(all, *which) : std::vector<Held>{all.back()};
  for (std::size_t i = 0; i < held.size(); ++i) {
    if (i > 0) io.out << "\n\n";
    print_card(held[i], io);
  }
  return exit_status::done;
}

int log_compare(Arguments args, Streams io) {
  std::string first;
  std::string second;
  ViewWords words;
  Options options({.command = "log compare",
                   .purpose = "two days side by side: only what differs, the largest first",
                   .usage = "FIRST SECOND [OPTIONS]",
                   .examples = {"dampline log compare 2026-03-09 2026-03-12",
                                "dampline log compare \"Salt marsh\" 2026-03-12"}});
  options.operand("FIRST", first, "the day it went right: a date, or a title and its latest day")
      .operand("SECOND", second, "the day it went wrong, likewise")
      .text("journal", words.journal, "FILE", "another journal; - reads standard input");
  if (!options.parse(args, io)) return exit_status::done;
  const auto journal = read_journal(words.journal, io);
  const auto all = journal::sessions(journal.entries);
  if (all.empty()) throw nothing_yet();
  print_comparison(one_session(all, first), one_session(all, second), io);
  return exit_status::done;
}

}  // namespace dampline::cli
