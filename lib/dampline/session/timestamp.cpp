#include <algorithm>
#include <cmath>
#include <cstdlib>

#include <dampline/session/timestamp.hpp>

namespace dampline::session {
namespace {

using std::chrono::minutes;
using std::chrono::seconds;
using std::chrono::sys_days;

bool digit(char c) { return c >= '0' && c <= '9'; }
char lower(char c) { return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c; }

// Reads on from the front of a text; a part that is not there leaves it as it was.
struct Scanner {
  std::string_view rest;

  void blanks() {
    while (!rest.empty() && (rest.front() == ' ' || rest.front() == '\t')) rest.remove_prefix(1);
  }
  bool any_of(std::string_view characters) {
    if (rest.empty() || characters.find(rest.front()) == std::string_view::npos) return false;
    rest.remove_prefix(1);
    return true;
  }
  bool word(std::string_view expected) {
    if (rest.size() < expected.size()) return false;
    for (std::size_t i = 0; i < expected.size(); ++i) {
      if (lower(rest[i]) != expected[i]) return false;
    }
    rest.remove_prefix(expected.size());
    return true;
  }
  // Up to `most` digits; the count of them.
  int number(int& to, int most) {
    int count = 0;
    int value = 0;
    while (count < most && !rest.empty() && digit(rest.front())) {
      value = value * 10 + (rest.front() - '0');
      rest.remove_prefix(1);
      ++count;
    }
    if (count > 0) to = value;
    return count;
  }
};

std::optional<WrittenTime> all_digits(std::string_view text) {
  const auto point = text.find('.');
  const auto whole = text.substr(0, point);
  const bool digits_only =
      !whole.empty() && std::all_of(whole.begin(), whole.end(), digit) &&
      (point == std::string_view::npos ||
       std::all_of(text.begin() + static_cast<std::ptrdiff_t>(point) + 1, text.end(), digit));
  const bool known = whole.size() == 9 || whole.size() == 10 || whole.size() == 13;
  if (!digits_only || !known) return std::nullopt;
  long long value = 0;
  for (const char c : whole) value = value * 10 + (c - '0');
  if (whole.size() == 13) value /= 1000;
  WrittenTime t;
  t.unix_time = std::chrono::sys_seconds(seconds(value));
  return t;
}

bool read_date(Scanner& in, WrittenTime& t) {
  int numbers[3] = {0, 0, 0};
  int counts[3] = {0, 0, 0};
  char separator = 0;
  counts[0] = in.number(numbers[0], 4);
  if (counts[0] == 0 || in.rest.empty()) return false;
  separator = in.rest.front();
  if (!in.any_of("-/.")) return false;
  counts[1] = in.number(numbers[1], 2);
  if (counts[1] == 0 || !in.any_of(std::string_view(&separator, 1))) return false;
  counts[2] = in.number(numbers[2], 4);
  if (counts[2] == 0) return false;
  t.year_first = counts[0] == 4;
  t.dots = separator == '.' && !t.year_first;
  if (t.year_first) {
    t.year = numbers[0];
    t.first = numbers[1];
    t.second = numbers[2];
    return counts[2] <= 2;
  }
  if (counts[0] > 2 || counts[2] == 1 || counts[2] == 3) return false;
  t.first = numbers[0];
  t.second = numbers[1];
  t.year = counts[2] == 2 ? 2000 + numbers[2] : numbers[2];
  return true;
}

// 1 to 12 with am or pm becomes 0 to 23.
bool half_day(Scanner& in, int& hour) {
  const bool afternoon = in.word("pm") || in.word("p.m.");
  const bool morning = !afternoon && (in.word("am") || in.word("a.m."));
  if (!afternoon && !morning) return true;
  if (hour < 1 || hour > 12) return false;
  hour = hour % 12 + (afternoon ? 12 : 0);
  return true;
}

bool read_offset(Scanner& in, WrittenTime& t) {
  if (in.word("utc") || in.word("gmt") || in.word("z")) {
    t.offset = minutes(0);
    in.blanks();
  }
  if (in.rest.empty()) return true;
  const bool east = in.rest.front() == '+';
  if (!in.any_of("+-")) return false;
  int hours = 0;
  int mins = 0;
  if (in.number(hours, 2) == 0) return false;
  in.any_of(":");
  in.number(mins, 2);
  if (hours > 15 || mins > 59) return false;
  t.offset = minutes((hours * 60 + mins) * (east ? 1 : -1));
  return true;
}

bool read_clock(Scanner& in, WrittenTime& t) {
  int hour = 0;
  int minute = 0;
  int second = 0;
  const int hour_digits = in.number(hour, 2);
  if (hour_digits == 0) return false;
  const bool with_minutes = in.any_of(":.hH");
  if (with_minutes || hour_digits == 2) {
    const int count = in.number(minute, 2);
    if (with_minutes && count != 2) return false;
    if (count == 2 &&
        (in.any_of(":.") || (!with_minutes && !in.rest.empty() && digit(in.rest[0])))) {
      if (in.number(second, 2) != 2) return false;
      if (in.any_of(".,")) {
        int fraction = 0;
        while (in.number(fraction, 9) > 0) {
        }
      }
    } else if (count == 0) {
      return false;
    }
  } else {
    return false;
  }
  in.blanks();
  if (!half_day(in, hour)) return false;
  in.blanks();
  if (in.word("uhr") || in.word("h")) in.blanks();
  if (hour > 23 || minute > 59 || second > 60) return false;
  t.clock = seconds(hour * 3600 + minute * 60 + std::min(second, 59));
  return read_offset(in, t);
}

// 20260314T093000: digits in a row, as ISO 8601 allows.
std::optional<std::string> spread_out(std::string_view text) {
  const bool date = text.size() >= 12 && std::all_of(text.begin(), text.begin() + 8, digit) &&
                    (digit(text[8]) || lower(text[8]) == 't' || text[8] == ' ');
  if (!date || (text.size() == 13 && digit(text[8]))) return std::nullopt;
  const auto clock = text.substr(digit(text[8]) ? 8 : 9);
  return std::string(text.substr(0, 4)) + "-" + std::string(text.substr(4, 2)) + "-" +
         std::string(text.substr(6, 2)) + " " + std::string(clock);
}

std::optional<WrittenTime> written_out(std::string_view text) {
  Scanner in{text};
  WrittenTime t;
  if (!read_date(in, t)) return std::nullopt;
  if (!in.any_of("Tt")) {
    const auto before = in.rest.size();
    in.any_of(",");
    in.blanks();
    if (in.rest.size() == before) return std::nullopt;  // a date alone
  }
  if (!read_clock(in, t) || !in.rest.empty()) return std::nullopt;
  return t;
}

}  // namespace

std::optional<WrittenTime> read_time(std::string_view text) {
  if (text.size() > 60) return std::nullopt;
  if (auto t = all_digits(text)) return t;
  if (const auto spread = spread_out(text)) return written_out(*spread);
  return written_out(text);
}

std::optional<std::chrono::year_month_day> date_of(const WrittenTime& t, DateOrder order) {
  const bool day_first = !t.year_first && (t.dots || order == DateOrder::day_first);
  const int month = day_first ? t.second : t.first;
  const int day = day_first ? t.first : t.second;
  if (month < 1 || day < 1 || t.year < 1970 || t.year > 2200) return std::nullopt;
  const std::chrono::year_month_day date{std::chrono::year(t.year),
                                         std::chrono::month(static_cast<unsigned>(month)),
                                         std::chrono::day(static_cast<unsigned>(day))};
  if (!date.ok()) return std::nullopt;
  return date;
}

namespace {

bool open_order(const WrittenTime& t) { return !t.unix_time && !t.year_first && !t.dots; }

// The longest step from one row to the next under an order, either way; none when a date fails.
std::optional<seconds> longest_step(std::span<const WrittenTime> times, DateOrder order) {
  std::optional<seconds> before;
  seconds longest{0};
  for (const auto& t : times) {
    if (!open_order(t)) continue;
    const auto date = date_of(t, order);
    if (!date) return std::nullopt;
    const seconds at = sys_days(*date).time_since_epoch() + t.clock;
    if (before) longest = std::max(longest, std::chrono::abs(at - *before));
    before = at;
  }
  return longest;
}

bool has_day(std::span<const WrittenTime> times, DateOrder order, std::chrono::year_month_day day) {
  return std::any_of(times.begin(), times.end(), [&](const WrittenTime& t) {
    return open_order(t) && date_of(t, order) == day;
  });
}

}  // namespace

OrderFound date_order(std::span<const WrittenTime> times,
                      const std::optional<std::chrono::year_month_day>& day) {
  constexpr int much_closer = 10;
  bool open = false;
  bool day_first = false;
  bool month_first = false;
  for (const auto& t : times) {
    if (!open_order(t) || t.first == t.second) continue;  // 03/03 is the same day either way
    open = true;
    day_first |= t.first > 12 && t.first <= 31;
    month_first |= t.second > 12 && t.second <= 31;
  }
  if (!open) return {DateOrder::day_first, {}};
  if (day_first && month_first) {
    return {std::nullopt, "some dates have a number above 12 first, some have one second"};
  }
  if (day_first) return {DateOrder::day_first, "a first number is above 12"};
  if (month_first) return {DateOrder::month_first, "a second number is above 12"};
  const auto by_day = longest_step(times, DateOrder::day_first);
  const auto by_month = longest_step(times, DateOrder::month_first);
  if (by_day && by_month) {
    const std::string nearer = "the rows then follow one another closely";
    if (*by_day * much_closer < *by_month) return {DateOrder::day_first, nearer};
    if (*by_month * much_closer < *by_day) return {DateOrder::month_first, nearer};
  }
  if (day) {
    const bool in_days = has_day(times, DateOrder::day_first, *day);
    const bool in_months = has_day(times, DateOrder::month_first, *day);
    if (in_days != in_months) {
      return {in_days ? DateOrder::day_first : DateOrder::month_first,
              "the day of the session is then in it"};
    }
  }
  return {std::nullopt, "no number in its dates is above 12"};
}

}  // namespace dampline::session
