#include "scheduling/support.hpp"

#include <algorithm>
#include <ostream>

#include <dampline/scheduling/read.hpp>

#include "support/reference_table.hpp"

namespace dampline::scheduling {

void PrintTo(Status status, std::ostream* out) {
  static const char* const words[] = {"optimal", "feasible", "infeasible", "unknown"};
  *out << words[static_cast<int>(status)];
}

namespace tests {
namespace {

class Enumeration {
 public:
  explicit Enumeration(const Problem& problem)
      : problem_(problem), starts_(problem.activities.size(), 0), ends_(starts_) {}

  std::optional<int> run() {
    place(0);
    return best_;
  }

  void run(const std::function<void(const std::vector<int>&)>& visit) {
    visit_ = &visit;
    place(0);
  }

 private:
  int amount(std::size_t i, std::size_t r) const {
    int sum = 0;
    for (const auto& use : problem_.activities[i].uses) {
      if (use.resource == static_cast<int>(r)) sum += use.amount;
    }
    return sum;
  }

  bool works(std::size_t i, int t) const {
    for (std::size_t r = 0; r < problem_.resources.size(); ++r) {
      if (capacity(r, t) < amount(i, r)) return false;
    }
    return true;
  }

  int capacity(std::size_t r, int t) const {
    const auto& resource = problem_.resources[r];
    int capacity = resource.capacity;
    for (const auto& step : resource.calendar) {
      if (t >= step.from) capacity = step.capacity;
    }
    return capacity;
  }

  /// False when the calendars do not allow the start; sets the end.
  bool run_clock(std::size_t i) {
    const auto& work = problem_.activities[i];
    int t = starts_[i];
    if (work.duration > 0 && !works(i, t)) return false;
    for (int left = work.duration; left > 0; ++t) {
      if (works(i, t)) {
        --left;
      } else if (!work.may_pause || t > 200) {
        return false;
      }
    }
    ends_[i] = t;
    return true;
  }

  bool keeps_changeovers(std::size_t i, std::size_t k) const {
    for (const auto& a : problem_.activities[i].uses) {
      for (const auto& b : problem_.activities[k].uses) {
        const auto& resource = problem_.resources[static_cast<std::size_t>(a.resource)];
        if (a.resource != b.resource || a.amount == 0 || b.amount == 0 || resource.kinds == 0) {
          continue;
        }
        const auto time = [&](int x, int y) {
          return resource.changeover[static_cast<std::size_t>(x * resource.kinds + y)];
        };
        if (starts_[k] < ends_[i] + time(a.kind, b.kind) &&
            starts_[i] < ends_[k] + time(b.kind, a.kind)) {
          return false;
        }
      }
    }
    return true;
  }

  bool may_start(std::size_t i) {
    if (static_cast<int>(i) == problem_.source && starts_[i] != 0) return false;
    if (!run_clock(i)) return false;
    for (const auto& lag : problem_.lags) {
      const auto from = static_cast<std::size_t>(lag.from);
      const auto to = static_cast<std::size_t>(lag.to);
      if (from > i || to > i) continue;
      const int first = lag.from_end ? ends_[from] : starts_[from];
      const int then = lag.to_end ? ends_[to] : starts_[to];
      if (then - first < lag.least) return false;
    }
    for (std::size_t r = 0; r < problem_.resources.size(); ++r) {
      if (amount(i, r) == 0) continue;
      for (int t = starts_[i]; t < ends_[i]; ++t) {
        if (capacity(r, t) >= amount(i, r) && held(r, t, i) > capacity(r, t)) return false;
      }
    }
    for (std::size_t k = 0; k < i; ++k) {
      const bool both_work =
          problem_.activities[i].duration > 0 && problem_.activities[k].duration > 0;
      if (both_work && !keeps_changeovers(i, k)) return false;
    }
    return true;
  }

  int held(std::size_t r, int t, std::size_t last) const {
    int sum = 0;
    for (std::size_t i = 0; i <= last; ++i) {
      if (starts_[i] > t || t >= ends_[i]) continue;
      if (capacity(r, t) >= amount(i, r)) sum += amount(i, r);
    }
    return sum;
  }

  void place(std::size_t i) {
    if (i == starts_.size() && visit_ != nullptr) {
      (*visit_)(starts_);
      return;
    }
    if (i == starts_.size()) {
      const int makespan = starts_[static_cast<std::size_t>(problem_.sink)];
      if (!best_ || makespan < *best_) best_ = makespan;
      return;
    }
    const bool is_sink = static_cast<int>(i) == problem_.sink;
    const int end = is_sink && best_ ? *best_ - 1 : problem_.horizon;
    for (starts_[i] = 0; starts_[i] <= end; ++starts_[i]) {
      if (!may_start(i)) continue;
      place(i + 1);
      if (is_sink && visit_ == nullptr) break;  // all later starts of the sink are worse
    }
  }

