#pragma once

#include <chrono>
#include <functional>
#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include <dampline/planner/plan.hpp>
#include <dampline/units/quantity.hpp>

/// What the trade does by the clock after a day at the press.
namespace dampline::planner {

/// A time with its range, since the finish.
struct LaterRange {
  units::Duration least{}, usual{}, most{};
  units::Duration dry_and{};                    ///< nor before dry and so much longer
  std::optional<units::Duration> flatten_from;  ///< dried cockled: flattened from then
  std::string what;
};

/// Something to see to on the way, at a time since the finish.
struct LaterLook {
  units::Duration at{};
  std::string what;
};

/// When nobody gets up to change blotters, clock times since midnight.
struct Night {
  std::chrono::minutes from{}, until{};
};

/// data/drying.toml, typed.
struct DryingRules {
  std::vector<units::Duration> changes;
  units::Duration then_every{};
  units::Duration most{};
  std::map<std::string, LaterRange> flat;  ///< by way of drying
  LaterRange ink, stack;
  std::map<std::string, std::vector<LaterLook>> looks;  ///< by way of drying
  Night night;
  std::string basis;
};

/// Throws DataError.
[[nodiscard]] DryingRules read_drying(std::string_view text, std::string_view file);

/// Of the change of blotters that comes i-th, and of what dried cockled.
[[nodiscard]] std::string change_words(std::size_t i);
inline constexpr const char* flatten_words =
    "damp, blot and lay under boards to flatten; change the blotters daily";

/// What is to be done by the trade alone, without a forecast: blotters, looks, flat, ink, stack; by
/// time, each put off to the morning where it falls in the night. `offset` is the clock's, east of
/// UTC.
[[nodiscard]] std::vector<AfterStep> after_steps(
    const DryingRules& rules, const std::string& way, std::chrono::sys_seconds finish,
    const std::function<std::chrono::minutes(std::chrono::sys_seconds)>& offset);

/// Not in the night of the clock that is `offset` east of UTC: the same, or the morning after.
[[nodiscard]] std::chrono::sys_seconds in_waking_hours(
    const Night& night, const std::function<std::chrono::minutes(std::chrono::sys_seconds)>& offset,
    std::chrono::sys_seconds at);

}  // namespace dampline::planner
