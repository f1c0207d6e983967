#pragma once

#include <optional>
#include <string>
#include <vector>

#include <dampline/planner/late.hpp>
#include <dampline/session/session.hpp>

#include "command.hpp"

namespace dampline::cli {

/// What is said of a late day on the command line.
struct LateWords {
  std::optional<std::string> at;
  std::vector<std::string> done;
  std::vector<std::string> running;
  std::optional<std::string> done_until;
  std::optional<units::Duration> late;
  std::vector<std::string> uncovered;
  std::optional<std::string> until;
  std::optional<std::string> journal;
  /// Is anything said of what is done?
  [[nodiscard]] bool tells() const {
    return !done.empty() || !running.empty() || done_until || late;
  }
};

/// The same on the clock of the session's day. Lists of steps ("@FILE", "-") are read; a list that
/// cannot be understood is a Failure 65 naming its line, a word of the command line a Failure 2. A
/// time that comes twice that day is told on io.err and taken to be the first.
[[nodiscard]] planner::LateNews late_news(const LateWords& words, const session::Day& day,
                                          Streams& io);

}  // namespace dampline::cli
