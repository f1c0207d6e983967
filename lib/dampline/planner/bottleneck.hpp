#pragma once

#include <string>
#include <vector>

#include <dampline/planner/draft.hpp>
#include <dampline/planner/plan.hpp>

namespace dampline::planner {

/// People, presses, plates and places of a scheduled day, the most taken first.
[[nodiscard]] std::vector<Utilisation> utilisation(const Draft& draft,
                                                   const std::vector<Step>& steps,
                                                   HalfMinutes finish);

/// Which of them the day waits for, in a sentence. Whatever is taken for less than two thirds of
/// its time is no bottleneck: then the day waits for paper and ink.
[[nodiscard]] std::string bottleneck_sentence(const std::vector<Resource>& resources,
                                              const std::vector<Utilisation>& utilisation);

}  // namespace dampline::planner
