#pragma once

#include <dampline/planner/day.hpp>

namespace dampline::cli {

/// The data files of the program, read: stocks, processes, steps and cautions. A file that is
/// missing is a Failure 66, one that cannot be used a Failure 65 that names the line.
[[nodiscard]] planner::Knowledge read_knowledge();

}  // namespace dampline::cli
