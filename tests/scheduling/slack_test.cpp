#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <dampline/scheduling/check.hpp>
#include <dampline/scheduling/held.hpp>
#include <dampline/scheduling/slack.hpp>
#include <dampline/scheduling/solve.hpp>

#include "scheduling/support.hpp"

namespace dampline::scheduling {
namespace {

using testing::IsEmpty;

using tests::morning;

TEST(Slack, saysHowFarEachMayGoWithTheFinishAsItIs) {
  const auto room = slack(morning(), {0, 0, 5, 10, 14}, 14);
  EXPECT_EQ(room[1].earliest, 0);
  EXPECT_EQ(room[1].latest, 2);    // with the pull, two later
  EXPECT_EQ(room[2].earliest, 5);  // it may wait five at most, and the pull is at ten
  EXPECT_EQ(room[2].latest, 9);
  EXPECT_EQ(room[3].latest, 12);
  EXPECT_EQ(room[4].latest, 14);
  EXPECT_EQ(slack(morning(), {0, 0, 5, 10, 14}, 20)[3].latest, 18);
}

std::vector<int> one_end(const std::vector<Slack>& room, int Slack::*end) {
  std::vector<int> starts;
  for (const auto& each : room) starts.push_back(each.*end);
  return starts;
}

// Does `other` leave in their order whatever shares a resource that cannot hold all at once?
bool keeps_order(const Problem& problem, const std::vector<int>& starts,
                 const std::vector<int>& other) {
  const auto end = [&](const std::vector<int>& s, std::size_t i) {
    return s[i] + problem.activities[i].duration;
  };
  const auto holds_some = [&](std::size_t i, int r) {
    if (problem.activities[i].duration == 0) return false;
    for (const auto& use : problem.activities[i].uses) {
      if (use.resource == r && use.amount > 0) return true;
    }
    return false;
  };
  for (int r = 0; r < static_cast<int>(problem.resources.size()); ++r) {
    int wanted = 0;
    for (const auto& work : problem.activities) {
      for (const auto& use : work.uses) {
        if (use.resource == r && work.duration > 0) wanted += use.amount;
      }
    }
    if (wanted <= problem.resources[static_cast<std::size_t>(r)].capacity) continue;
    for (std::size_t i = 0; i < starts.size(); ++i) {
      for (std::size_t j = 0; j < starts.size(); ++j) {
        if (i == j || !holds_some(i, r) || !holds_some(j, r)) continue;
        if (end(starts, i) <= starts[j] && end(other, i) > other[j]) return false;
      }
    }
  }
  return true;
}

TEST(Slack, isWhatEnumerationFinds) {
  std::mt19937 random(5);
  int solved = 0;
  for (int round = 0; round < 300 && solved < 60; ++round) {
    const auto problem = tests::random_problem(random, 3, 4);
    const auto result = solve(problem);
    if (result.starts.empty()) continue;
    ++solved;
    const auto& starts = result.starts;
    auto first = starts;
    auto last = starts;
    tests::enumerate(problem, [&](const std::vector<int>& other) {
      const auto sink = static_cast<std::size_t>(problem.sink);
      if (other[sink] > starts[sink] || !keeps_order(problem, starts, other)) return;
      for (std::size_t i = 0; i < starts.size(); ++i) {
        first[i] = std::min(first[i], other[i]);
        last[i] = std::max(last[i], other[i]);
      }
    });
    const auto room = slack(problem, starts, starts.back());
    EXPECT_EQ(one_end(room, &Slack::earliest), first);
    EXPECT_EQ(one_end(room, &Slack::latest), last);
  }
  EXPECT_GE(solved, 60);
}

TEST(Slack, bothEndsTogetherAreSchedules) {
  std::mt19937 random(6);
  int solved = 0;
  int moved = 0;
  for (int round = 0; round < 400 && solved < 100; ++round) {
    auto problem = tests::random_problem(random);
    if (round % 2 == 0) tests::add_changeovers(problem, random);
    const auto result = solve(problem);
    if (result.starts.empty()) continue;
    ++solved;
    const auto room = slack(problem, result.starts, result.makespan);
    for (const auto end : {&Slack::earliest, &Slack::latest}) {
      const auto starts = one_end(room, end);
      EXPECT_THAT(check(problem, starts), IsEmpty());
      EXPECT_EQ(starts[static_cast<std::size_t>(problem.sink)], result.makespan);
      moved += starts != result.starts ? 1 : 0;
    }
  }
  EXPECT_GE(solved, 100);
  EXPECT_GT(moved, 50);
}

TEST(Slack, keepsToCalendars) {
  auto problem = morning();
  const std::vector<int> starts{0, 0, 5, 10, 24};
  set_capacity(problem, 0, 12, 15, 0);
  ASSERT_THAT(check(problem, starts), IsEmpty());
  EXPECT_EQ(slack(problem, starts, starts.back())[3].latest, 22);  // both past the pause
  EXPECT_EQ(slack(problem, starts, starts.back())[2].latest, 19);
  set_capacity(problem, 0, 12, 20, 0);  // the plate does not wait through so long a one
  EXPECT_EQ(slack(problem, starts, starts.back())[3].latest, 10);
  EXPECT_EQ(slack(problem, starts, starts.back())[2].latest, 7);
}

TEST(Needs, namesWhatKeepsAnActivityFromWaiting) {
  const auto problem = morning();
  const std::vector<int> starts{0, 0, 7, 10, 12};
  ASSERT_THAT(check(problem, starts), IsEmpty());
  const auto of_soak = needs(problem, starts, 1);
  ASSERT_EQ(of_soak.size(), 1U);
  EXPECT_EQ(of_soak[0].activity, 3);
  EXPECT_EQ(of_soak[0].lag, 10);
  const auto of_wipe = needs(problem, starts, 2);
  ASSERT_EQ(of_wipe.size(), 2U);  // the lag, and the hands
  EXPECT_EQ(of_wipe[1].resource, 0);
  EXPECT_THAT(needs(problem, starts, problem.sink), IsEmpty());
}

TEST(Needs, isEmptyExactlyWhereAUnitLaterIsASchedule) {
  std::mt19937 random(9);
  int asked = 0;
  int free = 0;
  for (int round = 0; round < 600; ++round) {
    auto problem = tests::random_problem(random);
    if (round % 3 == 0) tests::add_changeovers(problem, random);
    if (round % 3 == 1) tests::add_calendars(problem, random);
    const auto result = solve(problem);
    if (result.starts.empty()) continue;
    for (int a = 0; a < static_cast<int>(result.starts.size()); ++a) {
      if (a == problem.source || a == problem.sink) continue;
      if (problem.activities[static_cast<std::size_t>(a)].may_pause) continue;
      auto later = result.starts;
      ++later[static_cast<std::size_t>(a)];
      ++asked;
      const bool is_free = check(problem, later).empty();
      free += is_free ? 1 : 0;
      EXPECT_EQ(needs(problem, result.starts, a).empty(), is_free)
          << "activity " << a << " in round " << round;
    }
  }
  EXPECT_GT(asked, 500);
  EXPECT_GT(free, 50);
}

}  // namespace
}  // namespace dampline::scheduling
