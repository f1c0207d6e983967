#pragma once

#include <variant>
#include <vector>

#include <dampline/material/catalogue.hpp>
#include <dampline/method/book.hpp>
#include <dampline/planner/craft.hpp>
#include <dampline/planner/drying_rules.hpp>
#include <dampline/planner/plan.hpp>
#include <dampline/readiness/band.hpp>
#include <dampline/session/session.hpp>

/// The whole way from a session to a checked plan.
namespace dampline::planner {

/// The data files, read.
struct Knowledge {
  material::Catalogue catalogue;
  readiness::Processes processes;
  Craft craft;
  method::Book methods;
  std::vector<CautionRule> cautions;
  DryingRules drying;
};

struct PlanOptions {
  int samples = 64;             ///< likely sheets simulated for bands and chances
  long long conflicts = 60000;  ///< search budget for each question put to the scheduler
  unsigned seed = 1;
  bool advice = false;  ///< also what one change would gain, and what is in the way
};

/// Plans the day: finds how the paper must be treated by simulating it, schedules as many prints
/// as fit, and simulates every sheet through the timeline as scheduled. Pulls that fall outside
/// their window make the plan again with a tighter one; what remains is a warning.
///
/// Errors point into the session's text: an unknown paper or process, nobody for the paper.
[[nodiscard]] std::variant<Plan, session::InputErrors> plan_day(const session::Session& session,
                                                                const Knowledge& knowledge,
                                                                const PlanOptions& options = {});

}  // namespace dampline::planner
