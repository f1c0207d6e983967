#pragma once

#include <span>
#include <vector>

#include <dampline/stack/kernel_si.hpp>
#include <dampline/stack/stack.hpp>

/// A stack as a system of ordinary differential equations dy/dt = System::derivative(y), and back.
namespace dampline::stack::kernel {

/// The equations of a stack as it is now; throws std::invalid_argument when its parts do not fit
/// together.
[[nodiscard]] System system_of(const Stack& stack);

/// The equations of stacks of one shape side by side; lanes left over repeat the last stack. Throws
/// std::invalid_argument too when the shapes differ.
[[nodiscard]] System system_of(std::span<const Stack> stacks, const Calls& calls);
[[nodiscard]] System system_of(std::span<const Stack* const> stacks, const Calls& calls);

/// Whether stacks are of the shape a system was made for, and the system made theirs: for many of
/// one shape, one after the other.
[[nodiscard]] bool fits(const System& system, std::span<const Stack* const> stacks);
void refill(System& system, std::span<const Stack* const> stacks);

/// The state of a stack: cells, films, temperature, water gone out at the left and at the right
/// (zero).
[[nodiscard]] std::vector<double> state_of(const Stack& stack, const System& system);

/// Sets a stack's moisture, films, temperature and branches from a state.
void put_back(Stack& stack, const System& system, const double* y, int lane = 0);

}  // namespace dampline::stack::kernel
