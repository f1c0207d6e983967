#pragma once

#include <string>
#include <vector>

#include "validation/check.hpp"

namespace dampline::validation {

/// docs/validation/baseline.csv: id,n,bias,scatter,verdict. Bias and scatter as ln(model/data), or
/// in the unit of the check.
[[nodiscard]] std::string baseline(const std::vector<Check>& checks);

/// How far bias and scatter may drift from the baseline before it shows: 0.1 % of the value (of the
/// largest datum, for differences), or a twentieth of the data's own uncertainty when that is more.
[[nodiscard]] double drift_allowed(const Check& check);

/// What has changed since `kept` was written, a line each; empty when nothing has.
[[nodiscard]] std::vector<std::string> drift(const std::vector<Check>& checks,
                                             const std::string& kept);

/// The same for the overview: words must agree, numbers to one unit of their last digit or so.
[[nodiscard]] std::vector<std::string> overview_drift(const std::string& page,
                                                      const std::string& kept);

}  // namespace dampline::validation
