#pragma once

#include <span>
#include <string_view>

namespace dampline::report {

/// What steps have in common when seen from across the room: one letter, one tone of the chart.
enum class Family { ready, damp, blot, rest, ink, hands, press, away, clear, pause, other };

struct FamilyName {
  Family family;
  char letter;            ///< in the terminal's chart
  std::string_view name;  ///< in the key of every chart
  std::string_view css;   ///< class in the page
};

/// Every family, in the order of a day.
[[nodiscard]] std::span<const FamilyName> families();
[[nodiscard]] const FamilyName& name_of(Family family);

/// The family of a step's kind (a key of data/steps.toml); unknown kinds are `other`.
[[nodiscard]] Family family_of(std::string_view kind);

}  // namespace dampline::report
