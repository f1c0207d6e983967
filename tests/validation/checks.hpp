#pragma once

#include <vector>

#include "validation/check.hpp"

/// The list of outside checks: one function a file, each giving its checks in the order of the
/// page.
namespace dampline::validation {

[[nodiscard]] std::vector<Check> air_checks();
[[nodiscard]] std::vector<Check> isotherm_checks();
[[nodiscard]] std::vector<Check> isotherm_heat_checks();

/// All of them. Throws when two share an id.
[[nodiscard]] std::vector<Check> all_checks();

}  // namespace dampline::validation
