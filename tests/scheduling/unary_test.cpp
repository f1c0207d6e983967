#include <algorithm>
#include <functional>
#include <random>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <dampline/scheduling/check.hpp>
#include <dampline/scheduling/cliques.hpp>
#include <dampline/scheduling/solve.hpp>
#include <dampline/scheduling/theta.hpp>
#include <dampline/scheduling/unary.hpp>

#include "scheduling/support.hpp"

namespace dampline::scheduling {
namespace {

using testing::IsEmpty;

struct Job {
  int start = 0;
  int length = 0;
};

// Jobs one at a time, as early as they can, in the order of their earliest starts.
int done_at_the_earliest(std::vector<Job> jobs) {
  std::sort(jobs.begin(), jobs.end(), [](Job a, Job b) { return a.start < b.start; });
  int done = jobs.empty() ? 0 : jobs.front().start;
  for (const auto& job : jobs) done = std::max(done, job.start) + job.length;
  return done;
}

TEST(Theta, isWhatAddingUpSays) {
  std::mt19937 random(5);
  for (int round = 0; round < 300; ++round) {
    const int n = 1 + static_cast<int>(random() % 9);
    std::vector<Job> jobs;
    for (int i = 0; i < n; ++i) {
      jobs.push_back({static_cast<int>(random() % 20), 1 + static_cast<int>(random() % 6)});
    }
    std::sort(jobs.begin(), jobs.end(), [](Job a, Job b) { return a.start < b.start; });
    Theta theta;
    ShadedTheta shaded;
    theta.begin(n);
    shaded.begin(n);
    std::vector<Job> in;
    std::vector<Job> grey;
    for (int i = 0; i < n; ++i) {
      const auto job = jobs[static_cast<std::size_t>(i)];
      const bool is_grey = random() % 3 == 0;
      shaded.put(i, job.start, job.length, is_grey);
      if (!is_grey) theta.add(i, job.start, job.length);
      (is_grey ? grey : in).push_back(job);
    }
    shaded.build();
    if (in.empty()) continue;
    EXPECT_EQ(theta.done(), done_at_the_earliest(in));
    EXPECT_EQ(shaded.done(), theta.done());
    int most = theta.done();
    for (const auto& one : grey) {
      auto with = in;
      with.push_back(one);
      most = std::max(most, done_at_the_earliest(with));
    }
    EXPECT_EQ(shaded.done_shaded(), most);
  }
}

// A model of nothing but jobs that go on one at a time.
Model one_at_a_time(std::mt19937& random) {
  Model model;
  model.starts = 2 + static_cast<int>(random() % 4);
  model.cliques.grow(1);
  const unsigned width = random() % 2 == 0 ? 10 : 4;
  for (int x = 0; x < model.starts; ++x) {
    model.low.push_back(static_cast<int>(random() % width));
    model.high.push_back(model.low[x] + static_cast<int>(random() % width));
    model.cliques[0].push_back(
        {x, static_cast<int>(random() % 3), 1 + static_cast<int>(random() % 4)});
  }
  return model;
}

// All starts within the bounds at which no two jobs meet.
void each_way(const Model& model, const Flat<int>& low, const Flat<int>& high,
              const std::function<void(const Flat<int>&)>& visit) {
  Flat<int> starts;
  const std::function<void()> place = [&] {
    const int x = starts.count();
    if (x == model.starts) {
      visit(starts);
      return;
    }
    const auto& job = model.cliques[0][x];
    for (int s = low[x]; s <= high[x]; ++s) {
      bool meets = false;
      for (int y = 0; y < x; ++y) {
        const auto& other = model.cliques[0][y];
        meets = meets || (s + job.offset < starts[y] + other.offset + other.duration &&
                          starts[y] + other.offset < s + job.offset + job.duration);
      }
      if (meets) continue;
      starts.push_back(s);
      place();
      starts.pop_back();
    }
  };
  place();
}

bool holds(Literal l, const Flat<int>& starts) {
  return ((l.half & 1) == 0 ? starts[l.half >> 1] : -starts[l.half >> 1]) >= l.value;
}

// Whatever the first bounds say, with these literals true the conclusion holds (or, without one,
// nothing does).
void expect_reason(const Model& model, const Flat<Literal>& reason, const Literal* conclusion) {
  Flat<int> low;
  Flat<int> high;
  low.fit(model.starts, 0);
  high.fit(model.starts, 30);
  for (const Literal l : reason) {
    const int x = l.half >> 1;
    if ((l.half & 1) == 0) {
      low[x] = std::max(low[x], l.value);
    } else {
      high[x] = std::min(high[x], -l.value);
    }
  }
  int broken = 0;
  each_way(model, low, high, [&](const Flat<int>& starts) {
    if (conclusion == nullptr || !holds(*conclusion, starts)) ++broken;
  });
  EXPECT_EQ(broken, 0);
}

// Every bound moved, for the value reached and for one short of it, has a reason that was true
// before and is enough by itself: checked against all ways to place the jobs.
TEST(Unary, everyReasonIsTrueAndEnough) {
  std::mt19937 random(11);
  int edges = 0;
  int precedences = 0;
  int overloads = 0;
  for (int round = 0; round < 1600; ++round) {
    SCOPED_TRACE(round);
    const Model model = one_at_a_time(random);
    if (model.starts > 4 && round % 5 != 0) continue;  // enumeration takes its time
    Trail trail(model.starts);
    for (int x = 0; x < model.starts; ++x) {
      trail.begin(2 * x, model.low[x]);
      trail.begin(2 * x + 1, -model.high[x]);
    }
    Unary unary(model);
    Unary::End end = Unary::End::moved;
    while (end == Unary::End::moved) {
      for (int x = 0; x < model.starts; ++x) unary.note(x);
      end = unary.propagate(trail);
    }
    for (int place = 2 * model.starts; place < trail.size(); ++place) {
      const Entry& entry = trail.entry(place);
      const int before = trail.entry(entry.previous).value;
      (entry.cause == Cause::edge ? edges : precedences) += 1;
      for (const int value : {entry.value, before + 1}) {
        Flat<Literal> reason;
        unary.explain(trail, entry, place, value, reason);
        for (const Literal l : reason) EXPECT_GE(trail.bound_before(l.half, place), l.value);
        const Literal conclusion{entry.half, value};
        expect_reason(model, reason, &conclusion);
      }
    }
    if (end != Unary::End::overload) continue;
    ++overloads;
    Flat<Literal> reason;
    unary.explain_overload(trail, reason);
    for (const Literal l : reason) EXPECT_TRUE(trail.is_true(l));
    expect_reason(model, reason, nullptr);
  }
  EXPECT_GT(edges, 20);
  EXPECT_GT(precedences, 200);
  EXPECT_GT(overloads, 20);
}

// On one machine, with lags that have no work on it, against enumeration.
TEST(Unary, agreesWithEnumerationOnOneMachine) {
  std::mt19937 random(12);
  long long conflicts = 0;
  for (int round = 0; round < 600; ++round) {
    SCOPED_TRACE(round);
    auto problem = tests::random_problem(random, 4, 6);
    for (auto& activity : problem.activities) {
      activity.uses.clear();
      if (activity.duration > 0) activity.uses = {{0, 1}};
    }
    problem.resources = {{"machine", 1}};
    const auto least = tests::enumerate(problem);
    const auto result = solve(problem, {.prove_clauses = true});
    conflicts += result.conflicts;
    EXPECT_EQ(result.unproved_clauses, 0);
    EXPECT_EQ(result.status, least ? Status::optimal : Status::infeasible);
    if (!least) continue;
    EXPECT_EQ(result.makespan, *least);
    EXPECT_THAT(check(problem, result.starts), IsEmpty());
  }
  EXPECT_GT(conflicts, 100);
}

// Published as open. Of the work of these no two pieces go together, for want of some resource or
// by a lag between them: added up it is a bound that needs no engine, and a schedule meets it.
TEST(Cliques, closeTwoOpenProjects) {
  const std::pair<const char*, int> closed[] = {{"j30_psp65.sch", 162}, {"j30_psp155.sch", 154}};
  for (const auto& [file, finish] : closed) {
    SCOPED_TRACE(file);
    const auto problem = tests::published(file);
    const auto model = build(problem).model;
    const auto clique = heaviest_clique(model, work_of(model), true);
    // Back to activities: in these projects every start is that of one activity.
    std::vector<int> chosen;
    int sum = 0;
    for (const auto& piece : clique) {
      const auto begin = model.start_of.begin();
      const auto at = std::find(begin, model.start_of.end(), piece.start);
      chosen.push_back(static_cast<int>(at - begin));
      sum += problem.activities[static_cast<std::size_t>(chosen.back())].duration;
    }
    EXPECT_EQ(sum, finish);
    const auto apart = [&](int a, int b) {
      const auto& first = problem.activities[static_cast<std::size_t>(a)];
      const auto& then = problem.activities[static_cast<std::size_t>(b)];
      for (const auto& use : first.uses) {
        for (const auto& other : then.uses) {
          const auto r = static_cast<std::size_t>(use.resource);
          if (use.resource == other.resource &&
              use.amount + other.amount > problem.resources[r].capacity) {
            return true;
          }
        }
      }
      // One schedule forced to have them side by side has none: the lags refuse it.
      auto together = problem;
      at_least(together, a, b, 1 - then.duration);
      at_most(together, a, b, first.duration - 1);
      return !build(together).is_possible;
    };
    for (std::size_t i = 0; i < chosen.size(); ++i) {
      for (std::size_t j = 0; j < i; ++j) EXPECT_TRUE(apart(chosen[i], chosen[j]));
    }
    const auto result = solve(problem, {.conflicts = 20000});
    EXPECT_EQ(result.status, Status::optimal);
    EXPECT_EQ(result.makespan, finish);
    EXPECT_THAT(check(problem, result.starts), IsEmpty());
  }
}

}  // namespace
}  // namespace dampline::scheduling
