#include <algorithm>
#include <ostream>

#include <dampline/planner/climate.hpp>
#include <dampline/planner/look_up.hpp>
#include <dampline/report/characters.hpp>
#include <dampline/units/text.hpp>

#include "input_file.hpp"
#include "knowledge.hpp"
#include "options.hpp"
#include "readings_file.hpp"
#include "session_file.hpp"

namespace dampline::cli {
namespace {

std::string two(long n) { return (n < 10 ? "0" : "") + std::to_string(n); }

std::string clock_text(session::ClockTime t) {
  return two(t.count() / 60) + ":" + two(t.count() % 60);
}

std::string date_text(std::chrono::year_month_day d) {
  return std::to_string(static_cast<int>(d.year())) + "-" + two(static_cast<unsigned>(d.month())) +
         "-" + two(static_cast<unsigned>(d.day()));
}

std::string counted(int n, const std::string& one, const std::string& ending = "s") {
  return std::to_string(n) + " " + one + (n == 1 ? "" : ending);
}

std::string size_text(const units::Size& s) {
  return units::shortest(units::in_centimetres(s.width)) + " x " +
         units::shortest(units::in_centimetres(s.height)) + " cm";
}

std::string paper_text(const session::Paper& p) {
  const auto named =
      p.stock.empty() && p.grammage ? "paper of " + units::text(*p.grammage) : p.stock;
  return "sheets of " + size_text(p.sheet) + ", " + named +
         (p.sheets > 0 ? ", " + std::to_string(p.sheets) + " at hand" : "");
}

std::string edition_text(const session::Session& s) {
  std::string out =
      counted(s.edition.prints, "print") + " and " + counted(s.edition.proofs, "proof");
  out += s.edition.sheet_each ? " from each of " : " from ";
  out += counted(static_cast<int>(s.plates.size()), "plate") + ": ";
  for (std::size_t i = 0; i < s.edition.order.size(); ++i) {
    const auto& name = s.edition.order[i];
    const auto plate = std::find_if(s.plates.begin(), s.plates.end(),
                                    [&](const session::Plate& p) { return p.name == name; });
    out += (i == 0 ? "" : ", ") + name + " (" + plate->process + ")";
  }
  return out;
}

std::string room_text(const session::Session& s) {
  if (s.studio.readings) return "by " + *s.studio.readings;
  return "at " + units::fixed(units::in_celsius(s.studio.temperature), 1) + " degC and " +
         units::fixed(s.studio.humidity.percent(), 0) + " %";
}

// What the plan will take from the log, and what is doubtful about that.
void air(const planner::StudioAir& studio, Streams& io) {
  if (!studio.logged) return;
  io.out << "the air, from the log\n";
  for (const auto& line : studio.logged->notes) {
    const auto lines = report::wrap(line, std::clamp(io.columns, 40, 100) - 4);
    for (std::size_t i = 0; i < lines.size(); ++i) {
      io.out << (i == 0 ? "  - " : "    ") << lines[i] << '\n';
    }
  }
}

void summary(const session::Session& s, std::ostream& out) {
  out << s.file << " reads well: " << s.title << '\n'
      << "  " << date_text(s.day.date) << ", " << clock_text(s.day.from) << " to "
      << clock_text(s.day.until) << ", " << s.day.zone << '\n'
      << "  " << edition_text(s) << '\n'
      << "  " << paper_text(s.paper) << '\n'
      << "  " << counted(static_cast<int>(s.people.size()), "pair") << " of hands, "
      << counted(static_cast<int>(s.equipment.presses.size()), "press", "es") << ", room "
      << room_text(s) << '\n';
  if (s.defaults_used.empty()) return;
  out << "not stated, so taken as\n";
  for (const auto& d : s.defaults_used) out << "  " << d << '\n';
}

}  // namespace

int run_check(Arguments args, Streams io) {
  std::string path;
  std::optional<std::string> methods;
  Options options({.command = "check",
                   .purpose = "read a session file and say everything that is wrong with it",
                   .usage = "FILE [OPTIONS]",
                   .examples = {"dampline check my-day.toml", "dampline check - < my-day.toml"}});
  options.operand("FILE", path, "session file; - reads standard input")
      .text("methods", methods, "FILE", "methods of your own, before those installed");
  if (!options.parse(args, io)) return exit_status::done;
  const auto text = read_input(path, io);
  auto found = session::read(text, input_name(path), here_of_process());
  if (const auto* errors = std::get_if<session::InputErrors>(&found)) {
    print_errors(*errors, io);
    return errors->front().unreadable ? exit_status::bad_data : exit_status::problems;
  }
  auto& s = std::get<session::Session>(found);
  print_warnings(s.warnings, io);
  add_readings(s, path, io);
  const auto knowledge = read_knowledge(methods, io);
  if (!knowledge) return exit_status::bad_data;
  const auto named = planner::look_up(s, *knowledge);
  if (const auto* errors = std::get_if<session::InputErrors>(&named)) {
    print_errors(*errors, io);
    return exit_status::problems;
  }
  const auto studio = planner::studio_air(s, knowledge->craft.evening);
  if (const auto* errors = std::get_if<session::InputErrors>(&studio)) {
    print_errors(*errors, io);
    return exit_status::problems;
  }
  const auto& good = std::get<planner::StudioAir>(studio);
  for (const auto& doubt : good.doubts) {
    io.err << s.file << ": warning: " << doubt.text << "\nhelp: " << doubt.help << "\n\n";
  }
  summary(s, io.out);
  air(good, io);
  return exit_status::done;
}

}  // namespace dampline::cli