  const Problem& problem_;
  std::vector<int> starts_;
  std::vector<int> ends_;
  std::optional<int> best_;
  const std::function<void(const std::vector<int>&)>* visit_ = nullptr;
};

int between(std::mt19937& random, int low, int high) {
  return low + static_cast<int>(random() % static_cast<unsigned>(high - low + 1));
}

}  // namespace

Problem published(const std::string& file) {
  const auto text = dampline::tests::repository_file("tests/reference/scheduling/" + file);
  return file.ends_with(".sm") ? read_sm(text) : read_sch(text);
}

std::optional<int> enumerate(const Problem& problem) { return Enumeration(problem).run(); }

void enumerate(const Problem& problem, const std::function<void(const std::vector<int>&)>& visit) {
  Enumeration(problem).run(visit);
}

Problem random_problem(std::mt19937& random) { return random_problem(random, 5, 8); }

Problem random_problem(std::mt19937& random, int fewest, int most) {
  Problem problem;
  const int inner = between(random, fewest, most);
  const int resources = between(random, 1, 2);
  for (int r = 0; r < resources; ++r) {
    add_resource(problem, "r" + std::to_string(r), between(random, 1, 4));
  }
  problem.source = add_activity(problem, "source", 0);
  for (int i = 1; i <= inner; ++i) {
    std::vector<Use> uses;
    for (int r = 0; r < resources; ++r) {
      const int capacity = problem.resources[static_cast<std::size_t>(r)].capacity;
      if (between(random, 0, 4) > 0) uses.push_back({r, between(random, 1, capacity)});
    }
    add_activity(problem, "a" + std::to_string(i), between(random, 0, 4), uses);
    // Every activity but a few hangs on an earlier one, not too far behind it.
    const int from = between(random, 0, i - 1);
    const int least = between(random, from == 0 ? 0 : -2, 3);
    at_least(problem, from, i, least);
    if (between(random, 0, 4) > 0) at_most(problem, from, i, least + between(random, 0, 4));
  }
  for (int extra = between(random, 0, 3); extra > 0; --extra) {
    const int a = between(random, 1, inner);
    const int b = between(random, 1, inner);
    if (a != b) at_least(problem, a, b, between(random, -4, 3));
  }
  problem.sink = add_activity(problem, "sink", 0);
  for (int i = 1; i <= inner; ++i) {
    const int duration = problem.activities[static_cast<std::size_t>(i)].duration;
    at_least(problem, i, problem.sink, duration);
  }
  problem.horizon = between(random, 7, 18);
  return problem;
}

void add_calendars(Problem& problem, std::mt19937& random) {
  for (int r = 0; r < static_cast<int>(problem.resources.size()); ++r) {
    const int capacity = problem.resources[static_cast<std::size_t>(r)].capacity;
    int from = between(random, 0, 4);
    for (int pauses = between(random, 0, 2); pauses > 0; --pauses) {
      const int to = from + between(random, 1, 3);
      set_capacity(problem, r, from, to, between(random, 0, 1) == 0 ? 0 : capacity / 2);
      from = to + between(random, 1, 4);
    }
    if (between(random, 0, 3) == 0) {
      set_capacity(problem, r, between(random, 12, 16), problem.horizon + 10, 0);
    }
  }
  for (auto& activity : problem.activities) activity.may_pause = between(random, 0, 1) == 0;
  for (auto& lag : problem.lags) {
    const bool ends = lag.to == problem.sink || between(random, 0, 3) == 0;
    if (!ends) continue;
    const int duration = problem.activities[static_cast<std::size_t>(lag.from)].duration;
    if (lag.least >= 0) {
      lag.from_end = true;
      lag.least = std::max(0, lag.least - duration);
    } else {
      lag.to_end = true;
    }
  }
}

void add_changeovers(Problem& problem, std::mt19937& random) {
  for (int r = 0; r < static_cast<int>(problem.resources.size()); ++r) {
    if (problem.resources[static_cast<std::size_t>(r)].capacity != 1) continue;
    const int kinds = between(random, 2, 3);
    for (int a = 0; a < kinds; ++a) {
      for (int b = 0; b < kinds; ++b) {
        if (a != b) set_changeover(problem, r, a, b, between(random, 0, 3));
      }
    }
    for (auto& activity : problem.activities) {
      for (auto& use : activity.uses) {
        if (use.resource == r) use.kind = between(random, 0, kinds - 1);
      }
    }
  }
}

Problem two_on_a_bench() {
  Problem problem;
  add_resource(problem, "bench", 1);
  problem.source = add_activity(problem, "source", 0);
  add_activity(problem, "long", 3, {{0, 1}});
  add_activity(problem, "short", 2, {{0, 1}});
  problem.sink = add_activity(problem, "sink", 0);
  at_least(problem, 1, problem.sink, 3);
  at_least(problem, 2, problem.sink, 2);
  problem.horizon = 10;
  return problem;
}

Problem morning() {
  Problem problem;
  add_resource(problem, "hands", 1);
  problem.source = add_activity(problem, "source", 0);
  add_activity(problem, "soak", 10);
  add_activity(problem, "wipe", 3, {{0, 1}});
  add_activity(problem, "pull", 2, {{0, 1}});
  problem.sink = add_activity(problem, "sink", 0);
  at_least(problem, 1, 3, 10);
  at_most(problem, 1, 3, 14);
  at_least(problem, 2, 3, 3);
  at_most(problem, 2, 3, 5);
  at_least(problem, 3, 4, 2);
  problem.horizon = 40;
  return problem;
}

}  // namespace tests
}  // namespace dampline::scheduling
