#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <dampline/scheduling/check.hpp>
#include <dampline/scheduling/neighbourhood.hpp>
#include <dampline/scheduling/solve.hpp>

#include "scheduling/support.hpp"

namespace dampline::scheduling {
namespace {

using testing::IsEmpty;

Flat<int> starts_of(const Model& model, const std::vector<int>& schedule) {
  Flat<int> starts;
  starts.fit(model.starts, 0);
  for (int i = 0; i < model.start_of.count(); ++i) {
    starts[model.start_of[i]] = schedule[static_cast<std::size_t>(i)] - model.offset_of[i];
  }
  return starts;
}

TEST(Neighbourhood, freesStartsThatLieTogetherInTime) {
  const auto problem = tests::two_on_a_bench();
  const auto model = build(problem).model;
  const auto starts = starts_of(model, {0, 2, 0, 5});
  const auto is_free = free_stretch(model, starts, 2, 2);
  EXPECT_EQ(is_free[model.start_of[1]], 1);
  EXPECT_EQ(is_free[model.start_of[3]], 1);
  EXPECT_EQ(is_free[model.start_of[0]], 0);
  EXPECT_EQ(is_free[model.start_of[2]], 0);
}

TEST(Neighbourhood, theScheduleKeepsItsOwnOrder) {
  for (const auto* file : {"12x1b4.sch", "j60_j609_4.sm", "ubo50_psp24.sch"}) {
    const auto problem = tests::published(file);
    const auto result = solve(problem, {.conflicts = 300});
    ASSERT_FALSE(result.starts.empty());
    const auto model = build(problem).model;
    const auto starts = starts_of(model, result.starts);
    Flat<char> none;
    none.fit(model.starts, 0);
    int arcs = 0;
    const auto rows = order_of(model, starts, none);
    for (int half = 0; half < rows.count(); half += 2) {
      for (const auto& arc : rows[half]) {
        ++arcs;
        EXPECT_GE(starts[arc.to >> 1], starts[half >> 1] + arc.length) << file;
      }
    }
    EXPECT_GT(arcs, 20) << file;
    Flat<char> all;
    all.fit(model.starts, 1);
    for (const auto& row : order_of(model, starts, all)) EXPECT_THAT(row, IsEmpty());
  }
}

// Looking around the best schedule changes neither optimum nor proof.
TEST(Neighbourhood, agreesWithEnumeration) {
  std::mt19937 random(51);
  int solved = 0;
  for (int round = 0; round < 500; ++round) {
    auto problem = tests::random_problem(random);
    if (round % 2 == 0) tests::add_calendars(problem, random);
    const auto least = tests::enumerate(problem);
    const auto result = solve(problem, {.look_around_from = 0, .prove_clauses = true});
    SCOPED_TRACE(round);
    EXPECT_EQ(result.unproved_clauses, 0);
    ASSERT_EQ(result.status, least ? Status::optimal : Status::infeasible);
    if (!least) continue;
    ++solved;
    EXPECT_EQ(result.makespan, *least);
    EXPECT_THAT(check(problem, result.starts), IsEmpty());
  }
  EXPECT_GT(solved, 100);
}

TEST(Neighbourhood, clausesLearntAroundAScheduleAreProved) {
  for (const auto* file : {"12x1b4.sch", "20x2.sch", "j60_j609_4.sm"}) {
    const auto result = solve(tests::published(file),
                              {.conflicts = 3000, .look_around_from = 0, .prove_clauses = true});
    EXPECT_EQ(result.unproved_clauses, 0) << file;
  }
}

// 39 hours of work, too large to prove at once: a plan at once, and a good one soon.
TEST(Neighbourhood, aBigSessionHasAPlanAtOnceAndABetterOneSoon) {
  const auto problem = tests::published("100x4m.sch");
  int first = -1;
  Options options{.conflicts = 5000};
  long long reports = 0;
  options.report_every = 100;
  options.progress = [&](const Progress& progress) {
    ++reports;
    if (progress.has_schedule && first < 0) first = progress.conflicts < 100 ? 0 : 1;
    EXPECT_LE(progress.bound, 2668);
    return true;
  };
  const auto result = solve(problem, options);
  EXPECT_EQ(first, 0);
  EXPECT_GT(reports, 50);
  EXPECT_LE(result.makespan, 3366);
  EXPECT_GE(result.makespan, result.bound);
  EXPECT_GT(result.bound, 2000);
  EXPECT_THAT(check(problem, result.starts), IsEmpty());
}

TEST(Neighbourhood, aStopFlagEndsASearch) {
  std::atomic<bool> stop{false};
  Options options;
  options.stop = &stop;
  options.progress = [&](const Progress& progress) {
    if (progress.conflicts >= 1000) stop = true;
    return true;
  };
  const auto result = solve(tests::published("j120_j1201_3.sm"), options);
  EXPECT_LT(result.conflicts, 1100);
  EXPECT_EQ(result.status, Status::feasible);
  stop = true;
  EXPECT_LE(solve(tests::published("j120_j1201_3.sm"), options).conflicts, 1);
}

}  // namespace
}  // namespace dampline::scheduling
