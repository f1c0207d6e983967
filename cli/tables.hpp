#pragma once

#include <string>
#include <vector>

#include "options.hpp"

namespace dampline::cli {

/// The options tables of all commands, in the order of the help; the words of `log` follow it as
/// "log weigh" and so on.
[[nodiscard]] std::vector<Described> all_tables();
[[nodiscard]] Described table_of(const Command& command, const std::string& word = {});

/// Shell scripts that complete commands, options, words and files.
[[nodiscard]] std::string bash_completion(const std::vector<Described>& tables);
[[nodiscard]] std::string zsh_completion(const std::vector<Described>& tables);
[[nodiscard]] std::string fish_completion(const std::vector<Described>& tables);

/// Manual pages in mdoc: dampline(1) and dampline-NAME(1).
[[nodiscard]] std::string manual(const std::vector<Described>& tables);
[[nodiscard]] std::string manual_of(const Described& table);

}  // namespace dampline::cli
