#pragma once

#include <chrono>
#include <optional>
#include <span>
#include <string>
#include <string_view>

/// Dates and times as loggers write them.
namespace dampline::session {

/// Which of two numbers is the day, where the year stands last.
enum class DateOrder { day_first, month_first };

/// A time as written: what it says, before it is known which number is the day.
struct WrittenTime {
  std::optional<std::chrono::sys_seconds> unix_time;  ///< seconds since 1970; then nothing else
  int year = 0;
  int first = 0;  ///< the month when the year stood first, else the first number
  int second = 0;
  bool year_first = false;
  bool dots = false;  ///< 14.03.2026: the day first, always
  std::chrono::seconds clock{};
  std::optional<std::chrono::minutes> offset;  ///< east of UTC, when written
};

/// Reads ISO 8601 (with or without an offset), year-month-day, day.month.year, and the orders of
/// slashes or hyphens with the year last, hours and minutes with or without seconds, am and pm;
/// seconds or milliseconds since 1970. None when it is no such time, or a date alone.
[[nodiscard]] std::optional<WrittenTime> read_time(std::string_view text);

/// The date, if there is such a day.
[[nodiscard]] std::optional<std::chrono::year_month_day> date_of(const WrittenTime& t,
                                                                 DateOrder order);

struct OrderFound {
  std::optional<DateOrder> order;  ///< none: it cannot be told
  std::string why;                 ///< what decided it; or what stands against it
};

/// Which number is the day, by all the times of a file in its order: a number above 12 decides,
/// else the reading under which neighbours lie much closer together, else the one that has `day` in
/// it.
[[nodiscard]] OrderFound date_order(std::span<const WrittenTime> times,
                                    const std::optional<std::chrono::year_month_day>& day);

}  // namespace dampline::session
