#pragma once

#include <optional>
#include <string>
#include <vector>

#include <dampline/planner/damping.hpp>
#include <dampline/planner/verify.hpp>

/// The catcher felt next to the paper, which takes damp from every pull.
namespace dampline::planner {

/// Pulls after which it is likely clammy and wants changing for a dry one, from the damp the pulls
/// find and the time between them; none when one felt outlasts 100.
[[nodiscard]] std::optional<int> catcher_lasts(const method::PressHabits& habits,
                                               const PaperCase& paper,
                                               const std::vector<CheckedPull>& pulls, int presses);

/// What to do about it; empty without pulls. `planned` is the count its changes were planned by.
[[nodiscard]] std::string catcher_sentence(std::optional<int> lasts, std::optional<int> planned,
                                           std::size_t pulls, int presses);

}  // namespace dampline::planner
