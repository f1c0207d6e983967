#include <algorithm>
#include <cstdlib>
#include <utility>

#include <dampline/scheduling/problem.hpp>

namespace dampline::scheduling {
namespace {

// Sums of a few starts, lags and durations must stay far inside an int.
constexpr int largest_time = 1 << 24;
constexpr int largest_amount = 1 << 24;

}  // namespace

int add_activity(Problem& problem, std::string name, int duration, std::vector<Use> uses) {
  problem.activities.push_back({std::move(name), duration, std::move(uses)});
  return static_cast<int>(problem.activities.size()) - 1;
}

int add_resource(Problem& problem, std::string name, int capacity) {
  problem.resources.push_back({std::move(name), capacity});
  return static_cast<int>(problem.resources.size()) - 1;
}

void at_least(Problem& problem, int a, int b, int lag) { problem.lags.push_back({a, b, lag}); }

void at_most(Problem& problem, int a, int b, int lag) { problem.lags.push_back({b, a, -lag}); }

int safe_horizon(const Problem& problem) {
  std::vector<int> longest;
  for (const auto& activity : problem.activities) longest.push_back(activity.duration);
  for (const auto& lag : problem.lags) {
    auto& most = longest[static_cast<std::size_t>(lag.from)];
    most = std::max(most, lag.least);
  }
  long long sum = 0;
  for (const int most : longest) sum += most;
  return static_cast<int>(std::min<long long>(sum, largest_time));
}

std::string misfit(const Problem& problem) {
  const int activities = static_cast<int>(problem.activities.size());
  const int resources = static_cast<int>(problem.resources.size());
  const auto known = [&](int a) { return a >= 0 && a < activities; };
  if (activities == 0) return "there are no activities";
  if (!known(problem.source) || !known(problem.sink)) return "source or sink is no activity";
  if (problem.horizon < 0 || problem.horizon > largest_time) return "the horizon is out of range";
  for (const auto& resource : problem.resources) {
    if (resource.capacity < 0 || resource.capacity > largest_amount) {
      return "the capacity of " + resource.name + " is out of range";
    }
  }
  for (const auto& activity : problem.activities) {
    if (activity.duration < 0 || activity.duration > largest_time) {
      return "the duration of " + activity.name + " is out of range";
    }
    for (const auto& use : activity.uses) {
      if (use.resource < 0 || use.resource >= resources) {
        return activity.name + " uses a resource that does not exist";
      }
      if (use.amount < 0 || use.amount > largest_amount) {
        return activity.name + " uses an amount that is out of range";
      }
    }
  }
  for (const auto& lag : problem.lags) {
    if (!known(lag.from) || !known(lag.to)) return "a lag names an activity that does not exist";
    if (std::abs(lag.least) > largest_time) return "a lag is out of range";
  }
  return {};
}

}  // namespace dampline::scheduling
