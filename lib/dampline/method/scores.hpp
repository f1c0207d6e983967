#pragma once

#include <cstdint>
#include <functional>
#include <vector>

/// Standard normal scores for samples, and how ranges are read at a score.
namespace dampline::method {

inline constexpr double ten_percent_score = 1.2815515655446004;  ///< of 90 %: the end of a range
/// A score held to 2.5 deviations.
[[nodiscard]] double held_score(double score);

/// A factor whose 10-90 % range is 1/spread to spread, log-normal, at a score.
[[nodiscard]] double factor_at(double spread, double score);

/// Sobol's points under a digital shift, as scores: n rows of `dimensions`. `seed_of` gives the
/// seed that dimension's shift is scrambled from.
///
/// Source  [sobol1967], directions of the Boost library; splitmix64 for the shift.
[[nodiscard]] std::vector<std::vector<double>> sobol_scores(
    int n, std::size_t dimensions, const std::function<std::uint64_t(std::uint64_t)>& seed_of);

/// The value at a share of sorted values, straight between them; 0 of none.
[[nodiscard]] double at_share(std::vector<double> values, double share);

}  // namespace dampline::method
