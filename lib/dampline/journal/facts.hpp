#pragma once

#include <optional>
#include <string>
#include <vector>

#include <dampline/journal/sessions.hpp>

namespace dampline::journal {

/// How big a difference in something is, so that unlike things can be put in order.
struct Yardstick {
  double one = 1;      ///< this much is one step
  bool ratio = false;  ///< of the quotient, not of the difference: 0.25 is a quarter more
};

/// One thing that may differ between two days.
struct Fact {
  std::string what;                ///< "humidity"
  std::string unit{};              ///< "%"
  std::optional<double> number{};  ///< the mean where there are several
  std::string words{};             ///< where there is no number
  int decimals = 0;
  Yardstick yardstick{};  ///< for words `one` is how many steps another word is
  bool outcome = false;   ///< what came of it, not what it came of
};

/// What the journal says of a session. Moisture is water taken up over the weight of the same
/// sheet as it was dry in the room, growth over its length then; the humidity of a wet bulb is
/// worked out at sea level. Steps count when begun and done.
[[nodiscard]] std::vector<Fact> facts(const Held& held);

/// "52 %"; the words where there is no number.
[[nodiscard]] std::string text(const Fact& fact);

}  // namespace dampline::journal
