#pragma once

#include <string>

#include <dampline/air/climate.hpp>
#include <dampline/session/readings.hpp>

/// A summary of a log for `dampline air`: what was read, how the air was, how fast it dries a wet
/// sheet.
namespace dampline::cli {

struct LogSummary {
  session::Readings log;
  air::Climate mean, driest, dampest;  ///< driest and dampest by the vapour the air still takes
  std::chrono::sys_seconds driest_at{}, dampest_at{};
  units::Temperature coldest{}, warmest{};
  units::RelativeHumidity lowest{}, highest{};
};

/// `base` gives pressure and movement. Means are by time, straight lines between the readings.
[[nodiscard]] LogSummary summary_of(session::Readings log, const air::Climate& base);
[[nodiscard]] std::string log_text(const LogSummary& summary, int columns);
[[nodiscard]] std::string log_json(const LogSummary& summary);

/// Of free water on a wet sheet hung in this air; none outside 0 to 45 degC.
[[nodiscard]] std::optional<double> drying_power_g_m2_h(const air::Climate& climate);

}  // namespace dampline::cli
