#include <ostream>

#include <dampline/planner/day.hpp>
#include <dampline/report/plan_html.hpp>
#include <dampline/report/plan_json.hpp>
#include <dampline/report/plan_text.hpp>
#include <dampline/report/view.hpp>
#include <dampline/session/zone.hpp>

#include "knowledge.hpp"
#include "options.hpp"
#include "output_file.hpp"
#include "session_file.hpp"

namespace dampline::cli {
namespace {

struct PlanWords {
  std::string path;
  std::optional<std::string> html;
  std::optional<std::string> json;
  std::optional<std::string> methods;
  bool quiet = false;
  planner::PlanOptions plan;
  int conflicts = 60000;
  int seed = 1;
};

report::Clock clock_of(const session::Session& s) {
  const auto zone = s.day.zone;
  return {[zone](report::Instant at) { return session::offset_at(zone, at); }};
}

void write_outputs(const PlanWords& words, const planner::Plan& plan,
                   const session::Session& session, Streams& io) {
  const auto clock = clock_of(session);
  const auto shown = report::view(plan, clock);
  std::vector<std::string> inputs{words.path};
  if (words.methods) inputs.push_back(*words.methods);
  if (words.html) write_output(*words.html, report::plan_html(shown), io, inputs);
  if (words.json) write_output(*words.json, report::plan_json(plan, clock), io, inputs);
  const bool out_taken = words.html == "-" || words.json == "-";
  if (words.quiet || out_taken) return;
  report::TextOptions text;
  text.columns = io.columns;
  text.utf8 = io.utf8;
  text.colour = io.out_colour;
  io.out << report::plan_text(shown, text);
}

}  // namespace

int run_plan(Arguments args, Streams io) {
  PlanWords words;
  Options options(
      {.command = "plan",
       .purpose = "plan the day of a session: steps on the clock, every sheet pulled "
                  "while it is ready",
       .usage = "FILE [OPTIONS]",
       .examples = {"dampline plan my-day.toml", "dampline plan my-day.toml --html my-day.html",
                    "dampline plan my-day.toml --json -"}});
  options.operand("FILE", words.path, "session file; - reads standard input")
      .text("html", words.html, "FILE", "write the step sheet as a page; - is standard output")
      .text("json", words.json, "FILE", "write the plan as data; - is standard output")
      .text("methods", words.methods, "FILE", "methods of your own, before those installed")
      .flag("quiet,q", words.quiet, "no plan on the screen")
      .whole("samples", words.plan.samples, 8, 10000,
             "likely sheets simulated for bands and chances")
      .whole("conflicts", words.conflicts, 100, 10000000,
             "work allowed for each question put to the scheduler")
      .whole("seed", words.seed, 1, 1000000, "of the samples and the search");
  if (!options.parse(args, io)) return exit_status::done;
  words.plan.conflicts = words.conflicts;
  words.plan.seed = static_cast<unsigned>(words.seed);
  const auto session = read_session(words.path, io);
  const auto knowledge = read_knowledge(words.methods, io);
  if (!knowledge) return exit_status::bad_data;
  const auto planned = planner::plan_day(session, *knowledge, words.plan);
  if (const auto* errors = std::get_if<session::InputErrors>(&planned)) {
    print_errors(*errors, io);
    return exit_status::bad_data;
  }
  const auto& plan = std::get<planner::Plan>(planned);
  write_outputs(words, plan, session, io);
  return plan.pulls.empty() ? exit_status::problems : exit_status::done;
}

}  // namespace dampline::cli
