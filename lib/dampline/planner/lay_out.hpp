#pragma once

#include <vector>

#include <dampline/planner/draft.hpp>
#include <dampline/planner/plan.hpp>

namespace dampline::planner {

/// The clock moment of a moment inside a block, in this schedule.
[[nodiscard]] HalfMinutes when(const Moment& moment, const std::vector<int>& starts);

/// The id of the step that a part of a block is: the block's own for its last.
[[nodiscard]] std::string step_id(const Block& block, std::size_t part);

/// The steps of a schedule: every part of every block on the clock, and the soaks between them;
/// by start, then in the order of the draft. Each step says which steps hold it where it is.
[[nodiscard]] std::vector<Step> lay_out(const Draft& draft, const Craft& craft,
                                        const std::vector<int>& starts);

}  // namespace dampline::planner
