#include "journal_entry.hpp"

#include <dampline/journal/kinds.hpp>
#include <dampline/journal/read.hpp>
#include <dampline/journal/sessions.hpp>
#include <dampline/session/timestamp.hpp>
#include <dampline/session/zone.hpp>

#include "journal_file.hpp"
#include "readings_file.hpp"
#include "session_file.hpp"

namespace dampline::cli {
namespace {

using std::chrono::minutes;
using std::chrono::seconds;
using std::chrono::sys_seconds;

const char* const day_help = "write the day like --on 2026-03-14";
const char* const time_help = "write the time like --at 14:20";

Failure bad_time(const std::string& option, const std::string& value, const std::string& what,
                 const std::string& help) {
  return {exit_status::usage, option + " \"" + value + "\": " + what, help};
}

std::chrono::year_month_day day_of(const std::string& text) {
  const auto read = session::read_time(text + " 00:00");
  if (read && (read->year_first || read->dots)) {
    if (const auto day = session::date_of(*read, session::DateOrder::day_first)) return *day;
  }
  throw bad_time("--on", text, "not a day", day_help);
}

// A clock time of a day in a zone.
journal::Stamp stamp_of(std::chrono::year_month_day day, seconds clock, const std::string& zone,
                        const std::string& said) {
  const auto whole = std::chrono::floor<minutes>(clock);
  const auto local = session::to_utc(zone, day, whole);
  if (local.kind == session::LocalInstant::Kind::skipped) {
    throw bad_time("--at", said, "the clocks of " + zone + " are put forward over it that day",
                   "write the time they showed afterwards");
  }
  return {local.at + (clock - whole), local.offset};
}

journal::Stamp time_of(const EntryWords& words, const std::string& zone) {
  const auto now = now_of_process();
  if (!words.at && !words.on) return {now, session::offset_at(zone, now)};
  const auto today = session::date_at(zone, now);
  const auto day = words.on ? day_of(*words.on) : today;
  if (!words.at) {
    if (day == today) return {now, session::offset_at(zone, now)};
    throw Failure(exit_status::usage, "--on without --at: at what time that day?", time_help);
  }
  if (const auto whole = session::read_time(*words.at)) {
    const auto date = session::date_of(*whole, session::DateOrder::day_first);
    if (!date || words.on || (!whole->year_first && !whole->dots)) {
      throw bad_time("--at", *words.at, "a day and a time in one",
                     "write --on 2026-03-14 --at 14:20");
    }
    if (!whole->offset) return stamp_of(*date, whole->clock, zone, *words.at);
    return {std::chrono::sys_days(*date) + whole->clock - *whole->offset, *whole->offset};
  }
  const auto clock = session::read_time("2000-01-01 " + *words.at);
  if (!clock || clock->offset) throw bad_time("--at", *words.at, "not a time of day", time_help);
  const auto stamp = stamp_of(day, clock->clock, zone, *words.at);
  if (!words.on && stamp.at > now + minutes(1)) {
    throw bad_time("--at", *words.at, "still to come today", "add the day: --on 2026-03-14");
  }
  return stamp;
}

// The text, which must be one that can be kept.
std::string kept(const char* option, const std::string& text, std::size_t longest) {
  if (const auto fault = journal::text_fault(text, longest)) {
    throw Failure(exit_status::usage, std::string(option) + " is " + fault->what, fault->help);
  }
  return text;
}

bool names_a_file(const std::string& session) { return session.ends_with(".toml"); }

}  // namespace

void add_entry_options(Options& options, EntryWords& words) {
  options
      .text("session", words.session, "TITLE",
            "the session it belongs to: a title, or a session file (.toml), whose day, paper and "
            "zone are then taken too (default: the one going on by the journal)")
      .text("at", words.at, "TIME", "the time of day, like 14:20 (default now)")
      .text("on", words.on, "DATE", "the day, like 2026-03-14 (default today)")
      .text("zone", words.zone, "NAME",
            "time zone of --at, like Europe/Lisbon (default that of the session file, else of the "
            "computer)")
      .text("stock", words.stock, "NAME", "the paper (default: that of the session)")
      .text("note", words.note, "TEXT", "a remark, up to 4000 characters")
      .text("journal", words.journal, "FILE",
            "another journal than the one `dampline paths` names");
}

journal::Entry begun_entry(const EntryWords& words, const std::string& path, Streams& io) {
  journal::Entry entry;
  auto zone = log_zone(words.zone);
  std::optional<std::chrono::year_month_day> day;
  std::optional<std::string> title = words.session;
  if (words.session && names_a_file(*words.session)) {
    const auto s = read_session(*words.session, io);
    if (!words.zone) zone = s.day.zone;
    title = s.title;
    day = s.day.date;
    entry.stock = s.paper.stock;
  }
  entry.time = time_of(words, zone);
  const auto earlier = journal::read(journal_end(path), path);
  const auto* other = journal::going_on(earlier.entries, entry.time, title);
  entry.day = day ? *day : (other != nullptr ? other->day : journal::date_of(entry.time));
  if (title) {
    entry.session = kept("--session", *title, journal::longest_name);
  } else if (other != nullptr) {
    entry.session = other->session;
  }
  if (entry.stock.empty() && other != nullptr) entry.stock = other->stock;
  if (words.stock) entry.stock = kept("--stock", *words.stock, journal::longest_name);
  if (words.note) entry.remark = kept("--note", *words.note, journal::longest_note);
  return entry;
}

}  // namespace dampline::cli
