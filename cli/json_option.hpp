#pragma once

#include <string>
#include <vector>

#include "command.hpp"

namespace dampline::cli {

/// The words of a command whose JSON goes to standard output only: "--json -" means "--json".
[[nodiscard]] inline std::vector<std::string> with_plain_json(Arguments args) {
  std::vector<std::string> words;
  for (const auto& word : args) {
    const bool dash_of_json = word == "-" && !words.empty() && words.back() == "--json";
    if (!dash_of_json) words.push_back(word);
  }
  return words;
}

}  // namespace dampline::cli
