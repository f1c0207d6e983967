#include <map>
#include <set>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <dampline/planner/aims.hpp>
#include <dampline/planner/find_step.hpp>
#include <dampline/planner/fit.hpp>
#include <dampline/planner/lay_out.hpp>
#include <dampline/planner/why.hpp>
#include <dampline/scheduling/check.hpp>
#include <dampline/scheduling/solve.hpp>

#include "planner/hand_made.hpp"

namespace dampline::planner {
namespace {

using testing::Contains;
using testing::ElementsAre;
using testing::IsEmpty;

struct Day {
  Treatment treatment;
  Fit fit;
  std::vector<Step> steps;
};

Day planned(const session::Session& s, const Treatment& t) {
  Day day;
  day.treatment = t;
  day.fit = fit(s, tests::craft(), t, {20000, 1});
  EXPECT_FALSE(day.fit.starts.empty());
  day.steps = lay_out(day.fit.draft, tests::craft(), day.fit.starts);
  return day;
}

// Two people, and more time than is needed.
session::Session easy_day() {
  auto s = tests::solo_day();
  auto second = s.people.front();
  second.name = "B";
  s.people.push_back(second);
  s.edition.prints = 2;
  s.plates[0].times["wipe"] = units::minutes(40);
  return s;
}

// Paper that is ready long before the first plate is wiped.
Treatment soaked_briefly() {
  auto t = tests::soaked();
  t.soak = HalfMinutes(20);
  t.opens = HalfMinutes(20);
  return t;
}

Why of(const Day& day, const std::string& step) {
  return why(day.fit, day.steps, day.treatment, step);
}

int activity_named(const Draft& draft, const std::string& id) {
  for (std::size_t a = 0; a < draft.blocks.size(); ++a) {
    if (draft.blocks[a].id == id) return static_cast<int>(a);
  }
  ADD_FAILURE() << id;
  return 0;
}

TEST(Ground, isKnownForEveryLagOfADay) {
  const auto s = tests::solo_day();
  const auto d = draft(s, tests::craft(), tests::soaked(), {1, 3, 2});
  std::map<Ground, int> count;
  for (const auto& lag : d.problem.lags) ++count[ground_of(d, lag)];
  const int pulls = 8;
  EXPECT_EQ(count[Ground::rest], pulls);
  EXPECT_EQ(count[Ground::keeps], pulls);
  EXPECT_EQ(count[Ground::ink_waits], pulls);
  EXPECT_EQ(count[Ground::plate], pulls - 2);  // of two plates
  EXPECT_EQ(count[Ground::soak], 2);
  EXPECT_EQ(count[Ground::tub_limit], 2);
  EXPECT_EQ(count[Ground::tub], 1);       // the second batch after the first
  EXPECT_EQ(count[Ground::set_time], 3);  // within the day; no sooner, no later
  const int work = static_cast<int>(d.problem.activities.size()) - 2;
  EXPECT_EQ(count[Ground::finish], work - 1);   // all but the break
  EXPECT_EQ(count[Ground::opening], work - 1);  // likewise
}

TEST(Why, theFinishIsHeldDownToTheBreakOrTheOpening) {
  for (const auto& s : {tests::solo_day(), easy_day()}) {
    const auto day = planned(s, tests::soaked());
    const auto finish = of(day, "finish");
    EXPECT_THAT(finish.needed_for, IsEmpty());
    ASSERT_FALSE(finish.waits_for.empty());
    EXPECT_EQ(finish.waits_for.front().ground, Ground::finish);
    EXPECT_EQ(finish.waits_for.front().end, finish.start);
    const auto last = finish.waits_for.back().ground;
    EXPECT_TRUE(last == Ground::opening || last == Ground::set_time);
    EXPECT_EQ(finish.later, HalfMinutes(0));
  }
}

// The chain of the finish has no gap: from link to link there is work, or a wait that has a name.
TEST(Why, theChainOfTheFinishHasNoGap) {
  const auto day = planned(easy_day(), tests::soaked());
  const auto finish = of(day, "finish");
  HalfMinutes below = finish.start;
  for (const auto& link : finish.waits_for) {
    const bool waits = link.ground == Ground::rest || link.ground == Ground::soak ||
                       link.ground == Ground::ink_waits || link.ground == Ground::keeps ||
                       link.ground == Ground::changing || link.ground == Ground::tub_limit;
    if (!waits && !link.step.empty()) {
      EXPECT_GE(link.end, below) << link.step;
    }
    below = link.start;
  }
}

TEST(Why, aStepPutLateIsToldByWhatNeedsIt) {
  auto s = easy_day();
  s.day.breaks.clear();
  auto day = planned(s, soaked_briefly());
  auto& fit = day.fit;
  fit.margin = HalfMinutes(0);  // only the finish counts
  fit.starts =
      wait_less(kept(fit.draft, day.treatment, fit.finish, fit.margin), fit.draft, fit.starts);
  day.steps = lay_out(fit.draft, tests::craft(), fit.starts);
  const auto soak = of(day, "soak-1");
  EXPECT_EQ(soak.after, "load-1");
  ASSERT_FALSE(soak.needed_for.empty());
  std::vector<Ground> grounds;
  for (const auto& link : soak.needed_for) grounds.push_back(link.ground);
  EXPECT_THAT(grounds, ElementsAre(Ground::soak, Ground::rest));
  EXPECT_EQ(soak.needed_for[0].step, "blot-1");
  EXPECT_EQ(soak.needed_for[0].wait, soaked_briefly().soak);
  EXPECT_EQ(soak.needed_for[1].step, "print-1");
  EXPECT_EQ(soak.needed_for[1].wait, soaked_briefly().opens);
  EXPECT_EQ(soak.needed_for[1].print, 1);
  ASSERT_FALSE(soak.waits_for.empty());
  EXPECT_EQ(soak.waits_for.back().ground, Ground::opening);
  EXPECT_GT(soak.earlier, HalfMinutes(0));
}

TEST(Why, whatItSaysOfSlackIsASchedule) {
  const auto day = planned(easy_day(), tests::soaked());
  const auto& d = day.fit.draft;
  int with_slack = 0;
  for (const auto& block : d.blocks) {
    if (block.parts.empty() || is_break(d, activity_named(d, block.id))) continue;
    const auto why = of(day, block.id);
    const int a = activity_named(d, block.id);
    with_slack += why.later > HalfMinutes(0) ? 1 : 0;
    auto problem = d.problem;
    scheduling::at_least(problem, problem.source, a,
                         day.fit.starts[static_cast<std::size_t>(a)] + why.later.count());
    scheduling::Options options;
    options.deadline = day.fit.finish.count();
    EXPECT_FALSE(scheduling::solve(problem, options).starts.empty()) << block.id;
    EXPECT_GE(why.later_nearer, why.later);
    EXPECT_GE(why.later_at_all, why.later_nearer);
  }
  EXPECT_GT(with_slack, 3);
}

TEST(Why, aStepWithinAPieceOfWorkFollowsTheOneBefore) {
  const auto day = planned(tests::solo_day(), tests::soaked());
  const auto pull = of(day, "print-2/pull-key");
  EXPECT_EQ(pull.after, "print-2/change-plate-key");
  EXPECT_LT(pull.begins, pull.start);
  ASSERT_EQ(pull.windows.size(), 1U);
  EXPECT_EQ(pull.windows[0].print, 2);
  ASSERT_EQ(pull.windows[0].pulled.size(), 2U);
  EXPECT_EQ(pull.windows[0].pulled[1], pull.start);
  EXPECT_LE(pull.windows[0].from, pull.windows[0].pulled[0]);
  EXPECT_LE(pull.windows[0].pulled[1], pull.windows[0].until);
}

TEST(Why, handsAreNamedBeforeOtherThingsTakenOver) {
  const auto day = planned(tests::solo_day(), tests::soaked());
  int named = 0;
  for (const auto& step : day.steps) {
    for (const auto& link : of(day, step.id).waits_for) {
      if (link.resource.empty()) continue;
      EXPECT_EQ(link.resource, "A") << step.id;
      ++named;
    }
  }
  EXPECT_GT(named, 20);
}

TEST(Why, refusesAStepThatIsNotThere) {
  const auto day = planned(tests::solo_day(), tests::soaked());
  EXPECT_THROW((void)of(day, "print-99"), std::invalid_argument);
  EXPECT_THROW((void)of(day, ""), std::invalid_argument);
}

TEST(SeekStep, byIdWordsAndClock) {
  const auto s = tests::solo_day();
  const auto day = planned(s, tests::soaked());
  const auto ids = [&](const char* word) { return seek_step(day.steps, s.day, word).ids; };
  EXPECT_THAT(ids("print-2/pull-key"), ElementsAre("print-2/pull-key"));
  EXPECT_THAT(ids("Print 2"), ElementsAre("print-2"));
  EXPECT_THAT(ids("pull key 2"), ElementsAre("print-2/pull-key"));
  EXPECT_THAT(ids("mix ink tone"), ElementsAre("mix-ink-tone"));
  EXPECT_THAT(ids("pull 2"), ElementsAre("print-2/pull-tone", "print-2/pull-key"));
  EXPECT_THAT(ids("9:30"), ElementsAre("lay-out"));
  EXPECT_THAT(ids("09:41"), ElementsAre("lay-out"));  // goes on
  EXPECT_THAT(ids("13:10"), Contains("break-1"));
  EXPECT_THAT(ids("prnt-2"), IsEmpty());
  EXPECT_EQ(seek_step(day.steps, s.day, "prnt-2").near, "print-2");
  EXPECT_EQ(seek_step(day.steps, s.day, "finsh").near, "finish");
  EXPECT_FALSE(seek_step(day.steps, s.day, "zzzzzzzz").near);
  EXPECT_THAT(ids("24:99"), IsEmpty());
}

TEST(SeekStep, listsAlikeOnesAsARange) {
  const auto day = planned(tests::solo_day(), tests::soaked());
  const auto ranges = step_ranges(day.steps);
  EXPECT_THAT(ranges, Contains("print-1 to print-4"));
  EXPECT_THAT(ranges, Contains("lay-out"));
}

}  // namespace
}  // namespace dampline::planner
