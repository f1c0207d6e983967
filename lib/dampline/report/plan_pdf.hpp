#pragma once

#include <string>

#include <dampline/report/view.hpp>

namespace dampline::report {

/// The step sheet for printing, A4 and within the height of Letter: the answers, every step with a
/// box to tick and room for the real time, the pulls, what follows the day, cautions. Times in 17
/// points, steps in 14: to be read at arm's length.
[[nodiscard]] std::string plan_pdf(const View& view);

}  // namespace dampline::report
