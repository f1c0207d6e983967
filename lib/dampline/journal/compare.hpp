#pragma once

#include <string>
#include <vector>

#include <dampline/journal/facts.hpp>

/// What was different on the day it went wrong.
namespace dampline::journal {

struct Difference {
  std::string what;
  std::string first;   ///< "52 %"
  std::string second;  ///< "38 %"
  std::string change;  ///< "-14 points", "+25 %"; empty for words
  double size = 0;     ///< in steps of the fact's yardstick
};

struct Comparison {
  std::vector<Difference> outcome;  ///< good and spoiled prints, all that is known
  std::vector<Difference> differ;   ///< the largest first
  int alike = 0;                    ///< facts of both days that are the same as shown
  std::vector<Fact> first_only;     ///< written down on the first day alone
  std::vector<Fact> second_only;
};

/// Facts of both days side by side. Those that would be shown alike are left out.
[[nodiscard]] Comparison compare(const Held& first, const Held& second);

}  // namespace dampline::journal
