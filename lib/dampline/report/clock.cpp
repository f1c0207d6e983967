#include <array>
#include <cstdlib>

#include <dampline/report/clock.hpp>
#include <dampline/units/text.hpp>

namespace dampline::report {

namespace {

using std::chrono::days;
using std::chrono::floor;
using std::chrono::minutes;
using std::chrono::seconds;

constexpr std::array weekdays = {"Sunday",   "Monday", "Tuesday", "Wednesday",
                                 "Thursday", "Friday", "Saturday"};
constexpr std::array months = {"January",   "February", "March",    "April",
                               "May",       "June",     "July",     "August",
                               "September", "October",  "November", "December"};

minutes offset_at(const Clock& clock, Instant at) {
  return clock.offset ? clock.offset(at) : minutes(0);
}

std::chrono::local_seconds local(const Clock& clock, Instant at) {
  return std::chrono::local_seconds((at + offset_at(clock, at)).time_since_epoch());
}

std::string two(long value) { return (value < 10 ? "0" : "") + std::to_string(value); }

std::string hours_and_minutes(minutes of_day) {
  return two(of_day / minutes(60)) + ":" + two(of_day % minutes(60) / minutes(1));
}

struct Date {
  int year;
  unsigned month, day, weekday;
};

Date date(const Clock& clock, Instant at) {
  const auto day = local_day(clock, at);
  const std::chrono::year_month_day ymd(day);
  return {static_cast<int>(ymd.year()), static_cast<unsigned>(ymd.month()),
          static_cast<unsigned>(ymd.day()), std::chrono::weekday(day).c_encoding()};
}

}  // namespace

Instant instant(const planner::Plan& plan, planner::HalfMinutes at) {
  return plan.opens + std::chrono::duration_cast<seconds>(at);
}

std::chrono::local_days local_day(const Clock& clock, Instant at) {
  return floor<days>(local(clock, at));
}

minutes minute_of_day(const Clock& clock, Instant at) {
  const auto here = local(clock, at);
  return floor<minutes>(here - floor<days>(here));
}

std::string clock_text(const Clock& clock, Instant at, Round round) {
  const Instant whole = round == Round::up ? std::chrono::ceil<minutes>(at) : at;
  return hours_and_minutes(minute_of_day(clock, whole));
}

std::string date_text(const Clock& clock, Instant at) {
  const Date d = date(clock, at);
  return std::string(weekdays[d.weekday]) + " " + std::to_string(d.day) + " " +
         months[d.month - 1] + " " + std::to_string(d.year);
}

std::string short_date_text(const Clock& clock, Instant at) {
  const Date d = date(clock, at);
  return std::string(weekdays[d.weekday]).substr(0, 3) + " " + std::to_string(d.day) + " " +
         std::string(months[d.month - 1]).substr(0, 3);
}

std::string rfc3339(const Clock& clock, Instant at) {
  const Date d = date(clock, at);
  const auto here = local(clock, at);
  const auto offset = offset_at(clock, at);
  std::string year = std::to_string(d.year);
  if (year.size() < 4) year.insert(0, 4 - year.size(), '0');
  return year + "-" + two(d.month) + "-" + two(d.day) + "T" +
         hours_and_minutes(minute_of_day(clock, at)) + ":" +
         two((here - floor<minutes>(here)) / seconds(1)) + (offset < minutes(0) ? "-" : "+") +
         hours_and_minutes(std::chrono::abs(offset));
}

std::string length_text(planner::HalfMinutes length) {
  const int halves = std::abs(length.count());
  if (halves < 120) return units::fixed(halves / 2.0, halves % 2) + " min";
  const int whole = (halves + 1) / 2;
  const int hours = whole / 60;
  const std::string rest = whole % 60 == 0 ? "" : " " + two(whole % 60) + " min";
  return std::to_string(hours) + " h" + rest;
}

}  // namespace dampline::report
