#pragma once

#include <map>
#include <optional>
#include <string>
#include <variant>
#include <vector>

#include <dampline/planner/day.hpp>

/// The day runs late: what is done stays where it was, what is wet keeps the moisture it has by
/// now, the rest is planned anew.
namespace dampline::planner {

/// A step somebody says is done, or is being done.
struct SaidStep {
  std::string name;  ///< its id, or its words: "ink-3-key", "ink: key, print 3"
  std::optional<HalfMinutes> start;
  std::optional<HalfMinutes> end;
  bool running = false;
  /// Where it was written down, "journal.toml:41"; empty when it was said by hand. What was written
  /// down and fits no step of the plan is told and left out, and not refused.
  std::string written{};
  std::optional<std::string> plate{};
  std::optional<int> print{};
  std::optional<HalfMinutes> before{};  ///< without an end: over by then
};

/// Sheets found lying in the open.
struct SaidOpen {
  std::vector<int> sheets;
  std::optional<HalfMinutes> since;  ///< none: since they were covered
};

/// What is known of the day by now. A step that is not said to be done or running is not begun.
struct LateNews {
  HalfMinutes at{};
  std::vector<SaidStep> steps;
  std::optional<std::string> done_until;  ///< all that was to be over by the end of this step
  std::optional<HalfMinutes> behind;      ///< the whole day so far, this much later than planned
  std::vector<SaidOpen> open;
  std::map<int, std::string> spoiled{};  ///< prints, each with where that was written down
  std::vector<std::string> notes{};      ///< of where the news come from
  std::optional<HalfMinutes> until;      ///< out by, when that has changed
};

/// Something wrong with what was said.
struct LateFault {
  std::string what;
  std::string help;
};
using LateFaults = std::vector<LateFault>;

/// Plans the rest of a day that has begun. The plan of the morning is found again by planning it,
/// so session and options have to be those of the morning. Sheets that are wet are simulated up to
/// now and get windows of their own; those that cannot be printed in time get a rescue.
[[nodiscard]] std::variant<Plan, session::InputErrors, LateFaults> plan_late(
    const session::Session& session, const Knowledge& knowledge, const LateNews& news,
    const PlanOptions& options = {});

}  // namespace dampline::planner
