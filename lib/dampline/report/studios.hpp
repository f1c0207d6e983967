#pragma once

#include <string>
#include <vector>

#include <dampline/planner/studios.hpp>
#include <dampline/report/clock.hpp>
#include <dampline/report/plan_text.hpp>

/// One day under several studios: one table and one chart.
namespace dampline::report {

[[nodiscard]] std::string studios_text(const std::string& title,
                                       const std::vector<planner::StudioDay>& days,
                                       const Clock& clock, const TextOptions& options = {});

/// Format "dampline-compare" version 1.
[[nodiscard]] std::string studios_json(const std::string& title,
                                       const std::vector<planner::StudioDay>& days,
                                       const Clock& clock);

}  // namespace dampline::report
