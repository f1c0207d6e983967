#pragma once

#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include <dampline/journal/entry.hpp>

namespace dampline::journal {

/// One printing session as the journal has it.
struct Held {
  std::string title;  ///< empty: none was given
  std::chrono::year_month_day day{};
  std::vector<const Entry*> entries;  ///< by time; they stay where they are
};

/// The sessions of some entries, by day and then by their first entry. Entries without a title
/// belong to the one titled session of their day, if there is one only.
[[nodiscard]] std::vector<Held> sessions(std::span<const Entry> entries);

/// Date by the clock an entry was timed with.
[[nodiscard]] std::chrono::year_month_day date_of(const Stamp& time);

/// The latest entry of the session that something happening at `time` belongs to when nobody says:
/// one of the same day, else of the 12 hours before, `assumed`; of that title when one is given.
/// Null: none.
[[nodiscard]] const Entry* going_on(std::span<const Entry> entries, const Stamp& time,
                                    const std::optional<std::string>& title);

}  // namespace dampline::journal
