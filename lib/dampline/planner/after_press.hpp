#pragma once

#include <functional>
#include <optional>
#include <string>
#include <vector>

#include <dampline/planner/drying_rules.hpp>
#include <dampline/planner/worked_day.hpp>

/// What follows a day at the press: blotters to change, and when prints are dry, flat and may be
/// stacked. Dry comes from simulating prints as damp as their last pull left them; the rest is
/// common practice put on the calendar.
namespace dampline::planner {

struct DryingDate {
  std::string kind;  ///< "blotters", "dry", "ink", "flatten", "flat", "stack"
  std::string key;   ///< stable, for calendars
  std::chrono::sys_seconds at{};
  std::chrono::sys_seconds due{};  ///< by the rule; `at` when nobody sleeps then
  std::optional<std::chrono::sys_seconds> early, late;  ///< 8 of 10 fall between
  bool is_open = false;                                 ///< no end to its range is known
  std::string what;
  std::string basis;
  std::optional<units::Moisture> print, blotter;  ///< wettest, when blotters are changed
};

struct DryingCalendar {
  std::string title, zone;
  std::string day;  ///< "2026-03-14", where it was printed
  std::chrono::sys_seconds finished{};
  int prints = 0;
  std::string way;                         ///< "boards"
  units::Moisture wet, wet_low, wet_high;  ///< as they come from their last pull
  units::Moisture room;                    ///< what a dry print keeps
  int blotters_a_change = 0;
  int samples = 0;
  std::vector<DryingDate> dates;  ///< by time
  std::vector<std::string> notes;
};

struct AfterPressOptions {
  std::optional<std::chrono::sys_seconds> finished;  ///< else as planned
  int samples = 24;
};

/// None when nothing is pulled that day.
/// Error   the model holds all water of boards in, so tall stacks dry sooner than told; nights are
///         taken as the working hours are.
[[nodiscard]] std::optional<DryingCalendar> after_press(const WorkedDay& day,
                                                        const DryingRules& rules,
                                                        const AfterPressOptions& options = {});

}  // namespace dampline::planner
