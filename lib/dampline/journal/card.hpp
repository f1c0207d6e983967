#pragma once

#include <string>
#include <vector>

#include <dampline/journal/sessions.hpp>

namespace dampline::journal {

/// A sentence's worth, not yet laid out. What was typed may have control characters in it.
struct CardLine {
  std::string time;  ///< "14:20"; empty: of the session as a whole
  std::string text;
};

struct CardPart {
  std::string name;  ///< "Weighed"
  std::vector<CardLine> lines;
};

/// The record card of a session, its parts in the order of a day; what nobody wrote down has none.
/// Press readings are set side by side, never judged.
[[nodiscard]] std::vector<CardPart> card(const Held& held);

/// "14:20", by the clock the entry was timed with.
[[nodiscard]] std::string clock_text(const Stamp& time);

}  // namespace dampline::journal
