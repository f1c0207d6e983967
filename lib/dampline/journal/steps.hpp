#pragma once

#include <optional>
#include <string>
#include <vector>

#include <dampline/journal/sessions.hpp>

namespace dampline::journal {

/// A step as it was really done.
struct Took {
  const StepMark* mark = nullptr;  ///< of its start; of its finish when it has no start
  std::optional<Stamp> from;
  std::optional<Stamp> until;
  /// When both are known; never negative.
  [[nodiscard]] std::optional<units::Duration> length() const;
};

/// The steps of a session: each finish goes with the latest start of the same step that is still
/// open and says no other plate, print, sheets or person. In the order of their starts.
[[nodiscard]] std::vector<Took> steps(const Held& held);

}  // namespace dampline::journal
