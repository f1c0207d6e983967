#pragma once

#include <cstdio>
#include <cstdlib>

/// What must hold for any input; a fuzzer and a sanitizer both notice the abort.
namespace dampline::tests {

inline void claim(bool holds, const char* what) {
  if (holds) return;
  std::fprintf(stderr, "does not hold: %s\n", what);
  std::abort();
}

}  // namespace dampline::tests
