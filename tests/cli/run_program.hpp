#pragma once

#include <algorithm>
#include <sstream>
#include <string>
#include <vector>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "program.hpp"

namespace dampline::tests {

struct Outcome {
  int status = 0;
  std::string out;
  std::string err;
};

/// Commands that plan simulate few sheets here unless they are told how many: a test of chances
/// says so, and the others are done several times sooner.
inline std::vector<std::string> in_haste(std::vector<std::string> words) {
  const auto has = [&](const char* word) {
    return std::find(words.begin(), words.end(), word) != words.end();
  };
  if (words.empty() || has("--samples") || has("--help")) return words;
  for (const char* command : {"plan", "late", "dry", "compare", "serve"}) {
    if (words.front() == command) words.insert(words.begin() + 1, {"--samples", "16"});
  }
  return words;
}

/// The program run in-process, with string streams.
inline Outcome run_program(const std::vector<std::string>& words, const std::string& input = "") {
  std::istringstream in(input);
  std::ostringstream out;
  std::ostringstream err;
  const int status = cli::run(in_haste(words), {.in = in, .out = out, .err = err});
  return {status, out.str(), err.str()};
}

}  // namespace dampline::tests
