#pragma once

#include <optional>
#include <string>

#include <dampline/planner/climate.hpp>

#include "log_option.hpp"

/// The air that `dampline sheet` follows a sheet through.
namespace dampline::cli {

struct AirWords {
  std::optional<units::Temperature> temperature, wet_bulb, dew_point;
  std::optional<units::RelativeHumidity> humidity;
  std::optional<units::Length> altitude;
  std::optional<std::string> movement;
  LogWords log;
  std::optional<std::string> from;
};

void add_air_options(Options& options, AirWords& words);

struct SheetAir {
  planner::StudioAir air;          ///< its clock shows zero when the sheet is first wetted
  std::vector<std::string> notes;  ///< what is used of a log
  std::vector<std::string> doubts;
};

/// One reading, or the log from --from on; `wetting` long means are taken, `followed` long the air
/// must last.
[[nodiscard]] SheetAir sheet_air(const AirWords& words, units::Duration wetting,
                                 units::Duration followed, Streams& io);

}  // namespace dampline::cli
