#pragma once

#include <optional>
#include <variant>
#include <vector>

#include <dampline/planner/climate.hpp>
#include <dampline/planner/damping.hpp>
#include <dampline/planner/day.hpp>
#include <dampline/planner/fit.hpp>
#include <dampline/planner/verify.hpp>

namespace dampline::planner {

/// A schedule and what its pulls find.
struct Outcome {
  Fit fit;
  std::vector<CheckedPull> pulls;
  std::optional<int> catcher_lasts;  ///< pulls
};

/// A planned day with all it was made from, to go on from: why it is so, or when it runs otherwise.
struct WorkedDay {
  session::Session session;  ///< its plates in the order they are printed in
  StudioAir studio;
  PaperCase paper;
  Damping damping;  ///< its window as tightened by what the pulls found
  Outcome outcome;  ///< nothing when no printable sheet comes of the damping
  Plan plan;
};

[[nodiscard]] std::variant<WorkedDay, session::InputErrors> work_out(
    const session::Session& session, const Knowledge& knowledge, const PlanOptions& options);

}  // namespace dampline::planner
