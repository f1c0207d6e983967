#pragma once

#include <chrono>
#include <string>
#include <vector>

#include <dampline/air/room.hpp>
#include <dampline/session/readings.hpp>
#include <dampline/units/quantity.hpp>

/// From a log to the air of certain hours.
namespace dampline::session {

/// What the air of some hours stands on.
enum class AirBasis {
  logged,   ///< readings, and straight lines over no more than three hours between two
  typical,  ///< the mean of the logged days, by the clock hour
  nearest,  ///< the nearest reading
};

struct AirHours {
  units::Duration from{};
  units::Duration until{};
  AirBasis basis = AirBasis::logged;
};

/// The hours asked for, on a clock that shows zero at an instant.
struct WantedAir {
  std::chrono::sys_seconds zero{};
  units::Duration from{};
  units::Duration until{};
  std::string zone = "UTC";  ///< for clock hours and dates
  bool typical = true;       ///< hours without readings may follow the other days
};

/// Air for hours, and where it comes from.
struct HoursAir {
  std::vector<air::LogLine> lines;  ///< rising, on the clock asked for; some before and after too
  std::vector<AirHours> hours;      ///< all the hours asked for, in order
  std::vector<Gap> bridged;         ///< gaps among them that a straight line crosses
  int rows = 0;                     ///< readings within the hours asked for
  int beyond = 0;                   ///< readings left out: a sheet is followed from 0 to 45 degC
  std::chrono::seconds averaged{};  ///< readings closer together are means over this; 0: as logged
  std::vector<std::chrono::year_month_day> days;  ///< of the typical day; empty: none is used
  bool spread_known = false;                      ///< two days or more
  units::TemperatureStep temperature_spread{};    ///< either way of the typical day, 8 hours of 10
  units::RelativeHumidity humidity_spread{};
};

/// The air of the hours asked for. Readings up to six hours before and after take part. Hours more
/// than one hour from a reading, and not between two within three hours, are not covered: they
/// follow the typical day, the mean by clock hour of the fourteen logged days nearest to the day
/// asked for, or else the nearest reading. All these lengths are `assumed`. No line at all when no
/// reading is within 0 to 45 degC.
[[nodiscard]] HoursAir air_for(const Readings& readings, const WantedAir& wanted);

/// What is used of the log, in sentences.
[[nodiscard]] std::vector<std::string> described(const HoursAir& air, const Readings& readings,
                                                 const WantedAir& wanted);

/// What is doubtful about it: a sentence and what would help.
struct AirDoubt {
  std::string what;
  std::string help;
};
[[nodiscard]] std::vector<AirDoubt> doubts(const HoursAir& air, const Readings& readings,
                                           const WantedAir& wanted);

/// "logged", "typical day", "nearest reading"
[[nodiscard]] std::string word(AirBasis basis);

/// The instant a time on the clock asked for stands for.
[[nodiscard]] std::chrono::sys_seconds instant_of(const WantedAir& wanted, units::Duration at);

/// "2026-03-14 09:30" at an instant in a zone.
[[nodiscard]] std::string local_text(std::string_view zone, std::chrono::sys_seconds at);

}  // namespace dampline::session
