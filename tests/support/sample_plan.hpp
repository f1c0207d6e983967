#pragma once

#include <dampline/planner/plan.hpp>
#include <dampline/report/clock.hpp>

namespace dampline::tests {

/// A day made by hand for the reports: two people, two plates held in the press one after the
/// other, one proof and six prints, a break of 40 minutes, two batches of paper. Times follow
/// data/steps.toml; moistures are drawn, not simulated.
[[nodiscard]] planner::Plan sample_plan();

/// The same day when two prints do not fit: shortage, warnings and a pull outside its window.
[[nodiscard]] planner::Plan short_plan();

/// A day whose text tries to break out of every format: markup, quotes, escape codes, emoji.
[[nodiscard]] planner::Plan hostile_plan();

/// An hour east of UTC.
[[nodiscard]] report::Clock sample_clock();

}  // namespace dampline::tests
