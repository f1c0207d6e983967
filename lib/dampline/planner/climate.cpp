#include <algorithm>
#include <cmath>

#include <dampline/air/psychrometrics.hpp>
#include <dampline/method/scores.hpp>
#include <dampline/planner/climate.hpp>
#include <dampline/session/zone.hpp>
#include <dampline/units/text.hpp>

namespace dampline::planner {
namespace {

using session::AirBasis;
using units::in_si;

constexpr units::RelativeHumidity about_a_log{0.02};  // a sensor's own error, `assumed`

air::Climate stated(const session::Studio& studio) {
  air::Climate c;
  c.temperature = studio.temperature;
  c.humidity = studio.humidity;
  c.pressure = air::standard_atmosphere(studio.altitude);
  c.air = studio.air;
  return c;
}

// The clock of the air shows day.from at opening and goes by real time, as the schedule does.
session::WantedAir hours_of(const session::Session& s, units::Duration evening) {
  session::WantedAir wanted;
  const units::Duration opens = units::minutes(static_cast<double>(s.day.from.count()));
  wanted.zero = session::opening(s.day) - s.day.from;
  wanted.from = s.damping.evening_before ? evening - units::hours(24) : opens;
  wanted.until =
      opens +
      units::minutes(static_cast<double>(session::since_opening(s.day, s.day.until).count()));
  wanted.zone = s.day.zone;
  return wanted;
}

void find_extremes(const air::Room& room, units::Duration from, units::Duration until,
                   LoggedClimate& c) {
  constexpr double step = 300;  // s
  const auto first = room.at(from);
  c.coldest = c.warmest = first.temperature;
  c.driest = c.dampest = first.humidity;
  const int steps = static_cast<int>((in_si(until) - in_si(from)) / step);
  for (int i = 0; i <= steps; ++i) {
    const auto now = room.at(from + units::seconds(step * i));
    c.coldest = std::min(c.coldest, now.temperature);
    c.warmest = std::max(c.warmest, now.temperature);
    c.driest = std::min(c.driest, now.humidity);
    c.dampest = std::max(c.dampest, now.humidity);
  }
}

std::string climate_text(const LoggedClimate& c) {
  const auto degrees = [](units::Temperature t) { return units::fixed(units::in_celsius(t), 1); };
  const auto percent = [](units::RelativeHumidity h) { return units::fixed(h.percent(), 0); };
  return "Working hours: " + degrees(c.mean_temperature) + " degC (" + degrees(c.coldest) + " to " +
         degrees(c.warmest) + ") and " + percent(c.mean_humidity) + " % (" + percent(c.driest) +
         " to " + percent(c.dampest) +
         "). The damping is chosen for their mean; every sheet is followed through the air of its "
         "own hours.";
}

std::string scatter_text(const StudioAir& studio) {
  const auto points = units::shortest(std::round(studio.scatter.percent() * 10) / 10);
  const bool logged = studio.scatter < method::usual_humidity_scatter;
  return "Sampled rooms are up to " + points + " points damper or drier, 8 of 10 (" +
         (logged ? "4 without a log of the day: " : "2 with a log of the day: ") + "assumed).";
}

LoggedClimate account(const session::HoursAir& air, const session::Readings& log,
                      const session::WantedAir& wanted, const StudioAir& studio) {
  const auto half_minutes = [&](units::Duration t) {
    return HalfMinutes(static_cast<int>(std::lround(in_si(t - studio.opens) / 30)));
  };
  const auto on_clock = [&](std::chrono::sys_seconds at) {
    return half_minutes(units::seconds(static_cast<double>((at - wanted.zero).count())));
  };
  LoggedClimate c;
  c.file = log.file;
  c.readings = static_cast<int>(log.rows.size());
  c.in_the_hours = air.rows;
  for (const auto& h : air.hours) {
    c.hours.push_back({half_minutes(h.from), half_minutes(h.until), session::word(h.basis)});
  }
  for (const auto& gap : air.bridged) {
    c.bridged.push_back({on_clock(gap.from), on_clock(gap.until), gap.line_before, gap.line_after});
  }
  for (const auto& rows : log.left_out) c.left_out.push_back({rows.why, rows.lines, rows.count});
  c.mean_temperature = studio.usual.temperature;
  c.mean_humidity = studio.usual.humidity;
  c.scatter = studio.scatter;
  find_extremes(studio.room, studio.opens, wanted.until, c);
  c.notes.push_back(climate_text(c));
  const auto lines = session::described(air, log, wanted);
  c.notes.insert(c.notes.end(), lines.begin(), lines.end());
  c.notes.push_back(scatter_text(studio));
  return c;
}

session::InputErrors unusable(const session::Session& s, std::string what, std::string help) {
  return {session::at(s.file, s.text, s.studio.where_readings, std::move(what), std::move(help))};
}

}  // namespace

units::RelativeHumidity scatter_of(const session::HoursAir& air) {
  const bool all_logged = std::all_of(air.hours.begin(), air.hours.end(),
                                      [](const auto& h) { return h.basis == AirBasis::logged; });
  if (all_logged) return about_a_log;
  return air.spread_known ? std::max(method::usual_humidity_scatter, air.humidity_spread)
                          : method::usual_humidity_scatter;
}

std::variant<StudioAir, session::InputErrors> studio_air(const session::Session& s,
                                                         units::Duration evening) {
  StudioAir out;
  out.usual = stated(s.studio);
  const auto wanted = hours_of(s, evening);
  out.opens = units::minutes(static_cast<double>(s.day.from.count()));
  if (!s.studio.readings) {
    out.room = air::Room(out.usual);
    return out;
  }
  if (!s.studio.log) {
    return unusable(s, "studio.readings: the log has not been read",
                    "hand the session its readings, or give a humidity");
  }
  const auto& log = *s.studio.log;
  const auto air = session::air_for(log, wanted);
  if (air.lines.empty()) {
    return unusable(s, "studio.readings: no reading of " + log.file + " is within 0 to 45 degC",
                    "a sheet is followed from 0 to 45 degC; check the unit of the temperatures");
  }
  out.room = air::Room(out.usual, air.lines);
  out.usual = out.room.mean(out.opens, wanted.until);
  out.scatter = scatter_of(air);
  out.logged = account(air, log, wanted, out);
  for (const auto& w : log.warnings) {
    out.left_out.push_back(
        {"readings", w.file + ":" + std::to_string(w.where.line) + ": " + w.what, w.help});
  }
  for (const auto& d : session::doubts(air, log, wanted)) {
    out.doubts.push_back({"readings", d.what, d.help});
  }
  return out;
}

air::Room likely_air(const StudioAir& studio, method::Draw& draw) {
  if (!studio.room.logged()) return air::Room(method::drawn(studio.usual, draw));
  const double shift = method::humidity_shift(draw, studio.scatter);
  draw.humidity = method::held_score(draw.humidity) *
                  (studio.scatter.parts_of_one() / method::usual_humidity_scatter.parts_of_one());
  return studio.room.moved(units::RelativeHumidity(shift));
}

}  // namespace dampline::planner
