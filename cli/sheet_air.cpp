#include "sheet_air.hpp"

#include <dampline/air/psychrometrics.hpp>
#include <dampline/session/logged_air.hpp>
#include <dampline/session/timestamp.hpp>
#include <dampline/session/zone.hpp>
#include <dampline/units/text.hpp>

#include "readings_file.hpp"

namespace dampline::cli {
namespace {

Failure conflict(const std::string& what, const std::string& help) {
  return {exit_status::usage, what, help};
}

void check(const AirWords& w) {
  const int damp = int(!!w.humidity) + int(!!w.wet_bulb) + int(!!w.dew_point);
  if (damp > 1) {
    throw conflict("the damp of the air is given more than once",
                   "keep one of --humidity, --wet-bulb and --dew-point");
  }
  if (w.log.readings && (damp > 0 || w.temperature)) {
    throw conflict(
        "a log of the air and a reading of it",
        "leave out --temperature, --humidity, --wet-bulb and --dew-point, or --readings");
  }
  if (w.from && !w.log.readings) {
    throw conflict("--from without --readings", "add --readings FILE, or leave --from out");
  }
  const auto within = [](const char* option, double value, double low, double high,
                         const char* unit) {
    if (value >= low && value <= high) return;
    throw Failure(exit_status::usage, std::string(option) + " is outside " + units::shortest(low) +
                                          " to " + units::shortest(high) + " " + unit);
  };
  if (w.temperature) within("--temperature", units::in_celsius(*w.temperature), 0, 45, "degC");
  if (w.altitude) within("--altitude", units::in_si(*w.altitude), 0, 5000, "m");
}

air::Climate one_reading(const AirWords& w) {
  air::Climate c;
  c.temperature = w.temperature.value_or(units::celsius(20));
  c.humidity = w.humidity.value_or(units::RelativeHumidity(0.5));
  c.air = w.movement == "still" ? air::AirMovement::still
          : w.movement == "fan" ? air::AirMovement::fan
                                : air::AirMovement::ordinary;
  if (w.altitude) c.pressure = air::standard_atmosphere(*w.altitude);
  if (w.wet_bulb || w.dew_point) {
    c.humidity =
        air::state_from(
            {.temperature = c.temperature, .wet_bulb = w.wet_bulb, .dew_point = w.dew_point},
            c.pressure)
            .humidity;
  }
  return c;
}

struct Start {
  std::chrono::year_month_day date;
  session::WrittenTime time;
};

std::optional<Start> start_of(const AirWords& w) {
  if (!w.from) return std::nullopt;
  const auto time = session::read_time(*w.from);
  const auto date = time && time->year_first
                        ? session::date_of(*time, session::DateOrder::day_first)
                        : std::nullopt;
  if (!date) {
    throw Failure(exit_status::usage, "--from \"" + *w.from + "\" is no date with a time",
                  "write year, month, day and the time: --from \"2026-03-14 09:30\"");
  }
  return Start{*date, *time};
}

std::chrono::sys_seconds instant(const Start& start, const std::string& zone) {
  if (start.time.offset) {
    return std::chrono::sys_days(start.date) + start.time.clock - *start.time.offset;
  }
  const auto minutes = std::chrono::floor<std::chrono::minutes>(start.time.clock);
  return session::to_utc(zone, start.date, minutes).at + (start.time.clock - minutes);
}

}  // namespace

void add_air_options(Options& options, AirWords& words) {
  options
      .quantity("temperature", words.temperature, &units::parse_temperature, "20 degC",
                "of the room, 0 to 45 degC (default 20 degC)")
      .quantity("humidity", words.humidity, &units::parse_humidity, "50 %",
                "of the room (default 50 %)")
      .quantity("wet-bulb", words.wet_bulb, &units::parse_temperature, "12 degC",
                "of a ventilated wet thermometer, instead of the humidity")
      .quantity("dew-point", words.dew_point, &units::parse_temperature, "7 degC",
                "where the air would be saturated, instead of the humidity")
      .quantity("altitude", words.altitude, &units::parse_length, "90 m",
                "of the room, for the air pressure, 0 to 5000 m (default 0 m)")
      .word("air", words.movement, {"still", "ordinary", "fan"},
            "how the air moves (default ordinary)");
  add_log_options(options, words.log);
  options.text("from", words.from, "TIME",
               "when the sheet is first wetted, in the log: \"2026-03-14 09:30\" (default its "
               "first reading)");
}

SheetAir sheet_air(const AirWords& w, units::Duration wetting, units::Duration followed,
                   Streams& io) {
  check(w);
  SheetAir out;
  out.air.usual = one_reading(w);
  out.air.room = air::Room(out.air.usual);
  const auto start = start_of(w);
  const auto log = log_of(w.log, start ? std::optional(start->date) : std::nullopt, io);
  if (!log) return out;
  session::WantedAir wanted;
  wanted.zero = start ? instant(*start, log->zone) : log->rows.front().at;
  wanted.until = followed;
  wanted.zone = log->zone;
  const auto air = session::air_for(*log, wanted);
  if (air.lines.empty()) {
    throw Failure(exit_status::bad_data, "no reading of " + log->file + " is within 0 to 45 degC",
                  "a sheet is followed from 0 to 45 degC; check the unit of the temperatures");
  }
  out.air.room = air::Room(out.air.usual, air.lines);
  out.air.usual = out.air.room.mean(units::Duration{}, wetting);
  out.air.scatter = planner::scatter_of(air);
  out.notes = session::described(air, *log, wanted);
  out.notes.insert(out.notes.begin(), "The sheet is first wetted at " +
                                          session::local_text(log->zone, wanted.zero) + ", " +
                                          log->zone + ".");
  for (const auto& d : session::doubts(air, *log, wanted)) out.doubts.push_back(d.what);
  return out;
}

}  // namespace dampline::cli
