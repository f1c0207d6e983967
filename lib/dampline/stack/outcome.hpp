#pragma once

#include <dampline/stack/semi_discrete.hpp>
#include <dampline/stack/walk.hpp>

namespace dampline::stack::kernel {

/// Puts a lane's end state back into its stack and closes the account of its water.
[[nodiscard]] Outcome outcome_of(Stack& stack, const System& system, const Walk& walk,
                                 double water_before, int lane = 0);

}  // namespace dampline::stack::kernel
