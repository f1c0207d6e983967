#include <dampline/session/clock_time.hpp>

namespace dampline::session {

std::optional<ClockTime> clock_time_from(std::string_view text) {
  const auto colon = text.find(':');
  const bool shape = (colon == 1 || colon == 2) && text.size() == colon + 3;
  if (!shape) return std::nullopt;
  int hours = 0;
  int minutes = 0;
  for (std::size_t i = 0; i < text.size(); ++i) {
    if (i == colon) continue;
    if (text[i] < '0' || text[i] > '9') return std::nullopt;
    int& part = i < colon ? hours : minutes;
    part = part * 10 + (text[i] - '0');
  }
  const bool in_a_day = minutes < 60 && (hours < 24 || (hours == 24 && minutes == 0));
  if (!in_a_day) return std::nullopt;
  return std::chrono::hours(hours) + std::chrono::minutes(minutes);
}

}  // namespace dampline::session
