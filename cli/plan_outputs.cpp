#include "plan_outputs.hpp"

#include <ostream>

#include <dampline/report/plan_html.hpp>
#include <dampline/report/plan_json.hpp>
#include <dampline/report/view.hpp>
#include <dampline/session/zone.hpp>

#include "output_file.hpp"

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
      .text("methods", words.methods, "FILE", "methods of your own, before those installed")
      .flag("quiet,q", words.quiet, "no plan on the screen")
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

void write_plan(const PlanWords& words, const planner::Plan& plan, const session::Session& session,
                Streams& io, std::vector<std::string> inputs) {
  const auto clock = clock_of(session);
  const auto shown = report::view(plan, clock);
  inputs.push_back(words.path);
  if (words.methods) inputs.push_back(*words.methods);
  if (words.html) write_output(*words.html, report::plan_html(shown), io, inputs);
  if (words.json) write_output(*words.json, report::plan_json(plan, clock), io, inputs);
  const bool out_taken = words.html == "-" || words.json == "-";
  if (words.quiet || out_taken) return;
  io.out << report::plan_text(shown, text_options(io));
}

}  // namespace dampline::cli
