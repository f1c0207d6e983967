#pragma once

#include <chrono>
#include <functional>
#include <string>

#include <dampline/planner/plan.hpp>

/// A plan in, bytes out: text, JSON and a page. All of them show the same view.
namespace dampline::report {

using Instant = std::chrono::sys_seconds;

/// What is needed to tell the studio's time. The room knows no zone rules: the caller gives the
/// offset, so that a day on which the clocks change is printed right.
struct Clock {
  std::function<std::chrono::minutes(Instant)> offset;  ///< east of UTC at an instant; empty: UTC
};

/// The instant of a time of the plan.
[[nodiscard]] Instant instant(const planner::Plan& plan, planner::HalfMinutes at);

enum class Round { down, up };  ///< to the whole minute

/// "09:48"
[[nodiscard]] std::string clock_text(const Clock& clock, Instant at, Round round = Round::down);
/// "Saturday 14 March 2026"
[[nodiscard]] std::string date_text(const Clock& clock, Instant at);
/// "Sat 14 Mar"
[[nodiscard]] std::string short_date_text(const Clock& clock, Instant at);
/// "2026-03-14T09:48:30+00:00", RFC 3339
[[nodiscard]] std::string rfc3339(const Clock& clock, Instant at);
/// Days since the epoch of the local date, to tell one day from another.
[[nodiscard]] std::chrono::local_days local_day(const Clock& clock, Instant at);
/// Minutes since midnight, local.
[[nodiscard]] std::chrono::minutes minute_of_day(const Clock& clock, Instant at);

/// "8 min", "1.5 min", "2 h 05 min"
[[nodiscard]] std::string length_text(planner::HalfMinutes length);

}  // namespace dampline::report
