#pragma once

#include <dampline/planner/plan.hpp>
#include <dampline/report/ics.hpp>

namespace dampline::report {

/// The moments of a day that want a calendar, not every step: the day itself, each batch of paper
/// into the water, the first pull, cleaning up, and what follows: blotters, dry, flat, stackable.
/// Ids hang on title and date alone, so that the same day planned again takes its own place.
///
/// Alarms come 10 min before what needs hands, and at the moment for what follows. What would fall
/// between 22:00 and 07:30 in the days after is put off to 07:30 and says so: `assumed`.
[[nodiscard]] Calendar plan_calendar(const planner::Plan& plan, const Clock& clock,
                                     Instant revised);

/// What tells this day from others: its title and its date.
[[nodiscard]] std::string day_identity(const planner::Plan& plan, const Clock& clock);

}  // namespace dampline::report
