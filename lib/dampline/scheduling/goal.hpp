#pragma once

#include <dampline/scheduling/model.hpp>
#include <dampline/scheduling/objective.hpp>

namespace dampline::scheduling {

/// Adds to a problem what a margin takes for granted: its windows, `margin` narrower on each side.
void keep_windows(Problem& problem, const Objective& objective, int margin);

/// The widest margin the windows could have, whatever the schedule.
[[nodiscard]] int widest_margin(const Objective& objective);

/// Makes the objective the goal of a model. A sum or a margin becomes one more variable. Throws
/// std::invalid_argument when it would not fit an int.
void set_goal(const Objective& objective, Model& model);

/// Adds the variable that tells neighbourhoods apart.
void add_chooser(Model& model);

/// Keeps a sum at `most` or below.
void keep_sum(const Objective& objective, long long most, Model& model);

}  // namespace dampline::scheduling
