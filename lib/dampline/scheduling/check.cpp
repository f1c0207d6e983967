#include <algorithm>
#include <map>

#include <dampline/scheduling/check.hpp>

namespace dampline::scheduling {
namespace {

using Words = std::vector<std::string>;

void check_starts(const Problem& problem, const std::vector<int>& starts, Words& wrong) {
  for (std::size_t i = 0; i < starts.size(); ++i) {
    if (starts[i] < 0 || starts[i] > problem.horizon) {
      wrong.push_back(problem.activities[i].name + " starts at " + std::to_string(starts[i]) +
                      ", outside 0 to " + std::to_string(problem.horizon));
    }
  }
  const int origin = starts[static_cast<std::size_t>(problem.source)];
  if (origin != 0) wrong.push_back("the source starts at " + std::to_string(origin) + ", not at 0");
}

void check_lags(const Problem& problem, const std::vector<int>& starts, Words& wrong) {
  for (const auto& lag : problem.lags) {
    const auto from = static_cast<std::size_t>(lag.from);
    const auto to = static_cast<std::size_t>(lag.to);
    const long long distance = static_cast<long long>(starts[to]) - starts[from];
    if (distance >= lag.least) continue;
    wrong.push_back(problem.activities[to].name + " starts " + std::to_string(distance) +
                    " after " + problem.activities[from].name + ", least allowed " +
                    std::to_string(lag.least));
  }
}

/// Sweeps the changes of use in time order; ends come before starts at the same instant.
void check_capacity(const Problem& problem, const std::vector<int>& starts, int r, Words& wrong) {
  std::map<long long, long long> change;
  for (std::size_t i = 0; i < starts.size(); ++i) {
    for (const auto& use : problem.activities[i].uses) {
      if (use.resource != r || problem.activities[i].duration == 0) continue;
      const long long start = starts[i];
      change[start] += use.amount;
      change[start + problem.activities[i].duration] -= use.amount;
    }
  }
  const auto& resource = problem.resources[static_cast<std::size_t>(r)];
  long long held = 0;
  for (const auto& [time, step] : change) {
    held += step;
    if (held > resource.capacity && step > 0) {
      wrong.push_back(resource.name + " is held " + std::to_string(held) + " times at " +
                      std::to_string(time) + ", capacity " + std::to_string(resource.capacity));
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
  check_lags(problem, starts, wrong);
  for (int r = 0; r < static_cast<int>(problem.resources.size()); ++r) {
    check_capacity(problem, starts, r, wrong);
  }
  return wrong;
}

}  // namespace dampline::scheduling
