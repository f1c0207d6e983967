#pragma once

#include <string>

#include "validation/check.hpp"

namespace dampline::validation {

/// The picture of a check: data as hollow marks with their error bars, the model as a line, or as
/// an upright stroke where there is no line to draw. Reads in light and in dark.
[[nodiscard]] std::string picture(const Check& check);

}  // namespace dampline::validation
