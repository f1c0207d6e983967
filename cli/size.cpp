#include <ostream>

#include <dampline/report/register_map.hpp>

#include "knowledge.hpp"
#include "options.hpp"
#include "output_file.hpp"
#include "session_file.hpp"
#include "size_question.hpp"

namespace dampline::cli {
namespace {

// "--json" with nothing after it writes to standard output, as "--json -" does.
std::vector<std::string> with_dash(Arguments args) {
  std::vector<std::string> words(args.begin(), args.end());
  for (std::size_t i = 0; i < words.size(); ++i) {
    if (words[i] != "--json") continue;
    if (i + 1 == words.size() || words[i + 1].starts_with("--")) {
      words.insert(words.begin() + static_cast<std::ptrdiff_t>(i) + 1, "-");
    }
  }
  return words;
}

}  // namespace

int run_size(Arguments args, Streams io) {
  SizeWords w;
  Options options(
      {.command = "size",
       .purpose = "how big the sheet is at each pull and whether later plates fit, the ways of "
                  "working side by side",
       .usage = "FILE [OPTIONS]",
       .examples = {"dampline size my-day.toml", "dampline size my-day.toml --svg register.svg",
                    "dampline size my-day.toml --across \"dry 200 mm, damp 202.5 mm\"",
                    "dampline size my-day.toml --json -"}});
  options.operand("FILE", w.path, "session file; - reads standard input")
      .text("json", w.json, "FILE", "write the answer as data; - is standard output")
      .text("svg", w.svg, "FILE", "write a register map; - is standard output")
      .flag("quiet,q", w.quiet, "nothing on the screen")
      .quantity("across", w.across, &size::parse_marks, "dry 200 mm, damp 202.5 mm",
                "two pencil marks across the grain, as read: dry, damp (when first laid), pulled, "
                "a wait (20 min 201.8 mm), dried again; replaces the growth of its class")
      .quantity("along", w.along, &size::parse_marks, "dry 200 mm, damp 201 mm",
                "the same along the grain")
      .word("lay", w.lay, {"sheet", "plate"},
            "what is laid to what: the sheet to marks, or the plate to the image or its plate mark "
            "(default sheet)")
      .quantity("between", w.between, &units::parse_duration, "20 min",
                "time from pull to pull when the sheet is let go (default: inking and wiping)")
      .flag("blank-pass", w.blank_pass,
            "each sheet goes through the press once before it is printed")
      .quantity("nip", w.nip, &units::parse_strain, "0.05 %",
                "stretch by a first pass through the press (default 0.05 %, assumed)")
      .word("travel", w.travel, {"long", "short"},
            "the side along which the sheet goes through the press (default long)")
      .text("tissue", w.tissue, "NAME", "a tissue for chine colle, as dampline papers names it")
      .text("methods", w.methods, "FILE", "methods of damping of your own, before those installed")
      .whole("samples", w.samples, 8, 2000, "likely sheets simulated for ranges and chances")
      .whole("seed", w.seed, 1, 1000000, "of the samples");
  const auto words = with_dash(args);
  if (!options.parse(words, io)) return exit_status::done;
  if (w.between && !(units::in_hours(*w.between) <= 72)) {
    throw Failure(exit_status::usage, "--between is outside 0 to 72 h");
  }
  if (w.nip && !(w.nip->percent() >= 0 && w.nip->percent() <= 1)) {
    throw Failure(exit_status::usage, "--nip is outside 0 to 1 %");
  }
  const auto session = read_session(w.path, io);
  const auto knowledge = read_knowledge(w.methods, io);
  if (!knowledge) return exit_status::bad_data;
  const auto named = planner::look_up(session, *knowledge);
  if (const auto* errors = std::get_if<session::InputErrors>(&named)) {
    print_errors(*errors, io);
    return exit_status::bad_data;
  }
  const auto studio = planner::studio_air(session, knowledge->craft.evening);
  if (const auto* errors = std::get_if<session::InputErrors>(&studio)) {
    print_errors(*errors, io);
    return exit_status::bad_data;
  }
  const auto a = answered(w, session, *knowledge, std::get<planner::Subject>(named),
                          std::get<planner::StudioAir>(studio));
  const std::vector<std::string> inputs{w.path};
  if (w.svg && a.printing.plates.size() < 2) {
    throw Failure(exit_status::problems, "one plate on a sheet has nothing to meet: no map of it");
  }
  if (w.svg) write_output(*w.svg, report::register_map(a.printing, a.answer), io, inputs);
  if (w.json) write_output(*w.json, size_json(a), io, inputs);
  if (!w.quiet && w.json != "-" && w.svg != "-") io.out << size_text(a, io.columns, io.utf8);
  return exit_status::done;
}

}  // namespace dampline::cli
