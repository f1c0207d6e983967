#pragma once

#include <vector>

#include <dampline/stack/kernel_si.hpp>
#include <dampline/stack/stack.hpp>

/// A stack as a system of ordinary differential equations dy/dt = System::derivative(y), and back.
namespace dampline::stack::kernel {

inline constexpr double gone = 1e-6;  ///< kg/m2: a film thinner than this joins the sheet

/// The equations of a stack as it is now; throws std::invalid_argument when its parts do not fit
/// together.
[[nodiscard]] System system_of(const Stack& stack);

/// Its state: cells, films, temperature, water gone out at the left and at the right (zero).
[[nodiscard]] std::vector<double> state_of(const Stack& stack, const System& system);

/// Sets the stack's moisture, films and temperature from a state.
void put_back(Stack& stack, const System& system, const double* y);

}  // namespace dampline::stack::kernel
