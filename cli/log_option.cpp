#include "log_option.hpp"

#include "readings_file.hpp"

namespace dampline::cli {

void add_log_options(Options& options, LogWords& words) {
  options
      .text("readings", words.readings, "FILE",
            "a hygrometer's log (CSV: time, temperature, humidity) instead of one reading")
      .text("zone", words.zone, "NAME",
            "time zone of the log, like Europe/Lisbon (default that of the computer)");
}

std::optional<session::Readings> log_of(const LogWords& words,
                                        const std::optional<std::chrono::year_month_day>& day,
                                        Streams& io) {
  if (!words.readings) {
    if (words.zone) {
      throw Failure(exit_status::usage, "--zone without --readings",
                    "add --readings FILE, or leave --zone out");
    }
    return std::nullopt;
  }
  return read_log(*words.readings, {.zone = log_zone(words.zone), .day = day}, io);
}

}  // namespace dampline::cli
