#pragma once

#include <span>

#include <dampline/stack/kernel_si.hpp>

/// The loops by processor: for one stack, and for as many lanes as it has doubles in a register.
namespace dampline::stack::kernel {

[[nodiscard]] const Calls* plain();     ///< any processor: one stack, two lanes
[[nodiscard]] const Calls* wide_256();  ///< AVX2 with FMA: one stack, four lanes; null if not built
[[nodiscard]] const Calls* wide_512();  ///< AVX-512: one stack, eight lanes; null if not built

/// Those the processor at hand can run, narrow to wide.
[[nodiscard]] std::span<const Calls* const> available();

}  // namespace dampline::stack::kernel
