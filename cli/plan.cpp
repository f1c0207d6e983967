#include <dampline/planner/worked_day.hpp>

#include "knowledge.hpp"
#include "options.hpp"
#include "plan_outputs.hpp"
#include "plan_why.hpp"
#include "session_file.hpp"

namespace dampline::cli {

int run_plan(Arguments args, Streams io) {
  PlanWords words;
  std::optional<std::string> why;
  Options options(
      {.command = "plan",
       .purpose = "plan the day of a session: steps on the clock, every sheet pulled "
                  "while it is ready",
       .usage = "FILE [OPTIONS]",
       .examples = {"dampline plan my-day.toml", "dampline plan my-day.toml --html my-day.html",
                    "dampline plan my-day.toml --why soak-1"}});
  add_plan_options(options, words);
  options.text("why", why, "STEP",
               "instead of the plan, what holds this step where it is: its id, its words or a "
               "clock time; finish: what holds the finish");
  options.flag(
      "advice", words.plan.advice,
      "also what one change of the day would gain, and what is in the way of all asked for; "
      "each found by planning the changed day");
  if (!options.parse(args, io)) return exit_status::done;
  const auto session = read_session(words.path, io);
  const auto knowledge = read_knowledge(words.methods, io);
  if (!knowledge) return exit_status::bad_data;
  const auto worked = worked_day(session, *knowledge, words, io);
  if (!worked) return exit_status::bad_data;
  const auto& day = *worked;
  if (why) return tell_why(*why, words, session, day, io);
  const auto& plan = day.plan;
  write_plan(words, plan, session, io);
  return plan.pulls.empty() ? exit_status::problems : exit_status::done;
}

}  // namespace dampline::cli
