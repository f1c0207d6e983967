#include <algorithm>
#include <map>
#include <optional>
#include <utility>

#include <dampline/scheduling/check.hpp>

namespace dampline::scheduling {
namespace {

using Words = std::vector<std::string>;
using Starts = std::vector<int>;

long long start_of(const Starts& starts, int i) { return starts[static_cast<std::size_t>(i)]; }

const Activity& work_of(const Problem& problem, int i) {
  return problem.activities[static_cast<std::size_t>(i)];
}

/// What a resource has at an instant: the last step not after it.
long long offered(const Resource& resource, long long instant) {
  long long capacity = resource.capacity;
  for (const auto& step : resource.calendar) {
    if (step.from <= instant) capacity = step.capacity;
  }
  return capacity;
}

long long demand(const Activity& work, int r) {
  long long amount = 0;
  for (const auto& use : work.uses) amount += use.resource == r ? use.amount : 0;
  return amount;
}

/// Does the calendar of some resource leave less than the work holds?
bool is_pause(const Problem& problem, const Activity& work, long long instant) {
  for (int r = 0; r < static_cast<int>(problem.resources.size()); ++r) {
    const long long amount = demand(work, r);
    const auto& resource = problem.resources[static_cast<std::size_t>(r)];
    if (amount > 0 && !resource.calendar.empty() && offered(resource, instant) < amount) {
      return true;
    }
  }
  return false;
}

/// Walks the clock; nothing when the calendars end before the work does.
std::optional<long long> end_of(const Problem& problem, const Starts& starts, int i) {
  const auto& work = work_of(problem, i);
  long long instant = start_of(starts, i);
  if (!work.may_pause || work.duration == 0) return instant + work.duration;
  long long last = instant;
  for (const auto& use : work.uses) {
    const auto& calendar = problem.resources[static_cast<std::size_t>(use.resource)].calendar;
    if (use.amount > 0 && !calendar.empty()) last = std::max<long long>(last, calendar.back().from);
  }
  for (int left = work.duration; left > 0; ++instant) {
    const bool pauses = is_pause(problem, work, instant);
    if (pauses && instant > last) return std::nullopt;
    if (!pauses) --left;
  }
  return instant;
}

void check_starts(const Problem& problem, const Starts& starts, Words& wrong) {
  for (std::size_t i = 0; i < starts.size(); ++i) {
    if (starts[i] < 0 || starts[i] > problem.horizon) {
      wrong.push_back(problem.activities[i].name + " starts at " + std::to_string(starts[i]) +
                      ", outside 0 to " + std::to_string(problem.horizon));
    }
  }
  const int origin = starts[static_cast<std::size_t>(problem.source)];
  if (origin != 0) wrong.push_back("the source starts at " + std::to_string(origin) + ", not at 0");
}

/// Work that may not pause meets no pause; work that may begins at none and comes to an end.
void check_pauses(const Problem& problem, const Starts& starts, Words& wrong) {
  for (int i = 0; i < static_cast<int>(starts.size()); ++i) {
    const auto& work = work_of(problem, i);
    const long long start = start_of(starts, i);
    if (!end_of(problem, starts, i)) {
      wrong.push_back(work.name + " never ends: too little working time is left");
      continue;
    }
    const long long until = start + (work.may_pause ? std::min(work.duration, 1) : work.duration);
    for (long long t = start; t < until; ++t) {
      if (!is_pause(problem, work, t)) continue;
      wrong.push_back(work.name + " meets a pause at " + std::to_string(t));
      break;
    }
  }
}

void check_lags(const Problem& problem, const Starts& starts, Words& wrong) {
  for (const auto& lag : problem.lags) {
    const auto from = lag.from_end ? end_of(problem, starts, lag.from) : start_of(starts, lag.from);
    const auto to = lag.to_end ? end_of(problem, starts, lag.to) : start_of(starts, lag.to);
    if (!from || !to) continue;  // said already
    if (*to - *from >= lag.least) continue;
    wrong.push_back(work_of(problem, lag.to).name + (lag.to_end ? " ends " : " starts ") +
                    std::to_string(*to - *from) + " after " + (lag.from_end ? "the end of " : "") +
                    work_of(problem, lag.from).name + ", least allowed " +
                    std::to_string(lag.least));
  }
}

/// Sweeps the changes of use in time order; ends come before starts at the same instant.
void check_capacity(const Problem& problem, const Starts& starts, int r, Words& wrong) {
  const auto& resource = problem.resources[static_cast<std::size_t>(r)];
  std::map<long long, long long> change;
  for (const auto& step : resource.calendar) change[step.from] += 0;
  for (int i = 0; i < static_cast<int>(starts.size()); ++i) {
    const auto& work = work_of(problem, i);
    const long long amount = demand(work, r);
    const auto end = end_of(problem, starts, i);
    if (amount == 0 || work.duration == 0 || !end) continue;
    if (!work.may_pause || resource.calendar.empty()) {
      change[start_of(starts, i)] += amount;
      change[*end] -= amount;
      continue;
    }
    // Nothing is held in the resource's own pauses.
    for (long long t = start_of(starts, i); t < *end; ++t) {
      if (offered(resource, t) < amount) continue;
      change[t] += amount;
      change[t + 1] -= amount;
    }
  }
  long long held = 0;
  bool was_over = false;
  for (const auto& [time, step] : change) {
    held += step;
    const bool is_over = held > offered(resource, time);
    if (is_over && (step > 0 || !was_over)) {
      wrong.push_back(resource.name + " is held " + std::to_string(held) + " times at " +
                      std::to_string(time) + ", capacity " +
                      std::to_string(offered(resource, time)));
    }
    was_over = is_over;
  }
}

/// One of every two jobs comes first, by the time their kinds ask for.
void check_changeovers(const Problem& problem, const Starts& starts, int r, Words& wrong) {
  const auto& resource = problem.resources[static_cast<std::size_t>(r)];
  if (resource.kinds == 0) return;
  std::vector<std::pair<int, int>> jobs;  // activity, kind
  for (int i = 0; i < static_cast<int>(starts.size()); ++i) {
    if (work_of(problem, i).duration == 0) continue;
    for (const auto& use : work_of(problem, i).uses) {
      if (use.resource == r && use.amount > 0) jobs.push_back({i, use.kind});
    }
  }
  const auto waits = [&](const std::pair<int, int>& a, const std::pair<int, int>& b) {
    const auto end = end_of(problem, starts, a.first);
    const auto row = static_cast<std::size_t>(a.second);
    const auto place =
        row * static_cast<std::size_t>(resource.kinds) + static_cast<std::size_t>(b.second);
    const int time = resource.changeover[place];
    return end && start_of(starts, b.first) >= *end + time;
  };
  for (std::size_t i = 0; i < jobs.size(); ++i) {
    for (std::size_t k = i + 1; k < jobs.size(); ++k) {
      if (jobs[i].first == jobs[k].first || waits(jobs[i], jobs[k]) || waits(jobs[k], jobs[i])) {
        continue;
      }
      wrong.push_back(resource.name + " has no time to change between " +
                      work_of(problem, jobs[i].first).name + " and " +
                      work_of(problem, jobs[k].first).name);
    }
  }
}

}  // namespace

std::vector<std::string> check(const Problem& problem, const std::vector<int>& starts) {
  if (starts.size() != problem.activities.size()) {
    return {"the schedule has " + std::to_string(starts.size()) + " starts for " +
            std::to_string(problem.activities.size()) + " activities"};
  }
  Words wrong;
  check_starts(problem, starts, wrong);
  check_pauses(problem, starts, wrong);
  check_lags(problem, starts, wrong);
  for (int r = 0; r < static_cast<int>(problem.resources.size()); ++r) {
    check_capacity(problem, starts, r, wrong);
    check_changeovers(problem, starts, r, wrong);
  }
  return wrong;
}

}  // namespace dampline::scheduling
