#pragma once

#include <iosfwd>
#include <optional>
#include <span>
#include <stdexcept>
#include <string>
#include <string_view>

#include "exit_status.hpp"

/// What a command is: words in, streams out, an exit status back. Commands know no terminal and no
/// argv, so tests call them in-process.
namespace dampline::cli {

using Arguments = std::span<const std::string>;  ///< the words after the command's name

struct Described;  // options.hpp

struct Streams {
  std::istream& in;
  std::ostream& out;
  std::ostream& err;
  bool out_is_terminal = false;
  bool err_is_terminal = false;
  int columns = 80;         ///< width to lay out for
  bool utf8 = true;         ///< false: keep to ASCII
  bool out_colour = false;  ///< escape codes allowed on out
  bool err_colour = false;  ///< and on err
  /// Asked for help, a command puts its options table here instead of printing it.
  Described* described = nullptr;
};

/// A failure that ends the command: one sentence, a remedy, a status. Thrown by commands and
/// helpers, printed in one place (program.cpp); without a sentence everything has been said
/// already.
class Failure : public std::runtime_error {
 public:
  Failure(int status, const std::string& what, std::string help = {})
      : std::runtime_error(what), status_(status), help_(std::move(help)) {}
  [[nodiscard]] int status() const { return status_; }
  [[nodiscard]] const std::string& help() const { return help_; }

 private:
  int status_;
  std::string help_;
};

struct Command {
  std::string_view name;
  std::string_view purpose;  ///< what it does, in one line without a full stop
  int (*run)(Arguments, Streams);
};

/// Every command, in the order of the help.
[[nodiscard]] std::span<const Command> commands();

// The name of a command may be a word of the language (new), so the functions carry a prefix.
#define COMMAND(name, purpose) int run_##name(Arguments args, Streams io);
#include "commands.inc"
#undef COMMAND

}  // namespace dampline::cli
