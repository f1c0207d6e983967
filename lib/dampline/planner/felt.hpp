#pragma once

#include <string>
#include <vector>

#include <dampline/planner/damping.hpp>
#include <dampline/planner/verify.hpp>

namespace dampline::planner {

/// After how many pulls the catcher felt of a day wants changing for a dry one, or that one felt
/// will do; empty without pulls. From the damp the pulls find and the time between them.
[[nodiscard]] std::string catcher_sentence(const method::PressHabits& habits,
                                           const PaperCase& paper,
                                           const std::vector<CheckedPull>& pulls, int presses);

}  // namespace dampline::planner
