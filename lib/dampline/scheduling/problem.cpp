#include <algorithm>
#include <cstdlib>
#include <utility>

#include <dampline/scheduling/problem.hpp>

namespace dampline::scheduling {
namespace {

// Sums of a few starts, lags and durations must stay far inside an int.
constexpr int largest_time = 1 << 24;
constexpr int largest_amount = 1 << 24;
constexpr int most_kinds = 64;

bool is_time(int t) { return t >= 0 && t <= largest_time; }
bool is_amount(int n) { return n >= 0 && n <= largest_amount; }

Resource& at(Problem& problem, int resource) {
  return problem.resources[static_cast<std::size_t>(resource)];
}

std::string misfit_of(const Resource& resource) {
  if (!is_amount(resource.capacity)) return "the capacity of " + resource.name + " is out of range";
  int most = resource.capacity;
  int before = -1;
  for (const auto& step : resource.calendar) {
    if (!is_time(step.from) || !is_amount(step.capacity)) {
      return "the calendar of " + resource.name + " is out of range";
    }
    if (step.from <= before) return "the calendar of " + resource.name + " is not in order";
    before = step.from;
    most = std::max(most, step.capacity);
  }
  if (resource.kinds == 0 && resource.changeover.empty()) return {};
  const auto kinds = static_cast<std::size_t>(resource.kinds);
  if (resource.kinds < 0 || resource.kinds > most_kinds ||
      resource.changeover.size() != kinds * kinds ||
      !std::all_of(resource.changeover.begin(), resource.changeover.end(), is_time)) {
    return "the changeover times of " + resource.name + " are out of range";
  }
  if (most > 1) return resource.name + " has changeover times and a capacity above 1";
  return {};
}

std::string misfit_of(const Problem& problem, const Activity& activity) {
  if (!is_time(activity.duration)) return "the duration of " + activity.name + " is out of range";
  for (const auto& use : activity.uses) {
    if (use.resource < 0 || use.resource >= static_cast<int>(problem.resources.size())) {
      return activity.name + " uses a resource that does not exist";
    }
    if (!is_amount(use.amount)) return activity.name + " uses an amount that is out of range";
    const auto& resource = problem.resources[static_cast<std::size_t>(use.resource)];
    if (use.kind < 0 || (resource.kinds > 0 && use.kind >= resource.kinds)) {
      return activity.name + " is of a kind that " + resource.name + " does not know";
    }
  }
  return {};
}

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

void after_end(Problem& problem, int a, int b, int lag) {
  problem.lags.push_back({a, b, lag, true, false});
}

void soon_after_end(Problem& problem, int a, int b, int lag) {
  problem.lags.push_back({b, a, -lag, false, true});
}

int changeover_time(const Resource& resource, int first, int then) {
  if (resource.kinds == 0) return 0;
  const auto row = static_cast<std::size_t>(first);
  return resource
      .changeover[row * static_cast<std::size_t>(resource.kinds) + static_cast<std::size_t>(then)];
}

int capacity_at(const Resource& resource, int instant) {
  int capacity = resource.capacity;
  for (const auto& step : resource.calendar) {
    if (step.from > instant) break;
    capacity = step.capacity;
  }
  return capacity;
}

void set_capacity(Problem& problem, int resource, int from, int to, int capacity) {
  if (from >= to) return;
  auto& calendar = at(problem, resource).calendar;
  const int after = capacity_at(at(problem, resource), to);
  std::erase_if(calendar, [&](const Step& step) { return from <= step.from && step.from <= to; });
  const auto place =
      std::find_if(calendar.begin(), calendar.end(), [&](const Step& s) { return s.from > from; });
  calendar.insert(place, {{from, capacity}, {to, after}});
}

void set_changeover(Problem& problem, int resource, int first, int then, int time) {
  auto& r = at(problem, resource);
  const int kinds = std::max({r.kinds, first + 1, then + 1});
  if (kinds > r.kinds) {
    std::vector<int> wider(static_cast<std::size_t>(kinds) * static_cast<std::size_t>(kinds), 0);
    for (int i = 0; i < r.kinds; ++i) {
      for (int k = 0; k < r.kinds; ++k) {
        wider[static_cast<std::size_t>(i * kinds + k)] =
            r.changeover[static_cast<std::size_t>(i * r.kinds + k)];
      }
    }
    r.changeover = std::move(wider);
    r.kinds = kinds;
  }
  r.changeover[static_cast<std::size_t>(first * kinds + then)] = time;
}

int safe_horizon(const Problem& problem) {
  long long sum = 0;
  int change = 0;
  for (const auto& resource : problem.resources) {
    if (!resource.calendar.empty()) {
      sum = std::max<long long>(sum, resource.calendar.back().from);
    }
    for (const int time : resource.changeover) change = std::max(change, time);
  }
  std::vector<int> longest;
  for (const auto& activity : problem.activities) longest.push_back(activity.duration + change);
  for (const auto& lag : problem.lags) {
    const auto from = static_cast<std::size_t>(lag.from);
    const int least = lag.least + (lag.from_end ? problem.activities[from].duration : 0);
    longest[from] = std::max(longest[from], least);
  }
  for (const int most : longest) sum += most;
  return static_cast<int>(std::min<long long>(sum, largest_time));
}

std::string misfit(const Problem& problem) {
  const int activities = static_cast<int>(problem.activities.size());
  const auto known = [&](int a) { return a >= 0 && a < activities; };
  if (activities == 0) return "there are no activities";
  if (!known(problem.source) || !known(problem.sink)) return "source or sink is no activity";
  if (!is_time(problem.horizon)) return "the horizon is out of range";
  for (const auto& resource : problem.resources) {
    if (auto wrong = misfit_of(resource); !wrong.empty()) return wrong;
  }
  for (const auto& activity : problem.activities) {
    if (auto wrong = misfit_of(problem, activity); !wrong.empty()) return wrong;
  }
  for (const auto& lag : problem.lags) {
    if (!known(lag.from) || !known(lag.to)) return "a lag names an activity that does not exist";
    if (std::abs(lag.least) > largest_time) return "a lag is out of range";
  }
  return {};
}

}  // namespace dampline::scheduling
