#include "tables.hpp"

#include <sstream>

#include "log_words.hpp"

namespace dampline::cli {

Described table_of(const Command& command, const std::string& word) {
  std::istringstream nothing;
  std::ostringstream unread;
  Described out;
  std::vector<std::string> words{"--help"};
  if (!word.empty()) words.insert(words.begin(), word);
  static_cast<void>(
      command.run(words, {.in = nothing, .out = unread, .err = unread, .described = &out}));
  return out;
}

std::vector<Described> all_tables() {
  std::vector<Described> out;
  for (const auto& command : commands()) {
    out.push_back(table_of(command));
    if (command.name != "log") continue;
    for (const auto& word : log_words()) out.push_back(table_of(command, word));
  }
  return out;
}

}  // namespace dampline::cli
