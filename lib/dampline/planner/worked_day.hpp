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
  std::optional<Registering> registering;
  Outcome outcome;  ///< nothing when no printable sheet comes of the damping
  Plan blank;       ///< what of the plan does not hang on its times
  Plan plan;
};

[[nodiscard]] std::variant<WorkedDay, session::InputErrors> work_out(
    const session::Session& session, const Knowledge& knowledge, const PlanOptions& options);

/// Puts a schedule of the day into a plan: resources, steps, pulls, batches, finish.
void put_on_the_clock(const WorkedDay& day, const Knowledge& knowledge, const Damping& damping,
                      const Outcome& outcome, Plan& plan);

}  // namespace dampline::planner
