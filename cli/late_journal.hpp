#pragma once

#include <map>
#include <optional>
#include <string>
#include <vector>

#include <dampline/journal/read.hpp>
#include <dampline/planner/late.hpp>
#include <dampline/session/session.hpp>

namespace dampline::cli {

/// What a journal has of the day of a session.
struct JournalNews {
  std::vector<planner::SaidStep> steps;
  std::map<int, std::string> spoiled;          ///< prints, each with file and line
  std::vector<std::string> notes;              ///< which entries these are, and what is not used
  int entries = 0;                             ///< of this session; 0: it has none
  std::optional<planner::HalfMinutes> latest;  ///< time of the last of them, of the day
};

/// The entries of that title and day, up to `until` of the day where one is given. A start without
/// a finish is running if it is the last one, else over by the next. A print that is written down
/// is pulled. Weighings are told and not used.
[[nodiscard]] JournalNews news_of(const journal::Journal& journal, const session::Session& session,
                                  const std::optional<planner::HalfMinutes>& until);

}  // namespace dampline::cli
