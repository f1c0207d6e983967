#pragma once

#include <span>
#include <string_view>

namespace dampline::cli {

/// What a warning of a plan means, or a rescue of a late day.
struct WarningWord {
  std::string_view code;
  std::string_view meaning;  ///< sentences
};

/// All that plans give, by what they are about.
[[nodiscard]] std::span<const WarningWord> warning_words();

}  // namespace dampline::cli
