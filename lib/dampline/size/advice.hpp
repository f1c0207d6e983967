#pragma once

#include <string>
#include <vector>

#include <dampline/size/compare.hpp>

/// What an answer means for the printer, a sentence each.
namespace dampline::size {

/// Why the best way is best, and what it asks.
[[nodiscard]] std::vector<std::string> reasons(const Printing& p, const Answer& a);
/// What can be leaned on: comparisons between ways, directions, order.
[[nodiscard]] std::vector<std::string> firm(const Printing& p, const Answer& a);
/// What cannot: millimetres of a paper nobody has measured.
[[nodiscard]] std::vector<std::string> rough(const Printing& p, const Answer& a);
/// What was taken for granted, each marked `assumed` or `common practice`.
[[nodiscard]] std::vector<std::string> assumptions(const Printing& p);
/// Three ways to find the grain in a minute. Common practice, no published source.
[[nodiscard]] std::vector<std::string> grain_tests();

/// The answer for a way; null when it was not compared.
[[nodiscard]] const WayAnswer* answer_for(const Comparison& c, Way way);
/// The later plate that is in register least often; null with one plate.
[[nodiscard]] const PullAnswer* worst_pull(const WayAnswer& w);

}  // namespace dampline::size
