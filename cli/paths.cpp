#include <ostream>

#include "data_files.hpp"
#include "options.hpp"
#include "program.hpp"

namespace dampline::cli {

int run_paths(Arguments args, Streams io) {
  Options options({.command = "paths",
                   .purpose = "where the data files are looked for, and which are in use",
                   .usage = "",
                   .examples = {"dampline paths", "DAMPLINE_DATA_DIR=my-papers dampline paths"}});
  if (!options.parse(args, io)) return exit_status::done;
  io.out << version_line() << "\n\nlooked in, first to last\n";
  for (const auto& folder : data_directories(surroundings_of_process())) {
    std::error_code ignored;
    const bool there = std::filesystem::is_directory(folder, ignored);
    io.out << "  " << folder.string() << (there ? "" : "  (not there)") << '\n';
  }
  io.out << "\nin use\n";
  for (const char* name : {"stocks.toml", "blotters.toml", "processes.toml", "inks.toml",
                           "steps.toml", "methods.toml", "cautions.toml", "session.schema.json"}) {
    try {
      io.out << "  " << find_data(name).string() << '\n';
    } catch (const Failure&) {
      io.out << "  " << name << "  (not installed)\n";
    }
  }
  const auto state = state_directory(surroundings_of_process());
  if (!state.empty()) io.out << "\nthe journal\n  " << (state / "journal.toml").string() << '\n';
  return exit_status::done;
}

}  // namespace dampline::cli
