#pragma once

#include <cstddef>
#include <string_view>
#include <vector>

/// A journal as a run of blocks. Every block this program writes opens and closes with a mark in a
/// TOML comment, so that one that was cut off while it was written is known from one that a person
/// typed:
///
///     [[entry]]
///     schema = 1 # {
///     ...
///     # }
namespace dampline::journal {

inline constexpr std::string_view head_line = "[[entry]]";
inline constexpr std::string_view opening_line = "schema = 1 # {";
inline constexpr std::string_view closing_line = "# }";

inline constexpr std::size_t largest_block = 32 * 1024;      ///< bytes
inline constexpr std::size_t largest_journal = 64UL << 20U;  ///< bytes

struct Block {
  std::size_t begin = 0;  ///< bytes into the text
  std::size_t end = 0;    ///< one past it: up to the next block, or past its closing line
  int line = 1;           ///< of the file
  bool entry = false;     ///< begins with [[entry]]; else text that belongs to none
  bool opened = false;
  bool closed = false;
  [[nodiscard]] std::string_view of(std::string_view text) const {
    return text.substr(begin, end - begin);
  }
};

/// Every block in order; blank lines and comments between blocks are in none.
[[nodiscard]] std::vector<Block> blocks_of(std::string_view text);

}  // namespace dampline::journal
