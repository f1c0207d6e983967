#pragma once

#include <string>

#include <dampline/report/view.hpp>

namespace dampline::report {

/// The charts of a plan as one drawing by itself: who does what, when, and the moisture of every
/// batch. No script, nothing fetched, styled for paper and legible in grey.
[[nodiscard]] std::string plan_svg(const View& view);

}  // namespace dampline::report
