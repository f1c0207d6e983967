#include <algorithm>
#include <filesystem>
#include <ostream>

#include <dampline/planner/draft.hpp>
#include <dampline/planner/history.hpp>
#include <dampline/planner/late.hpp>
#include <dampline/session/zone.hpp>

#include "journal_file.hpp"
#include "journal_view.hpp"
#include "knowledge.hpp"
#include "late_journal.hpp"
#include "late_words.hpp"
#include "options.hpp"
#include "plan_outputs.hpp"
#include "session_file.hpp"

namespace dampline::cli {
namespace {

void add_late_options(Options& options, LateWords& words) {
  options
      .text("at", words.at, "HH:MM",
            "the clock time it is; nothing new begins before (default, where the journal tells "
            "what is "
            "done: now, on the day itself, else its last entry)")
      .texts("done", words.done, "STEP[@START[-END]]",
             "a step that is done, by its id or its words; its times as planned when not given; "
             "@LIST reads a list of them, a line each: STEP START END; - reads it from standard "
             "input")
      .text("done-until", words.done_until, "STEP",
            "this step and all that was to be over by its end are done")
      .texts("running", words.running, "STEP[@START]", "a step that is being done")
      .quantity("late", words.late, units::parse_duration, "40 min",
                "the whole day so far is this much later than planned: done is what was to be "
                "over so long ago, each step that much later")
      .texts("uncovered", words.uncovered, "SHEETS[@SINCE]",
             "wet sheets found lying in the open, like 3-6@11:30; since they were blotted when no "
             "time is given")
      .text("until", words.until, "HH:MM", "stay until; else as the session has it")
      .text("journal", words.journal, "FILE",
            "where to read what is done when nothing is said of it (default: the journal that "
            "`dampline paths` names)");
}

int refuse(const planner::LateFaults& faults, const LateWords& words, Streams& io) {
  for (const auto& fault : faults) {
    io.err << "dampline late: " << fault.what << '\n';
    if (!fault.help.empty()) io.err << "help: " << fault.help << '\n';
  }
  const bool listed = std::any_of(words.done.begin(), words.done.end(), [](const auto& done) {
    return done == "-" || done.starts_with('@');
  });
  return listed ? exit_status::bad_data : exit_status::usage;
}

// The journal that is named, or the usual one where there is one.
std::optional<journal::Journal> journal_of(const LateWords& words, Streams& io) {
  if (!words.journal) {
    try {
      std::error_code none;
      if (!std::filesystem::exists(journal_path(std::nullopt), none)) return std::nullopt;
    } catch (const Failure&) {  // no place for one
      return std::nullopt;
    }
  }
  return read_journal(words.journal, io);
}

// Now, if that is in the day and after all that is written down; else the last that is.
std::string time_of(const JournalNews& news, const session::Session& s) {
  using planner::HalfMinutes;
  const auto since = now_of_process() - session::opening(s.day);
  auto at = *news.latest;
  if (since >= at && since < planner::day_length(s)) at = std::chrono::floor<HalfMinutes>(since);
  return planner::clock_time(s.day, std::chrono::ceil<std::chrono::minutes>(at));
}

// What is said, and when nothing is said of what is done, what is written down.
planner::LateNews news_from(LateWords& words, const session::Session& s, Streams& io) {
  if (words.tells()) return late_news(words, s.day, io);
  const auto journal = journal_of(words, io);
  if (!journal) return late_news(words, s.day, io);
  std::optional<planner::HalfMinutes> until;
  if (words.at) until = late_news(words, s.day, io).at;
  auto written = news_of(*journal, s, until);
  if (!words.at && written.latest) words.at = time_of(written, s);
  auto news = late_news(words, s.day, io);
  if (written.entries == 0) {
    news.notes.push_back(journal->file + " has no entry of this session, so nothing is done.");
    return news;
  }
  news.steps = std::move(written.steps);
  news.spoiled = std::move(written.spoiled);
  news.notes = std::move(written.notes);
  return news;
}

}  // namespace

int run_late(Arguments args, Streams io) {
  PlanWords words;
  LateWords late;
  Options options({.command = "late",
                   .purpose =
                       "plan the rest of a day that has begun: what is done stays, wet paper "
                       "keeps the damp it has, the rest is planned anew",
                   .usage = "FILE [--at HH:MM] [OPTIONS]",
                   .examples = {"dampline late my-day.toml",
                                "dampline late my-day.toml --at 12:00 --late \"40 min\"",
                                "dampline late my-day.toml --at 14:20 --done-until print-3",
                                "dampline late my-day.toml --at 14:20 --done @done.txt --html -"}});
  add_plan_options(options, words);
  add_late_options(options, late);
  if (!options.parse(args, io)) return exit_status::done;
  if (words.path == "-" && std::count(late.done.begin(), late.done.end(), "-") > 0) {
    throw Failure(exit_status::usage, "session and list of steps both come from standard input",
                  "name a file for one of them, as in --done @done.txt");
  }
  const auto session = read_session(words.path, io);
  const auto knowledge = read_knowledge(words.methods, io);
  if (!knowledge) return exit_status::bad_data;
  const auto news = news_from(late, session, io);
  const auto planned = planner::plan_late(session, *knowledge, news, plan_options(words));
  if (const auto* errors = std::get_if<session::InputErrors>(&planned)) {
    print_errors(*errors, io);
    return exit_status::bad_data;
  }
  if (const auto* faults = std::get_if<planner::LateFaults>(&planned)) {
    return refuse(*faults, late, io);
  }
  std::vector<std::string> inputs;
  for (const auto& done : late.done) {
    if (done.starts_with('@')) inputs.push_back(done.substr(1));
  }
  if (late.journal && *late.journal != "-") inputs.push_back(*late.journal);
  const auto& plan = std::get<planner::Plan>(planned);
  write_plan(words, plan, session, io, inputs);
  return plan.pulls.empty() ? exit_status::problems : exit_status::done;
}

}  // namespace dampline::cli
