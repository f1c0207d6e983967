#include <algorithm>
#include <ostream>

#include <dampline/units/suggest.hpp>

#include "options.hpp"
#include "output_file.hpp"
#include "tables.hpp"

namespace dampline::cli {

int run_man(Arguments args, Streams io) {
  std::vector<std::string> words;
  std::optional<std::string> folder;
  Options options({.command = "man",
                   .purpose = "a manual page, to be read with man -l or installed",
                   .usage = "[COMMAND [WORD]] [OPTIONS]",
                   .examples = {"dampline man plan > plan.1", "dampline man --all man1"}});
  options.operands("COMMAND", words, "of which; without one, the page of the whole")
      .text("all", folder, "FOLDER", "write every page into this folder");
  if (!options.parse(args, io)) return exit_status::done;
  const auto tables = all_tables();
  if (folder) {
    write_output(*folder + "/dampline.1", manual(tables), io);
    for (const auto& t : tables) {
      std::string name = t.about.command;
      std::replace(name.begin(), name.end(), ' ', '-');
      write_output(*folder + "/dampline-" + name + ".1", manual_of(t), io);
    }
    return exit_status::done;
  }
  if (words.empty()) {
    io.out << manual(tables);
    return exit_status::done;
  }
  std::string wanted, near_list;
  for (const auto& word : words) wanted += (wanted.empty() ? "" : " ") + word;
  std::vector<std::string> names;
  for (const auto& t : tables) names.push_back(t.about.command);
  const auto at = std::find(names.begin(), names.end(), wanted);
  if (at == names.end()) {
    const auto near = units::nearest(wanted, names);
    throw Failure(exit_status::usage, "no command \"" + wanted + "\"",
                  near ? "did you mean " + *near + "?" : "dampline --help lists the commands");
  }
  io.out << manual_of(tables[static_cast<std::size_t>(at - names.begin())]);
  return exit_status::done;
}

}  // namespace dampline::cli
