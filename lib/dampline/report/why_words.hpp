#pragma once

#include <string>
#include <string_view>
#include <vector>

#include <dampline/planner/plan.hpp>
#include <dampline/planner/why.hpp>
#include <dampline/report/clock.hpp>
#include <dampline/report/plan_text.hpp>

/// Why a step is where it is, in sentences.
namespace dampline::report {

/// "rest", "ink_waits" ...: the name of a ground in data.
[[nodiscard]] std::string_view ground_name(planner::Ground ground);

/// What a link says of the step it holds, told downwards (what it waits for) or upwards (what needs
/// it): "A's hands are busy until 10:39: lift, drain and blot, sheets 1-5".
[[nodiscard]] std::string down_sentence(const planner::WhyLink& link, const planner::Plan& plan,
                                        const Clock& clock);
[[nodiscard]] std::string up_sentence(const planner::WhyLink& link, const planner::Plan& plan,
                                      const Clock& clock);

/// "Soaking starts 09:52 because print 1, pulled 10:55, needs 15 min under water, lift, drain and
/// blot and 30 min rest; print 1 waits: ..."
[[nodiscard]] std::string answer(const planner::Why& why, const planner::Plan& plan,
                                 const Clock& clock);

/// By how much it could move, and when its sheets are printable; a sentence each.
[[nodiscard]] std::vector<std::string> remarks(const planner::Why& why, const planner::Plan& plan,
                                               const Clock& clock);

[[nodiscard]] std::string why_text(const planner::Why& why, const planner::Plan& plan,
                                   const Clock& clock, const TextOptions& options = {});
[[nodiscard]] std::string why_json(const planner::Why& why, const planner::Plan& plan,
                                   const Clock& clock);

}  // namespace dampline::report
