#include "late_words.hpp"

#include <algorithm>
#include <ostream>
#include <set>

#include <dampline/session/clock_time.hpp>
#include <dampline/session/zone.hpp>

#include "step_list.hpp"

namespace dampline::cli {
namespace {

using planner::HalfMinutes;

// Where a word stands: an option, or a line of a list.
struct Place {
  std::string name;
  int status = exit_status::usage;
};

std::string two(long long n) { return (n < 10 ? "0" : "") + std::to_string(n); }
std::string clock_text(session::ClockTime t) {
  return two(t.count() / 60) + ":" + two(t.count() % 60);
}

class Words {
 public:
  Words(const session::Day& day, Streams& io) : day_(day), io_(io) {}

  HalfMinutes time(const std::string& text, const Place& place) {
    const auto clock = session::clock_time_from(text);
    if (!clock) {
      throw Failure(place.status, place.name + ": \"" + text + "\" is not a clock time",
                    "write hours and minutes, like 14:20");
    }
    const auto local = session::to_utc(day_.zone, day_.date, *clock);
    if (local.kind == session::LocalInstant::Kind::skipped) {
      throw Failure(place.status,
                    place.name + ": there is no " + text + " that day: the clocks are put from " +
                        clock_text(local.change) + " to " + clock_text(local.changed),
                    "give the time the clocks showed");
    }
    auto at = local.at;
    if (local.kind == session::LocalInstant::Kind::repeated) {
      const auto opens = session::opening(day_);
      const bool second = at < opens;  // only one of the two is in the day
      if (second) at += local.change - local.changed;
      if (!second && warned_.insert(text).second) {
        io_.err << "warning: " << place.name << ": " << text
                << " comes twice that day, as the clocks are put back; the first is meant\n";
      }
    }
    return std::chrono::duration_cast<HalfMinutes>(at - session::opening(day_));
  }

  // "STEP", "STEP@10:40", "STEP@10:40-10:52"
  planner::SaidStep step(const std::string& text, bool running, const Place& place) {
    planner::SaidStep said;
    said.running = running;
    const auto at = text.rfind('@');
    said.name = text.substr(0, at);
    if (said.name.empty()) {
      throw Failure(place.status, place.name + ": \"" + text + "\" names no step",
                    "write STEP@10:40-10:52, STEP@10:40 or STEP");
    }
    if (at == std::string::npos) return said;
    const auto times = text.substr(at + 1);
    const auto dash = times.find('-');
    said.start = time(times.substr(0, dash), place);
    if (dash == std::string::npos) return said;
    if (running) {
      throw Failure(place.status, place.name + ": \"" + text + "\" is running, and has an end",
                    "give its start only, or name it under --done");
    }
    said.end = time(times.substr(dash + 1), place);
    return said;
  }

  // A step a line: "ink-3-key 10:40 10:52"; without an end it is running, without times done.
  void list(const std::string& path, std::vector<planner::SaidStep>& to) {
    for (const auto& listed : read_step_list(path, io_)) {
      const Place place{listed.place, exit_status::bad_data};
      planner::SaidStep said;
      said.name = listed.step;
      if (!listed.start.empty()) said.start = time(listed.start, place);
      if (!listed.end.empty()) said.end = time(listed.end, place);
      said.running = !listed.start.empty() && listed.end.empty();
      to.push_back(std::move(said));
    }
  }

  // "3-6", "4", "3-6@11:30"
  planner::SaidOpen sheets(const std::string& text) {
    const Place place{"--uncovered"};
    planner::SaidOpen said;
    const auto at = text.find('@');
    const auto numbers = text.substr(0, at);
    const auto dash = numbers.find('-');
    const auto number = [&](const std::string& digits) {
      const bool whole =
          !digits.empty() && digits.size() <= 4 &&
          std::all_of(digits.begin(), digits.end(), [](char c) { return c >= '0' && c <= '9'; });
      if (!whole) {
        throw Failure(place.status, place.name + ": \"" + text + "\" names no sheets",
                      "write 3, 3-6 or 3-6@11:30");
      }
      return std::stoi(digits);
    };
    const int first = number(numbers.substr(0, dash));
    const int last = dash == std::string::npos ? first : number(numbers.substr(dash + 1));
    for (int i = std::min(first, last); i <= std::max(first, last); ++i) said.sheets.push_back(i);
    if (at != std::string::npos) said.since = time(text.substr(at + 1), place);
    return said;
  }

 private:
  const session::Day& day_;
  Streams& io_;
  std::set<std::string> warned_;
};

}  // namespace

planner::LateNews late_news(const LateWords& words, const session::Day& day, Streams& io) {
  if (!words.at) {
    throw Failure(exit_status::usage, "missing --at",
                  "give the clock time it is now, as in --at 14:20");
  }
  Words read(day, io);
  planner::LateNews news;
  news.at = read.time(*words.at, {"--at"});
  if (words.until) news.until = read.time(*words.until, {"--until"});
  for (const auto& said : words.done) {
    if (said == "-") {
      read.list("-", news.steps);
    } else if (said.starts_with('@')) {
      read.list(said.substr(1), news.steps);
    } else {
      news.steps.push_back(read.step(said, false, {"--done"}));
    }
  }
  for (const auto& said : words.running) {
    news.steps.push_back(read.step(said, true, {"--running"}));
  }
  for (const auto& said : words.uncovered) news.open.push_back(read.sheets(said));
  news.done_until = words.done_until;
  if (words.late) {
    news.behind = HalfMinutes(static_cast<int>(units::in_si(*words.late) / 30 + 0.5));
  }
  return news;
}

}  // namespace dampline::cli
