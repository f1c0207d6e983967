#pragma once

#include <map>
#include <optional>
#include <vector>

#include <dampline/journal/sessions.hpp>

/// What follows from single readings of a session.
namespace dampline::journal {

/// A weighing against the same sheet dry; sheets without a number share the mean of those.
struct Taken {
  const Entry* entry = nullptr;
  const Weighing* weighing = nullptr;
  std::optional<units::Moisture> moisture;  ///< over the weight dry in the room; none: not weighed
};
[[nodiscard]] std::vector<Taken> weighings(const Held& held);

/// A length against the same sheet's dry one in that direction.
struct Grown {
  const Entry* entry = nullptr;
  const Length* length = nullptr;
  std::optional<units::Strain> growth;
};
[[nodiscard]] std::vector<Grown> lengths(const Held& held);

/// Humidity as read, or worked out from the wet bulb at sea level; none when it cannot be.
[[nodiscard]] std::optional<units::RelativeHumidity> humidity(const Air& air);

}  // namespace dampline::journal
