#include <stdexcept>

#include <date/tz.h>

#include <dampline/session/zone.hpp>
#include <dampline/units/suggest.hpp>

namespace dampline::session {
namespace {

using std::chrono::minutes;
using std::chrono::seconds;
using std::chrono::sys_seconds;

const date::time_zone* find(std::string_view name) {
  try {
    return date::locate_zone(std::string(name));
  } catch (const std::runtime_error&) {
    return nullptr;
  }
}

const date::time_zone& zone_named(std::string_view name) {
  const auto* zone = find(name);
  if (zone == nullptr) throw std::invalid_argument("unknown time zone " + std::string(name));
  return *zone;
}

minutes whole(seconds s) { return std::chrono::floor<minutes>(s); }

date::local_seconds local(std::chrono::year_month_day day, ClockTime time) {
  return date::local_seconds(std::chrono::sys_days(day).time_since_epoch() + time);
}

minutes clock_of(sys_seconds at, seconds offset) {
  const auto t = at + offset;
  return whole(t - std::chrono::floor<std::chrono::days>(t));
}

std::string padded(int value, std::size_t digits) {
  auto out = std::to_string(value);
  return std::string(digits > out.size() ? digits - out.size() : 0, '0') + out;
}

std::string last_part(std::string_view name) {
  return std::string(name.substr(name.find_last_of('/') + 1));
}

}  // namespace

bool is_zone(std::string_view name) { return !name.empty() && find(name) != nullptr; }

std::optional<std::string> nearest_zone(std::string_view name) {
  std::vector<std::string> names;
  std::vector<std::string> cities;
  for (const auto& zone : date::get_tzdb().zones) {
    names.push_back(zone.name());
    cities.push_back(last_part(zone.name()));
  }
  auto asked = last_part(name);
  for (char& c : asked) {
    if (c == ' ') c = '_';
  }
  if (const auto city = units::nearest(asked, cities)) {
    for (std::size_t i = 0; i < cities.size(); ++i) {
      if (cities[i] == *city && names[i].find('/') != std::string::npos) return names[i];
    }
  }
  return units::nearest(name, names);
}

std::string zone_of_system() {
  try {
    return date::current_zone()->name();
  } catch (const std::runtime_error&) {
    return "UTC";
  }
}

LocalInstant to_utc(std::string_view zone, std::chrono::year_month_day day, ClockTime time) {
  const auto wanted = local(day, time);
  const auto info = zone_named(zone).get_info(wanted);
  LocalInstant out;
  switch (info.result) {
    case date::local_info::unique:
      out.at = sys_seconds(wanted.time_since_epoch() - info.first.offset);
      out.offset = whole(info.first.offset);
      return out;
    case date::local_info::nonexistent:
      out.kind = LocalInstant::Kind::skipped;
      out.at = info.first.end;
      out.offset = whole(info.second.offset);
      break;
    default:
      out.kind = LocalInstant::Kind::repeated;
      out.at = sys_seconds(wanted.time_since_epoch() - info.first.offset);
      out.offset = whole(info.first.offset);
      break;
  }
  out.change = clock_of(info.first.end, info.first.offset);
  out.changed = clock_of(info.first.end, info.second.offset);
  return out;
}

minutes offset_at(std::string_view zone, sys_seconds at) {
  return whole(zone_named(zone).get_info(at).offset);
}

std::string rfc3339(std::string_view zone, sys_seconds at) {
  return rfc3339(offset_at(zone, at), at);
}

std::string rfc3339(minutes offset, sys_seconds at) {
  const auto t = at + offset;
  const auto midnight = std::chrono::floor<std::chrono::days>(t);
  const std::chrono::year_month_day day(midnight);
  const std::chrono::hh_mm_ss<seconds> clock(t - midnight);
  const auto east = std::chrono::abs(offset);
  return padded(static_cast<int>(day.year()), 4) + "-" +
         padded(static_cast<int>(static_cast<unsigned>(day.month())), 2) + "-" +
         padded(static_cast<int>(static_cast<unsigned>(day.day())), 2) + "T" +
         padded(static_cast<int>(clock.hours().count()), 2) + ":" +
         padded(static_cast<int>(clock.minutes().count()), 2) + ":" +
         padded(static_cast<int>(clock.seconds().count()), 2) + (offset < minutes(0) ? "-" : "+") +
         padded(static_cast<int>(east.count() / 60), 2) + ":" +
         padded(static_cast<int>(east.count() % 60), 2);
}

std::chrono::year_month_day date_at(std::string_view zone, sys_seconds at) {
  return {std::chrono::floor<std::chrono::days>(at + offset_at(zone, at))};
}

sys_seconds opening(const Day& day) { return to_utc(day.zone, day.date, day.from).at; }

minutes since_opening(const Day& day, ClockTime time) {
  return whole(to_utc(day.zone, day.date, time).at - opening(day));
}

}  // namespace dampline::session
