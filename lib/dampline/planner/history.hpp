#pragma once

#include <map>
#include <set>
#include <string>
#include <variant>

#include <dampline/planner/draft.hpp>
#include <dampline/planner/late.hpp>

/// What has become of the plan of the morning so far.
namespace dampline::planner {

/// A step that is begun.
struct Begun {
  HalfMinutes start{};
  HalfMinutes end{};  ///< of a running one: as expected, now at the earliest
  bool running = false;
  bool said = false;  ///< these times were given, not taken from the plan
};

struct History {
  HalfMinutes at{};
  std::map<std::string, Begun> steps;    ///< by id
  std::set<std::string> missed;          ///< rests that somebody worked through
  std::vector<std::string> notes;        ///< what was assumed
  std::map<int, std::string> spoiled{};  ///< prints that have been pulled and are no good
};

/// The morning as it was planned.
struct Morning {
  const session::Session& session;
  const Draft& draft;
  const std::vector<int>& starts;
  const std::vector<Step>& steps;
};

/// What is done and what is running, out of what was said; checked against the order of the work,
/// and that nobody was in two places.
[[nodiscard]] std::variant<History, LateFaults> history(const Morning& morning,
                                                        const LateNews& news);

/// A time of the day on the studio's clock: "11:42".
[[nodiscard]] std::string clock_time(const session::Day& day, HalfMinutes at);

}  // namespace dampline::planner
