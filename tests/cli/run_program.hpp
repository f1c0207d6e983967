#pragma once

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

/// The program run in-process, with string streams.
inline Outcome run_program(const std::vector<std::string>& words, const std::string& input = "") {
  std::istringstream in(input);
  std::ostringstream out;
  std::ostringstream err;
  const int status = cli::run(words, {.in = in, .out = out, .err = err});
  return {status, out.str(), err.str()};
}

}  // namespace dampline::tests
