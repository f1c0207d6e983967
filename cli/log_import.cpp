#include <algorithm>
#include <ostream>

#include <dampline/journal/read.hpp>
#include <dampline/journal/write.hpp>
#include <dampline/session/zone.hpp>

#include "journal_entry.hpp"
#include "journal_file.hpp"
#include "log_words.hpp"
#include "session_file.hpp"
#include "step_list.hpp"

namespace dampline::cli {
namespace {

const journal::StepMark* mark_of(const journal::Record& record) {
  if (const auto* start = std::get_if<journal::Start>(&record)) return start;
  return std::get_if<journal::Finish>(&record);
}

/// The same step begun, or done, at the same minute of the same session.
bool same(const journal::Entry& a, const journal::Entry& b) {
  const auto* of_a = mark_of(a.record);
  const auto* of_b = mark_of(b.record);
  return of_a != nullptr && of_b != nullptr && a.record.index() == b.record.index() &&
         of_a->step == of_b->step && a.time.at == b.time.at && a.session == b.session;
}

template <class Kind>
journal::Entry entry_at(EntryWords words, const ListedStep& listed, const std::string& time,
                        const std::string& path, Streams& io) {
  words.at = time;
  try {
    auto entry = begun_entry(words, path, io);
    Kind mark;
    mark.step = listed.step;
    entry.record = mark;
    return entry;
  } catch (const Failure& fault) {
    throw Failure(exit_status::bad_data, listed.place + ": " + fault.what(), fault.help());
  }
}

}  // namespace

int log_import(Arguments args, Streams io) {
  EntryWords words;
  std::string list;
  Options options({.command = "log import",
                   .purpose = "steps done, from a list as the page of a plan writes it: a line "
                              "each, STEP START END; what is in the journal already stays single",
                   .usage = "LIST [OPTIONS]",
                   .examples = {"dampline log import done.txt --session my-day.toml",
                                "dampline log import - --session \"Salt marsh\" --on 2026-03-14"}});
  options.operand("LIST", list, "the list; - reads standard input");
  add_entry_options(options, words);
  if (!options.parse(args, io)) return exit_status::done;
  if (words.at) {
    throw Failure(exit_status::usage, "--at with a list: each line has its own times",
                  "leave --at out, or log one step: dampline log start STEP --at 14:20");
  }
  if (!words.on && words.session && words.session->ends_with(".toml")) {
    words.on = journal::date_text(read_session(*words.session, io).day.date);
  }
  const auto path = journal_path(words.journal);
  std::vector<journal::Entry> entries;
  int untimed = 0;
  for (const auto& listed : read_step_list(list, io)) {
    if (listed.start.empty()) {
      ++untimed;
      continue;
    }
    entries.push_back(entry_at<journal::Start>(words, listed, listed.start, path, io));
    if (!listed.end.empty()) {
      entries.push_back(entry_at<journal::Finish>(words, listed, listed.end, path, io));
    }
  }
  // All of a list in one write: none of it when the disk is full.
  const auto earlier = journal::read(journal_end(path), path);
  std::string block;
  int fresh = 0;
  for (const auto& entry : entries) {
    const bool known = std::any_of(earlier.entries.begin(), earlier.entries.end(),
                                   [&](const auto& other) { return same(entry, other); });
    if (known) continue;
    block += journal::written(entry);
    ++fresh;
  }
  if (fresh > 0) {
    if (const auto tail = append_to_journal(path, block)) io.err << told(path, *tail);
  }
  io.out << "logged " << fresh << (fresh == 1 ? " entry" : " entries");
  if (const auto there = entries.size() - static_cast<std::size_t>(fresh); there > 0) {
    io.out << ", " << there << " there already";
  }
  if (untimed > 0) io.out << ", " << untimed << " without a time left out";
  io.out << '\n';
  return exit_status::done;
}

}  // namespace dampline::cli
