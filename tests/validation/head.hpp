#pragma once

#include <string>
#include <vector>

namespace dampline::validation {

/// What the head of a table in tests/reference says of itself, its lines joined.
struct Head {
  std::string title;
  std::string source;
  std::string allowed;
};
[[nodiscard]] Head head_of(const std::string& file);

/// Keys of docs/sources.bib named in a text as [key].
[[nodiscard]] std::vector<std::string> keys_in(const std::string& text);

}  // namespace dampline::validation
