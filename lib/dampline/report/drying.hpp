#pragma once

#include <string>

#include <dampline/planner/after_press.hpp>
#include <dampline/report/ics.hpp>
#include <dampline/report/plan_text.hpp>

/// What follows a day at the press, shown three ways.
namespace dampline::report {

/// Weeks as a calendar, then every date with its range and basis.
[[nodiscard]] std::string drying_text(const planner::DryingCalendar& calendar, const Clock& clock,
                                      const TextOptions& options = {});

/// Format "dampline-dry" version 1: times RFC 3339 with offset, moisture in g/g.
[[nodiscard]] std::string drying_json(const planner::DryingCalendar& calendar, const Clock& clock);

/// Its ids are those of the same dates in the plan's calendar, so that it takes their place.
[[nodiscard]] Calendar drying_events(const planner::DryingCalendar& calendar, const Clock& clock,
                                     Instant revised);

}  // namespace dampline::report
