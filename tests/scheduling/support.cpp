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
      : problem_(problem), starts_(problem.activities.size(), 0) {}

  std::optional<int> run() {
    place(0);
    return best_;
  }

 private:
  bool may_start(std::size_t i) const {
    if (static_cast<int>(i) == problem_.source && starts_[i] != 0) return false;
    for (const auto& lag : problem_.lags) {
      const auto from = static_cast<std::size_t>(lag.from);
      const auto to = static_cast<std::size_t>(lag.to);
      if (from > i || to > i) continue;
      if (starts_[to] - starts_[from] < lag.least) return false;
    }
    for (std::size_t r = 0; r < problem_.resources.size(); ++r) {
      const auto& work = problem_.activities[i];
      for (int t = starts_[i]; t < starts_[i] + work.duration; ++t) {
        if (held(r, t, i) > problem_.resources[r].capacity) return false;
      }
    }
    return true;
  }

  int held(std::size_t r, int t, std::size_t last) const {
    int sum = 0;
    for (std::size_t i = 0; i <= last; ++i) {
      const auto& work = problem_.activities[i];
      if (starts_[i] > t || t >= starts_[i] + work.duration) continue;
      for (const auto& use : work.uses) {
        if (use.resource == static_cast<int>(r)) sum += use.amount;
      }
    }
    return sum;
  }

  void place(std::size_t i) {
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
      if (is_sink) break;  // all later starts of the sink are worse
    }
  }

  const Problem& problem_;
  std::vector<int> starts_;
  std::optional<int> best_;
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

Problem random_problem(std::mt19937& random) {
  Problem problem;
  const int inner = between(random, 5, 8);
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

}  // namespace tests
}  // namespace dampline::scheduling
