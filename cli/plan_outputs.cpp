#include "plan_outputs.hpp"

#include <algorithm>
#include <cstdlib>
#include <ostream>

#include <sys/stat.h>

#include <dampline/report/csv.hpp>
#include <dampline/report/plan_html.hpp>
#include <dampline/report/plan_ics.hpp>
#include <dampline/report/plan_json.hpp>
#include <dampline/report/plan_pdf.hpp>
#include <dampline/report/plan_svg.hpp>
#include <dampline/session/zone.hpp>

#include "output_file.hpp"
#include "session_file.hpp"

namespace dampline::cli {

report::Clock clock_of(const session::Session& s) {
  const auto zone = s.day.zone;
  return {[zone](report::Instant at) { return session::offset_at(zone, at); }};
}

report::TextOptions text_options(const Streams& io) {
  return {.columns = io.columns, .utf8 = io.utf8, .colour = io.out_colour};
}

void add_plan_options(Options& options, PlanWords& words) {
  options.operand("FILE", words.path, "session file; - reads standard input")
      .text("html", words.html, "FILE", "write the step sheet as a page; - is standard output")
      .text("json", words.json, "FILE", "write the plan as data; - is standard output")
      .text("ics", words.ics, "FILE",
            "write a calendar: soaking, first pull, blotters, dry, flat; - is standard output")
      .flag("reminders", words.reminders,
            "in the calendar, alarms as events too: some calendars drop alarms on import")
      .text("svg", words.svg, "FILE",
            "write the charts as a drawing: who does what, and the paper; - is standard output")
      .text("pdf", words.pdf, "FILE",
            "write the step sheet to print: large, with boxes to tick; - is standard output")
      .text("csv", words.csv, "FILE", "write the steps as a table; - is standard output")
      .word("csv-dialect", words.csv_dialect, {"comma", "semicolon"},
            "of the table: RFC 4180, or ; and the decimal comma")
      .flag("quiet,q", words.quiet, "no plan on the screen");
  add_work_options(options, words);
}

void add_work_options(Options& options, PlanWords& words) {
  options.text("methods", words.methods, "FILE", "methods of your own, before those installed")
      .whole("samples", words.plan.samples, 8, 10000,
             "likely sheets simulated for bands and chances")
      .whole("conflicts", words.conflicts, 100, 10000000,
             "work allowed for each question put to the scheduler")
      .whole("seed", words.seed, 1, 1000000, "of the samples and the search");
}

planner::PlanOptions plan_options(const PlanWords& words) {
  auto options = words.plan;
  options.conflicts = words.conflicts;
  options.seed = static_cast<unsigned>(words.seed);
  return options;
}

std::optional<planner::WorkedDay> worked_day(const session::Session& session,
                                             const planner::Knowledge& knowledge,
                                             const PlanWords& words, Streams& io) {
  auto planned = planner::work_out(session, knowledge, plan_options(words));
  if (const auto* errors = std::get_if<session::InputErrors>(&planned)) {
    print_errors(*errors, io);
    return std::nullopt;
  }
  return std::move(std::get<planner::WorkedDay>(planned));
}

report::View view_of(const planner::Plan& plan, const session::Session& session) {
  auto shown = report::view(plan, clock_of(session));
  report::add_session(plan, session, shown);
  return shown;
}

std::vector<std::string> inputs_of(const PlanWords& words) {
  std::vector<std::string> inputs{words.path};
  if (words.methods) inputs.push_back(*words.methods);
  return inputs;
}

report::Instant revised_at(const std::string& path) {
  struct stat about {};
  const char* stated = std::getenv("SOURCE_DATE_EPOCH");
  const bool epoch = stated != nullptr && *stated != '\0';
  if (path == "-" || epoch || ::stat(path.c_str(), &about) != 0) return now_of_process();
  return report::Instant(std::chrono::seconds(about.st_mtim.tv_sec));
}

namespace {

std::string calendar(const PlanWords& words, const planner::Plan& plan,
                     const report::Clock& clock) {
  auto revised = revised_at(words.path);
  if (plan.late) revised = std::max(revised, report::instant(plan, plan.late->at));
  auto calendar = report::plan_calendar(plan, clock, revised);
  calendar.reminders = words.reminders;
  return report::ics(calendar);
}

}  // namespace

void write_files(const std::vector<OutputFile>& files, Streams& io,
                 const std::vector<std::string>& inputs) {
  std::vector<std::string> taken;
  for (const auto& file : files) {
    if (!file.path) continue;
    if (std::find(taken.begin(), taken.end(), *file.path) != taken.end()) {
      throw Failure(exit_status::usage,
                    *file.path == "-" ? "two outputs both to standard output"
                                      : "two outputs to one file: " + *file.path,
                    "name a file of its own for each");
    }
    taken.push_back(*file.path);
  }
  for (const auto& file : files) {
    if (file.path) write_output(*file.path, file.bytes(), io, inputs);
  }
}

void write_plan(const PlanWords& words, const planner::Plan& plan, const session::Session& session,
                Streams& io, std::vector<std::string> inputs) {
  const auto clock = clock_of(session);
  const auto shown = view_of(plan, session);
  for (auto& input : inputs_of(words)) inputs.push_back(std::move(input));
  const auto separator =
      words.csv_dialect == "semicolon" ? report::Separator::semicolon : report::Separator::comma;
  const std::vector<OutputFile> files{
      {words.html, [&] { return report::plan_html(shown); }},
      {words.json, [&] { return report::plan_json(plan, clock); }},
      {words.ics, [&] { return calendar(words, plan, clock); }},
      {words.svg, [&] { return report::plan_svg(shown); }},
      {words.pdf, [&] { return report::plan_pdf(shown); }},
      {words.csv, [&] { return report::plan_csv(plan, clock, separator); }}};
  write_files(files, io, inputs);
  const bool out_taken =
      std::any_of(files.begin(), files.end(), [](const auto& f) { return f.path == "-"; });
  if (words.quiet || out_taken) return;
  io.out << report::plan_text(shown, text_options(io));
}

}  // namespace dampline::cli
