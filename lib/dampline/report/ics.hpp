#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include <dampline/report/clock.hpp>

/// A calendar file (RFC 5545). All times are written in UTC: every event is one moment of one day,
/// so that no rules of a time zone have to travel with it, and the reader's calendar shows it by
/// its own clock, on the day the clocks change too.
namespace dampline::report {

struct CalendarEvent {
  std::string key;  ///< stable within its calendar: "load-1", "first-pull"
  Instant start{};
  Instant end{};  ///< after start
  std::string summary;
  std::string description;                     ///< lines divided by "\n"; may be empty
  std::optional<std::chrono::minutes> lead{};  ///< an alarm so long before the start
};

struct Calendar {
  std::string title;
  std::string identity;  ///< what makes its ids its own: the same each time it is written
  /// When it was last revised. Goes into DTSTAMP and, as minutes since 1970, into SEQUENCE: what is
  /// imported later takes the place of what was imported before.
  Instant revised{};
  std::vector<CalendarEvent> events;
  bool reminders = false;  ///< alarms as events of their own too
};

/// CRLF, lines of at most 75 octets, text escaped. No METHOD: nothing is invited or published.
[[nodiscard]] std::string ics(const Calendar& calendar);

/// The id of one of its events: the same for the same identity and key, and like no other's.
[[nodiscard]] std::string event_id(std::string_view identity, std::string_view key);

}  // namespace dampline::report
