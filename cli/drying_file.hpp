#pragma once

#include <dampline/planner/after_press.hpp>

namespace dampline::cli {

/// drying.toml as it is installed. A file that is missing is a Failure 66, one that cannot be used
/// a Failure 65.
[[nodiscard]] planner::DryingRules read_drying_rules();

}  // namespace dampline::cli
