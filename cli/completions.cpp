#include <ostream>

#include "options.hpp"
#include "tables.hpp"

namespace dampline::cli {

int run_completions(Arguments args, Streams io) {
  std::string shell;
  Options options({.command = "completions",
                   .purpose = "a script that completes commands, options and files in a shell: "
                              "bash, zsh or fish",
                   .usage = "SHELL",
                   .examples = {"dampline completions bash > dampline.bash",
                                "dampline completions fish > dampline.fish"}});
  options.operand("SHELL", shell, "bash, zsh or fish");
  if (!options.parse(args, io)) return exit_status::done;
  if (shell == "bash") {
    io.out << bash_completion(all_tables());
  } else if (shell == "zsh") {
    io.out << zsh_completion(all_tables());
  } else if (shell == "fish") {
    io.out << fish_completion(all_tables());
  } else {
    throw Failure(exit_status::usage, "\"" + shell + "\" is no shell that is known here",
                  "use bash, zsh or fish");
  }
  return exit_status::done;
}

}  // namespace dampline::cli
