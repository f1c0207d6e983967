#pragma once

#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace dampline::units {

/// Optimal string alignment distance: insertions, deletions, substitutions and swaps of
/// neighbours, upper and lower case alike. Source: common practice (restricted edit distance).
[[nodiscard]] std::size_t edit_distance(std::string_view a, std::string_view b);

/// The candidate a person most likely meant by `word`: the nearest within max(1, length/3) edits,
/// fewer than its length, the first of equals; none when nothing is that near.
[[nodiscard]] std::optional<std::string> nearest(std::string_view word,
                                                 std::span<const std::string> candidates);

/// "a, b or c", each in the quotes given.
[[nodiscard]] std::string listed(std::span<const std::string> words, std::string_view quote = "\"",
                                 std::string_view last = "or");

}  // namespace dampline::units
