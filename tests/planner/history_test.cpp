#include <gtest/gtest.h>

#include <dampline/planner/history.hpp>
#include <dampline/planner/lay_out.hpp>
#include <dampline/planner/remaining.hpp>
#include <dampline/scheduling/check.hpp>
#include <dampline/scheduling/solve.hpp>

#include "planner/hand_made.hpp"

namespace dampline::planner {
namespace {

// A morning made by hand, and what was said of it.
struct Planned {
  session::Session session = tests::solo_day();
  Craft craft = tests::craft();
  Draft draft;
  std::vector<int> starts;
  std::vector<Step> steps;

  Planned() {
    draft = planner::draft(session, craft, tests::soaked(), {1, 3, 1});
    scheduling::Options options;
    options.deadline = day_length(session).count();
    starts = scheduling::solve(draft.problem, options).starts;
    steps = lay_out(draft, craft, starts);
  }
  [[nodiscard]] Morning morning() const { return {session, draft, starts, steps}; }
  [[nodiscard]] const Step& step(const std::string& id) const {
    for (const auto& s : steps) {
      if (s.id == id) return s;
    }
    throw std::out_of_range(id);
  }
};

LateNews until(const Planned& p, const std::string& id) {
  LateNews news;
  news.at = p.step(id).end;
  news.done_until = id;
  return news;
}

TEST(History, takesAsDoneWhatWasToBeOverAndAsRunningWhatItCutsThrough) {
  const Planned p;
  const auto news = until(p, "blot-1");
  const auto told = history(p.morning(), news);
  ASSERT_TRUE(std::holds_alternative<History>(told));
  for (const auto& step : p.steps) {
    if (step.kind == "soak") continue;
    const auto& steps = std::get<History>(told).steps;
    const auto found = steps.find(step.id);
    EXPECT_EQ(found != steps.end(), step.start < news.at) << step.id;
    if (found != steps.end()) {
      EXPECT_EQ(found->second.running, step.end > news.at) << step.id;
    }
  }
}

TEST(History, aBlockNamedWithItsTimesIsSharedOutAmongItsSteps) {
  const Planned p;
  const Step* last = nullptr;  // before the block, whatever the plan has there
  for (const auto& step : p.steps) {
    if (step.kind == "soak" || step.id.starts_with("print-1")) continue;
    if (step.end > p.step("print-1/place-tone").start) continue;
    if (last == nullptr || step.end > last->end) last = &step;
  }
  ASSERT_NE(last, nullptr);
  auto news = until(p, last->id);
  news.at = p.step("print-1").end + HalfMinutes(60);
  news.steps = {{"print-1", news.at - HalfMinutes(40), news.at - HalfMinutes(10), false}};
  const auto told = history(p.morning(), news);
  ASSERT_TRUE(std::holds_alternative<History>(told)) << std::get<LateFaults>(told).front().what;
  const auto& steps = std::get<History>(told).steps;
  EXPECT_EQ(steps.at("print-1").end, news.at - HalfMinutes(10));
  EXPECT_LT(steps.at("print-1/place-tone").end, steps.at("print-1").start);
  EXPECT_EQ(steps.at("print-1/place-tone").end, steps.at("print-1/pull-tone").start);
}

TEST(Remaining, isADraftThatAPlanOfTheMorningSolvesWhenNothingIsLate) {
  const Planned p;
  const auto news = until(p, "ink-1-tone");
  const auto told = history(p.morning(), news);
  ASSERT_TRUE(std::holds_alternative<History>(told));
  Remains remains;
  remains.until = day_length(p.session);
  const auto rest = remaining(p.morning(), p.craft, std::get<History>(told), remains);
  scheduling::Options options;
  options.deadline = remains.until.count();
  const auto morning = scheduling::solve(p.draft.problem, options);
  const auto now = scheduling::solve(rest.draft.problem, options);
  ASSERT_FALSE(now.starts.empty());
  EXPECT_TRUE(scheduling::check(rest.draft.problem, now.starts).empty());
  EXPECT_EQ(now.makespan, morning.makespan);
  const auto steps = lay_out(rest.draft, p.craft, now.starts);
  EXPECT_EQ(steps.size(), p.steps.size());
  for (const auto& step : steps) {
    if (step.start >= news.at || step.kind == "soak") continue;
    EXPECT_EQ(step.start, p.step(step.id).start) << step.id;
    EXPECT_EQ(step.end, p.step(step.id).end) << step.id;
  }
}

TEST(Remaining, leavesOutWhatIsLost) {
  const Planned p;
  const auto news = until(p, "blot-1");
  const auto told = history(p.morning(), news);
  Remains remains;
  remains.until = day_length(p.session);
  remains.lost = {3, 4};
  const auto rest = remaining(p.morning(), p.craft, std::get<History>(told), remains);
  EXPECT_EQ(rest.draft.pulls.size(), p.draft.pulls.size() / 2);
  for (const auto& block : rest.draft.blocks) {
    EXPECT_FALSE(block.id.starts_with("print-3") || block.id.starts_with("ink-4")) << block.id;
  }
}

}  // namespace
}  // namespace dampline::planner
