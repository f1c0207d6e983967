#pragma once

#include <chrono>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include <dampline/session/session.hpp>

/// Clock times of a place as instants, through the IANA time zone database of the system.
namespace dampline::session {

[[nodiscard]] bool is_zone(std::string_view name);

/// The zone's name most like `name`, or in the same city.
[[nodiscard]] std::optional<std::string> nearest_zone(std::string_view name);

/// The zone the system is set to; "UTC" when it is set to none that is known.
[[nodiscard]] std::string zone_of_system();

/// What a clock time means on a date in a zone.
struct LocalInstant {
  enum class Kind {
    unique,
    skipped,  ///< the clocks are put forward over it: no such time that day
    repeated  ///< the clocks are put back over it: `at` is the first of the two
  };
  Kind kind = Kind::unique;
  std::chrono::sys_seconds at{};   ///< when skipped: the moment of the change
  std::chrono::minutes offset{};   ///< east of UTC at that instant
  std::chrono::minutes change{};   ///< skipped or repeated: clock time at which the clocks change
  std::chrono::minutes changed{};  ///< and what they are set to
};

/// The zone must be one that is_zone; else std::invalid_argument.
[[nodiscard]] LocalInstant to_utc(std::string_view zone, std::chrono::year_month_day date,
                                  ClockTime time);

/// Minutes east of UTC at an instant.
[[nodiscard]] std::chrono::minutes offset_at(std::string_view zone, std::chrono::sys_seconds at);

/// "2026-03-14T09:48:30+00:00" (RFC 3339)
[[nodiscard]] std::string rfc3339(std::string_view zone, std::chrono::sys_seconds at);
/// The same by a clock so far east of UTC.
[[nodiscard]] std::string rfc3339(std::chrono::minutes offset, std::chrono::sys_seconds at);

/// The date there at an instant.
[[nodiscard]] std::chrono::year_month_day date_at(std::string_view zone,
                                                  std::chrono::sys_seconds at);

/// Opening time as an instant.
[[nodiscard]] std::chrono::sys_seconds opening(const Day& day);

/// Real time from opening until a clock time of the day: on a day when the clocks change it is not
/// the difference of the clock times.
[[nodiscard]] std::chrono::minutes since_opening(const Day& day, ClockTime time);

}  // namespace dampline::session
