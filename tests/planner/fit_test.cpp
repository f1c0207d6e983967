#include <algorithm>

#include <gtest/gtest.h>

#include <dampline/planner/aims.hpp>
#include <dampline/planner/fit.hpp>
#include <dampline/planner/lay_out.hpp>
#include <dampline/scheduling/check.hpp>
#include <dampline/scheduling/solve.hpp>

#include "planner/hand_made.hpp"
#include "planner/session_case.hpp"

namespace dampline::planner {
namespace {

// Ten prints and two proofs, as on the demo day: not all of them fit.
session::Session full_day() {
  auto s = tests::solo_day();
  s.edition.prints = 10;
  s.edition.proofs = 2;
  return s;
}

// From the starts alone: how near a pull comes to an end of its sheet's window.
HalfMinutes nearest_end(const Draft& draft, const Treatment& t, const std::vector<int>& starts) {
  HalfMinutes nearest = t.closes;
  for (const auto& pull : draft.pulls) {
    const auto& sheet = draft.sheets[static_cast<std::size_t>(pull.sheet - 1)];
    const auto waited = when(pull.pulled, starts) - when(sheet.covered, starts);
    nearest = std::min({nearest, waited - t.opens, t.closes - waited});
  }
  return nearest;
}

scheduling::Result earliest(const session::Session& s, const Treatment& t, const Extent& extent) {
  scheduling::Options options;
  options.deadline = day_length(s).count();
  return scheduling::solve(draft(s, tests::craft(), t, extent).problem, options);
}

TEST(Fit, printsAsManyAsFitAndNotOneMore) {
  const auto s = full_day();
  const auto t = tests::soaked();
  const auto found = fit(s, tests::craft(), t, {});
  const int rounds = found.extent.proofs + found.extent.prints;
  EXPECT_EQ(found.extent.proofs, 2);
  EXPECT_GT(found.extent.prints, 0);
  EXPECT_LT(found.extent.prints, 10);
  EXPECT_TRUE(found.most_proved);
  for (int batches = 1; batches <= rounds + 1; ++batches) {
    const auto more = earliest(s, t, {2, found.extent.prints + 1, batches});
    EXPECT_EQ(more.status, scheduling::Status::infeasible) << batches << " soaks";
  }
}

TEST(Fit, endsNoLaterForTheSakeOfMargin) {
  const auto s = full_day();
  const auto t = tests::soaked();
  const auto found = fit(s, tests::craft(), t, {});
  int best = day_length(s).count();
  for (int batches = 1; batches <= 3; ++batches) {
    const auto alone = earliest(s, t, {2, found.extent.prints, batches});
    if (!alone.starts.empty()) best = std::min(best, alone.makespan);
  }
  EXPECT_EQ(found.finish.count(), best);
  EXPECT_EQ(found.bound.count(), best);
}

TEST(Fit, keepsAsFarFromTheEndsOfTheWindowsAsTheFinishAllows) {
  const auto s = full_day();
  const auto t = tests::soaked();
  const auto found = fit(s, tests::craft(), t, {});
  EXPECT_EQ(nearest_end(found.draft, t, found.starts), found.margin);
  ASSERT_TRUE(found.margin_proved);
  // Half a minute more on both sides of the window: no plan ends by then, however many soaks.
  auto narrower = t;
  narrower.opens += found.margin + HalfMinutes(1);
  narrower.closes -= found.margin + HalfMinutes(1);
  for (int batches = 1; batches <= 3; ++batches) {
    auto extent = found.extent;
    extent.batches = batches;
    const auto plan = earliest(s, narrower, extent);
    EXPECT_TRUE(plan.starts.empty() || plan.makespan > found.finish.count());
  }
  // The finish alone leaves less.
  const auto alone = earliest(s, t, found.extent);
  EXPECT_LT(nearest_end(found.draft, t, alone.starts), found.margin);
}

// Added up from the starts: each sheet from the tub to its last pull, each plate from its wiping.
HalfMinutes waits(const Draft& draft, const Treatment& t, const std::vector<int>& starts) {
  HalfMinutes sum{};
  for (const auto& sheet : draft.sheets) {
    HalfMinutes last{};
    for (const auto& pull : draft.pulls) {
      if (pull.sheet != sheet.number) continue;
      last = std::max(last, when(pull.pulled, starts));
      sum += when(pull.pulled, starts) - when(pull.inked, starts);
    }
    const auto blotting = when(sheet.covered, starts) - when(sheet.lifted, starts);
    sum += last - when(sheet.wet, starts) - t.soak - blotting - t.opens;
  }
  return sum;
}

TEST(Fit, leavesNothingWetForLongerThanItMust) {
  const auto s = tests::solo_day();
  const auto t = tests::soaked();
  const auto found = fit(s, tests::craft(), t, {});
  EXPECT_EQ(found.idle_wet, waits(found.draft, t, found.starts));
  EXPECT_TRUE(found.idle_proved);
  // Other plans that end as early and keep the margin wait as long or longer.
  auto narrower = t;
  narrower.opens += found.margin;
  narrower.closes -= found.margin;
  const auto problem = draft(s, tests::craft(), narrower, found.extent).problem;
  int longer = 0;
  for (unsigned seed = 1; seed <= 10; ++seed) {
    scheduling::Options options;
    options.seed = seed;
    options.deadline = found.finish.count();
    const auto other = scheduling::solve(problem, options);
    ASSERT_FALSE(other.starts.empty());
    EXPECT_GE(waits(found.draft, t, other.starts), found.idle_wet);
    longer += waits(found.draft, t, other.starts) > found.idle_wet ? 1 : 0;
  }
  EXPECT_GT(longer, 0);
}

TEST(Fit, buysMarginWithALaterFinishWhereThatIsAllowed) {
  auto s = tests::solo_day();
  s.plates.pop_back();
  s.edition.order = {"tone"};
  auto t = tests::soaked();
  t.closes = HalfMinutes(200);
  FitOptions options;
  const auto strict = fit(s, tests::craft(), t, options);
  options.finish_tolerance = HalfMinutes(40);
  const auto patient = fit(s, tests::craft(), t, options);
  EXPECT_EQ(patient.extent.prints, strict.extent.prints);
  EXPECT_GT(patient.margin, strict.margin);
  EXPECT_LE(patient.finish, strict.finish + HalfMinutes(40));
  EXPECT_LE(patient.finish, day_length(s));
}

TEST(Fit, isTheSameTwice) {
  const auto once = fit(full_day(), tests::craft(), tests::soaked(), {});
  const auto again = fit(full_day(), tests::craft(), tests::soaked(), {});
  EXPECT_EQ(once.starts, again.starts);
}

TEST(Fit, bearsSixtyPrintsFromTwoPlates) {
  const auto c = tests::session_case("tests/planner/sixty-prints.toml");
  const auto found = fit(c.session, c.craft, c.treatment, {});
  EXPECT_EQ(found.extent.prints, 60);
  EXPECT_EQ(found.extent.proofs, 2);
  EXPECT_TRUE(scheduling::check(found.draft.problem, found.starts).empty());
  EXPECT_LE((found.finish - found.bound) * 50, found.finish);  // within 2 %
  EXPECT_EQ(nearest_end(found.draft, c.treatment, found.starts), found.margin);
}

TEST(Fit, keepsAPlanWhenTheBudgetIsSpent) {
  FitOptions options;
  options.conflicts = 1;
  const auto found = fit(full_day(), tests::craft(), tests::soaked(), options);
  ASSERT_FALSE(found.starts.empty());
  EXPECT_TRUE(scheduling::check(found.draft.problem, found.starts).empty());
  EXPECT_LE(found.bound, found.finish);
  EXPECT_LE(found.finish, day_length(full_day()));
}

}  // namespace
}  // namespace dampline::planner
