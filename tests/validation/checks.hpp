#pragma once

#include <vector>

#include "validation/check.hpp"

/// The list of outside checks: one function a file, each giving its checks in the order of the
/// page.
namespace dampline::validation {

[[nodiscard]] std::vector<Check> air_checks();
[[nodiscard]] std::vector<Check> convection_checks();
[[nodiscard]] std::vector<Check> pool_checks();
[[nodiscard]] std::vector<Check> balance_checks();
[[nodiscard]] std::vector<Check> ratio_checks();
[[nodiscard]] std::vector<Check> diffusion_checks();
[[nodiscard]] std::vector<Check> drying_checks();
[[nodiscard]] std::vector<Check> drying_shape_checks();
[[nodiscard]] std::vector<Check> historic_checks();
[[nodiscard]] std::vector<Check> cover_checks();
[[nodiscard]] std::vector<Check> salt_checks();
[[nodiscard]] std::vector<Check> mould_checks();
[[nodiscard]] std::vector<Check> isotherm_checks();
[[nodiscard]] std::vector<Check> isotherm_heat_checks();
[[nodiscard]] std::vector<Check> suction_checks();
[[nodiscard]] std::vector<Check> transport_checks();
[[nodiscard]] std::vector<Check> transport_water_checks();
[[nodiscard]] std::vector<Check> uptake_checks();
[[nodiscard]] std::vector<Check> uptake_soak_checks();
[[nodiscard]] std::vector<Check> soak_times_checks();
[[nodiscard]] std::vector<Check> blotting_checks();
[[nodiscard]] std::vector<Check> blotting_packs_checks();
[[nodiscard]] std::vector<Check> blotting_drying_checks();
[[nodiscard]] std::vector<Check> size_checks();
[[nodiscard]] std::vector<Check> size_grain_checks();

/// All of them. Throws when two share an id.
[[nodiscard]] std::vector<Check> all_checks();

}  // namespace dampline::validation
