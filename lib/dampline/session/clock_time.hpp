#pragma once

#include <optional>
#include <string_view>

#include <dampline/session/session.hpp>

namespace dampline::session {

/// "9:30" or "14:05" as a time of the day, "24:00" included; none for anything else.
[[nodiscard]] std::optional<ClockTime> clock_time_from(std::string_view text);

}  // namespace dampline::session
