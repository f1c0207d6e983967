#include <ostream>

#include <dampline/session/starter.hpp>

#include "options.hpp"
#include "output_file.hpp"

namespace dampline::cli {

int run_new(Arguments args, Streams io) {
  std::optional<std::string> path;
  Options options({.command = "new",
                   .purpose = "write a commented session file to edit",
                   .usage = "[FILE]",
                   .examples = {"dampline new my-day.toml", "dampline new > my-day.toml"}});
  options.optional_operand("FILE", path,
                           "where to; never over a file that is there already (default: standard "
                           "output)");
  if (!options.parse(args, io)) return exit_status::done;
  const auto to = path.value_or("-");
  write_output(to, session::starter(), io, {}, Existing::refuse);
  if (to != "-") {
    io.err << "wrote " << to << "; edit it, then: dampline check " << to << '\n';
  }
  return exit_status::done;
}

}  // namespace dampline::cli
