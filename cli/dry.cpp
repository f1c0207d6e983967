#include <ostream>

#include <dampline/planner/after_press.hpp>
#include <dampline/report/drying.hpp>
#include <dampline/session/clock_time.hpp>
#include <dampline/session/zone.hpp>

#include "knowledge.hpp"
#include "options.hpp"
#include "plan_outputs.hpp"
#include "session_file.hpp"

namespace dampline::cli {
namespace {

units::Parsed<session::ClockTime> clock_time(std::string_view text) {
  if (const auto time = session::clock_time_from(text)) return *time;
  return units::Refusal{0, "not a clock time", "write it as 18:20"};
}

}  // namespace

int run_dry(Arguments args, Streams io) {
  PlanWords words;
  std::optional<session::ClockTime> finished;
  Options options(
      {.command = "dry",
       .purpose = "after the press: when to change blotters, and when prints are dry, "
                  "flat and may be stacked, each with its range and basis",
       .usage = "FILE [OPTIONS]",
       .examples = {"dampline dry my-day.toml", "dampline dry my-day.toml --ics dry.ics",
                    "dampline dry my-day.toml --finished 18:20"}});
  options.operand("FILE", words.path, "session file; - reads standard input")
      .text("ics", words.ics, "FILE", "write a calendar; - is standard output")
      .flag("reminders", words.reminders,
            "in the calendar, alarms as events too: some calendars drop alarms on import")
      .text("json", words.json, "FILE", "write the dates as data; - is standard output")
      .quantity("finished", finished, &clock_time, "18:20",
                "when the last print was laid away, if not as planned")
      .flag("quiet,q", words.quiet, "nothing on the screen");
  add_work_options(options, words);
  if (!options.parse(args, io)) return exit_status::done;
  const auto session = read_session(words.path, io);
  const auto knowledge = read_knowledge(words.methods, io);
  if (!knowledge) return exit_status::bad_data;
  const auto day = worked_day(session, *knowledge, words, io);
  if (!day) return exit_status::bad_data;
  planner::AfterPressOptions how{.finished = {}, .samples = words.plan.samples};
  if (finished) {
    how.finished = session::to_utc(session.day.zone, session.day.date, *finished).at;
  }
  const auto calendar = planner::after_press(*day, knowledge->drying, how);
  if (!calendar) {
    io.err << "dampline dry: nothing is printed that day, so nothing dries\n"
              "help: dampline plan says why\n";
    return exit_status::problems;
  }
  const auto clock = clock_of(session);
  const std::vector<OutputFile> files{
      {words.json, [&] { return report::drying_json(*calendar, clock); }},
      {words.ics, [&] {
         auto out = report::drying_events(*calendar, clock, revised_at(words.path));
         out.reminders = words.reminders;
         return report::ics(out);
       }}};
  write_files(files, io, inputs_of(words));
  if (words.quiet || words.json == "-" || words.ics == "-") return exit_status::done;
  io.out << report::drying_text(*calendar, clock, text_options(io));
  return exit_status::done;
}

}  // namespace dampline::cli
