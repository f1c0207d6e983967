// What brings a wet sheet back, each tried by a simulation of its own.
#include <gtest/gtest.h>

#include <dampline/method/book.hpp>
#include <dampline/planner/rescue.hpp>
#include <dampline/readiness/judge.hpp>

#include "planner/session_case.hpp"

namespace dampline::planner {
namespace {

PaperCase salt_marsh() {
  static const auto k = tests::knowledge();
  static const auto file = std::string("data/sessions/salt-marsh.toml");
  static const auto s = tests::good(session::read(tests::repository_file(file), file), file);
  const auto subject = tests::good(look_up(s, k), file);
  const auto air = tests::good(studio_air(s, k.craft.evening), file);
  return paper_case(s, k, subject, air, {});
}

WetSheet damp_to(const PaperCase& paper, double moisture) {
  WetSheet sheet;
  sheet.number = 3;
  sheet.at = HalfMinutes(300);
  sheet.covered = HalfMinutes(240);
  sheet.middle = sheet.rim =
      method::evenly(paper.sheet, units::Moisture(moisture), paper.climate.temperature);
  return sheet;
}

readiness::Verdict after(const PaperCase& paper, const WetSheet& sheet,
                         std::vector<method::Stage> stages, HalfMinutes rest) {
  stages.push_back(method::left(method::Arrangement::covered, units::seconds(rest.count() * 30.0)));
  method::RunOptions o;
  o.sample_every = units::seconds(0);
  const auto end = method::run(paper.sheet, sheet.middle, stages, paper.air, o).end;
  return readiness::judge(end, paper.sheet, paper.band).verdict;
}

TEST(Rescue, aSheetThatIsTooWetIsBlottedAgainAndThenReady) {
  const auto paper = salt_marsh();
  const auto sheet = damp_to(paper, paper.band.high.value.parts_of_one() + 0.15);
  ASSERT_EQ(judged(paper, sheet).verdict, readiness::Verdict::too_wet);
  const auto mend = blotted_again(paper, sheet, paper.least_rest);
  ASSERT_TRUE(mend);
  EXPECT_EQ(mend->rescue.kind, "blot");
  EXPECT_LT(mend->rescue.after->parts_of_one(), mend->rescue.before->parts_of_one());
  EXPECT_EQ(after(paper, sheet, mend->stages, mend->opens), readiness::Verdict::ready);
  EXPECT_EQ(after(paper, sheet, mend->stages, (mend->opens + mend->closes) / 2),
            readiness::Verdict::ready);
  // Left alone under cover it stays too wet.
  EXPECT_EQ(after(paper, sheet, {}, mend->opens), readiness::Verdict::too_wet);
}

TEST(Rescue, aSheetThatIsTooDryIsMistedAndThenReady) {
  const auto paper = salt_marsh();
  const auto sheet = damp_to(paper, paper.band.low.value.parts_of_one() - 0.10);
  ASSERT_EQ(judged(paper, sheet).verdict, readiness::Verdict::too_dry);
  const auto mend = misted(paper, sheet, paper.least_rest);
  ASSERT_TRUE(mend);
  EXPECT_EQ(after(paper, sheet, mend->stages, mend->opens), readiness::Verdict::ready);
  EXPECT_EQ(after(paper, sheet, {}, mend->opens), readiness::Verdict::too_dry);
  // As much as is missing over the sheet, and a little that is lost in the rest.
  const double area = units::in_si(paper.sheet.width) * units::in_si(paper.sheet.height);
  const double lacking = (paper.band.best.value.parts_of_one() - mean_of(sheet).parts_of_one()) *
                         paper.sheet.porous->dry * area * 1e3;
  EXPECT_GT(units::in_grams(*mend->rescue.water), 0.9 * lacking);
  EXPECT_LT(units::in_grams(*mend->rescue.water), 1.3 * lacking);
}

TEST(Rescue, aSheetWithinItsBandAsksForNoWater) {
  const auto paper = salt_marsh();
  const auto sheet = damp_to(paper, paper.band.best.value.parts_of_one() + 0.05);
  EXPECT_FALSE(misted(paper, sheet, paper.least_rest));
}

}  // namespace
}  // namespace dampline::planner
