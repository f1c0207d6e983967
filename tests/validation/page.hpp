#pragma once

#include <string>
#include <vector>

#include "validation/check.hpp"

namespace dampline::validation {

/// docs/validation.md: how to read it, the overview, then a section a check with its picture.
[[nodiscard]] std::string page(const std::vector<Check>& checks);

/// The page's last part: data that were looked for and not found.
[[nodiscard]] std::string gaps();

/// The overview tables of a page by themselves: its lines that start with "| [".
[[nodiscard]] std::vector<std::string> overview_rows(const std::string& page);

}  // namespace dampline::validation
