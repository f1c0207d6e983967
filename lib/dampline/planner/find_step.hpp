#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include <dampline/planner/plan.hpp>
#include <dampline/session/session.hpp>

namespace dampline::planner {

/// What somebody means by a step.
struct StepSought {
  std::vector<std::string> ids;     ///< one: found; several: any of them; none: nothing like it
  std::optional<std::string> near;  ///< when nothing is: the id most like it
};

/// By id ("print-3/pull-key"), by words ("pull key 3", "mix ink tone"), or by a clock time of the
/// session's day ("11:42": what begins then, else what goes on).
[[nodiscard]] StepSought seek_step(const std::vector<Step>& steps, const session::Day& day,
                                   std::string_view word);

/// Ids of the pieces of work, alike ones as a range: "lay-out", "print-1 to print-5".
[[nodiscard]] std::vector<std::string> step_ranges(const std::vector<Step>& steps);

}  // namespace dampline::planner
