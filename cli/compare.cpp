#include <ostream>

#include <dampline/report/studios.hpp>

#include "knowledge.hpp"
#include "options.hpp"
#include "plan_outputs.hpp"
#include "progress.hpp"
#include "session_file.hpp"

namespace dampline::cli {
namespace {

constexpr std::size_t most_studios = 12;

}  // namespace

int run_compare(Arguments args, Streams io) {
  PlanWords words;
  std::vector<planner::OtherStudio> others;
  Options options(
      {.command = "compare",
       .purpose = "the same day in other studios: what fits, when, how surely, and how long "
                  "prints dry, as one table and a chart",
       .usage = "FILE --studio \"12 degC, 80 %\" ... [OPTIONS]",
       .examples = {
           "dampline compare my-day.toml --studio \"12 degC, 80 %\"",
           "dampline compare my-day.toml --studio \"25 degC, 30 %, fan\" --json day.json"}});
  options.operand("FILE", words.path, "session file; - reads standard input")
      .quantities("studio", others, &planner::parse_studio, "12 degC, 80 %",
                  "air of another studio: temperature (0 to 45 degC), humidity (1 to 100 %) and, "
                  "if it differs, still, ordinary or fan")
      .text("json", words.json, "FILE", "write the table as data; - is standard output")
      .flag("quiet,q", words.quiet, "nothing on the screen, no progress");
  add_work_options(options, words);
  if (!options.parse(args, io)) return exit_status::done;
  if (others.empty() || others.size() > most_studios) {
    throw Failure(
        exit_status::usage,
        others.empty() ? "no --studio to compare with" : "more than 12 studios do not fit a table",
        "dampline compare FILE --studio \"12 degC, 80 %\"");
  }
  const auto session = read_session(words.path, io);
  const auto knowledge = read_knowledge(words.methods, io);
  if (!knowledge) return exit_status::bad_data;
  std::vector<session::Session> studios{session};
  for (const auto& other : others) studios.push_back(planner::in_studio(session, other));
  std::vector<planner::StudioDay> days;
  Progress progress(io, words.quiet || words.json == "-");
  for (const auto& studio : studios) {
    progress.say("studio " + std::to_string(days.size() + 1) + " of " +
                 std::to_string(studios.size()));
    const auto planned = planner::work_out(studio, *knowledge, plan_options(words));
    if (const auto* errors = std::get_if<session::InputErrors>(&planned)) {
      progress.clear();
      print_errors(*errors, io);
      return exit_status::bad_data;
    }
    days.push_back(planner::studio_day(std::get<planner::WorkedDay>(planned), knowledge->drying));
    days.back().own = days.size() == 1;
  }
  progress.clear();
  const auto clock = clock_of(session);
  write_files({{words.json, [&] { return report::studios_json(session.title, days, clock); }}}, io,
              inputs_of(words));
  if (!words.quiet && words.json != "-") {
    io.out << report::studios_text(session.title, days, clock, text_options(io));
  }
  return exit_status::done;
}

}  // namespace dampline::cli
