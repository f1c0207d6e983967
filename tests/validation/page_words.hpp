#pragma once

#include <string>

#include "validation/check.hpp"

/// Numbers of a check in words, as page and overview show them.
namespace dampline::validation {

/// A deviation: "+3.2 %", "x 1.32", "-0.04 K".
[[nodiscard]] std::string deviation_words(const Check& check, double value);
/// A spread: the same without a sign.
[[nodiscard]] std::string spread_words(const Check& check, double value);
/// "0.18" as "18 %", "x 1.5" or "0.6 points", for bounds and uncertainties.
[[nodiscard]] std::string bound_words(const Check& check, double value);
/// "meets", "misses 3 of 20", "shown".
[[nodiscard]] std::string verdict_words(const Check& check, const Verdict& verdict);
[[nodiscard]] std::string own_words(const Check& check);
[[nodiscard]] std::string held_words(const Check& check);

}  // namespace dampline::validation
