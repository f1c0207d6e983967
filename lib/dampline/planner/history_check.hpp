#pragma once

#include <dampline/planner/history.hpp>

namespace dampline::planner {

/// What cannot have been: work before the studio opened, a step begun before what it follows was
/// over, somebody in two places. The first few of the first kind found.
[[nodiscard]] LateFaults faults_of(const Morning& morning, const History& history);

}  // namespace dampline::planner
