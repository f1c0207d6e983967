#pragma once

#include <dampline/scheduling/problem.hpp>

namespace dampline::scheduling {

/// A resource that has more to do than it can, by arithmetic alone: all that needs it lies, by the
/// lags, within a stretch of time in which it has not so much to give. -1: none; that proves
/// nothing.
[[nodiscard]] int overloaded(const Problem& problem);

}  // namespace dampline::scheduling
