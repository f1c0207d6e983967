#include "program.hpp"

#include <algorithm>
#include <array>
#include <new>
#include <ostream>
#include <vector>

#include <dampline/units/out_of_range.hpp>
#include <dampline/units/suggest.hpp>

namespace dampline::cli {
namespace {

constexpr std::string_view footer =
    "Planning aid only: touch-test the paper, follow your workshop's rules. It never sets a\n"
    "press pressure.\n";

void short_help(std::ostream& to) {
  to << "dampline plans a printing day on damp paper: when to soak, blot, ink and pull,\n"
        "how the sheet grows, and when the prints are dry and flat.\n"
        "\n"
        "usage: dampline COMMAND [WORDS]\n"
        "       dampline help COMMAND\n";
}

void table_of_commands(std::ostream& to) {
  to << "\ncommands\n";
  for (const auto& command : commands()) {
    std::string line = "  " + std::string(command.name);
    line.resize(std::max<std::size_t>(line.size() + 1, 12), ' ');
    to << line << command.purpose << '\n';
  }
}

void full_help(std::ostream& to) {
  short_help(to);
  to << "\nexamples\n"
        "  dampline new my-day.toml\n"
        "  dampline check my-day.toml\n"
        "  dampline plan my-day.toml\n";
  table_of_commands(to);
  to << "\noptions of every command\n"
        "  -h, --help           what the command does, its options, units and ranges\n"
        "  --color always|never colour, whatever the terminal and NO_COLOR say\n"
        "  --ascii              nothing but ASCII in the output\n"
        "  --                   ends the options\n"
        "\nand\n"
        "  dampline --version\n"
        "\nexit status\n";
  for (const auto& meaning : exit_status::meanings) {
    std::string line = "  " + std::to_string(meaning.status);
    line.resize(6, ' ');
    to << line << meaning.text << '\n';
  }
  to << "\nenvironment\n"
        "  DAMPLINE_DATA_DIR    where stocks, processes and step times are looked for first\n"
        "  COLUMNS, NO_COLOR, TERM, LC_ALL, LC_CTYPE, LANG\n"
        "\n"
     << footer;
}

const Command* find(std::string_view name) {
  const auto all = commands();
  const auto it =
      std::find_if(all.begin(), all.end(), [&](const Command& c) { return c.name == name; });
  return it == all.end() ? nullptr : &*it;
}

int unknown_command(const std::string& word, std::ostream& err) {
  std::vector<std::string> names;
  for (const auto& command : commands()) names.emplace_back(command.name);
  const bool option = word.starts_with('-') && word.size() > 1;
  if (option) names = {"--help", "--version"};
  err << "dampline: unknown " << (option ? "option " : "command ") << word << '\n';
  const auto near = units::nearest(word, names);
  err << "help: " << (near ? "did you mean " + *near + "?" : "dampline --help lists the commands")
      << '\n';
  return exit_status::usage;
}

int complain(std::ostream& err, std::string_view command, std::string_view what,
             std::string_view help, int status) {
  if (!what.empty()) err << "dampline " << command << ": " << what << '\n';
  if (!help.empty()) err << "help: " << help << '\n';
  return status;
}

int run_command(const Command& command, Arguments args, Streams io) {
  constexpr std::string_view report =
      "this is a fault of dampline, not of your file; please report it with the command line and "
      "the session file";
  try {
    return command.run(args, io);
  } catch (const Failure& e) {
    return complain(io.err, command.name, e.what(), e.help(), e.status());
  } catch (const units::OutOfRange& e) {
    return complain(io.err, command.name, e.what(), "", exit_status::bad_data);
  } catch (const std::bad_alloc&) {
    return complain(io.err, command.name, "out of memory", report, exit_status::internal);
  } catch (const std::exception&) {
    // Its text may name types of the language, which say nothing to a printer.
    return complain(io.err, command.name, "internal error", report, exit_status::internal);
  }
}

}  // namespace

std::string version_line() { return "dampline " DAMPLINE_VERSION; }

int run(Arguments args, Streams io) {
  if (args.empty()) {
    short_help(io.err);
    table_of_commands(io.err);
    io.err << "\nhelp: dampline --help says more\n";
    return exit_status::usage;
  }
  const auto& word = args.front();
  if (word == "--help" || word == "-h" || (word == "help" && args.size() == 1)) {
    full_help(io.out);
    return exit_status::done;
  }
  if (word == "--version") {
    io.out << version_line() << '\n';
    return exit_status::done;
  }
  if (word == "help") {
    const auto* command = find(args[1]);
    if (command == nullptr) return unknown_command(args[1], io.err);
    const std::array<std::string, 1> ask{"--help"};
    return run_command(*command, ask, io);
  }
  const auto* command = find(word);
  if (command == nullptr) return unknown_command(word, io.err);
  return run_command(*command, args.subspan(1), io);
}

}  // namespace dampline::cli
