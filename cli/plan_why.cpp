#include "plan_why.hpp"

#include <ostream>

#include <dampline/planner/find_step.hpp>
#include <dampline/planner/why.hpp>
#include <dampline/report/why_words.hpp>
#include <dampline/units/suggest.hpp>

#include "output_file.hpp"

namespace dampline::cli {
namespace {

constexpr std::size_t most_listed = 8;

// The step that is meant, or a Failure that lists what there is.
std::string meant(const std::string& word, const planner::Plan& plan, const session::Day& day) {
  if (word == "finish") return word;
  auto sought = planner::seek_step(plan.steps, day, word);
  auto& ids = sought.ids;
  if (ids.size() == 1) return ids.front();
  if (ids.empty()) {
    const auto near = sought.near ? "did you mean " + *sought.near + "? " : std::string();
    throw Failure(exit_status::usage, "no step of this plan is \"" + word + "\"",
                  near + "Steps: " + units::listed(planner::step_ranges(plan.steps), "", "and") +
                      "; or finish");
  }
  const auto more = ids.size() - std::min(ids.size(), most_listed);
  ids.resize(ids.size() - more);
  throw Failure(exit_status::usage, "\"" + word + "\" may be several steps",
                "write " + units::listed(ids, "", "or") +
                    (more > 0 ? " (" + std::to_string(more) + " more are like it)" : ""));
}

}  // namespace

int tell_why(const std::string& step, const PlanWords& words, const session::Session& session,
             const planner::WorkedDay& day, Streams& io) {
  if (words.html) {
    throw Failure(exit_status::usage, "--why and --html do not go together",
                  "leave one of them out");
  }
  const auto& fit = day.outcome.fit;
  if (fit.starts.empty()) {
    throw Failure(exit_status::problems, "nothing fits this day, so no step has a place in it",
                  "dampline plan " + words.path + " says what is in the way");
  }
  const auto why =
      planner::why(fit, day.plan.steps, day.damping.treatment, meant(step, day.plan, session.day));
  const auto clock = clock_of(session);
  if (words.json) {
    write_output(*words.json, report::why_json(why, day.plan, clock), io,
                 std::vector<std::string>{words.path});
  }
  if (words.json != "-" && !words.quiet) {
    io.out << report::why_text(why, day.plan, clock, text_options(io));
  }
  return exit_status::done;
}

}  // namespace dampline::cli
