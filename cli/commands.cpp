#include <array>

#include "command.hpp"

namespace dampline::cli {

std::span<const Command> commands() {
#define COMMAND(name, purpose) Command{#name, purpose, run_##name},
  static constexpr auto table = std::to_array<Command>({
#include "commands.inc"
  });
#undef COMMAND
  return table;
}

}  // namespace dampline::cli
