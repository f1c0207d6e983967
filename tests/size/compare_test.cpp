#include <cmath>

#include <gtest/gtest.h>

#include <dampline/size/compare.hpp>
#include <dampline/units/out_of_range.hpp>

#include "size/printings.hpp"

namespace dampline::size {
namespace {

using units::in_millimetres;

const WayAnswer& of(const Comparison& c, Way way) {
  for (const auto& w : c.ways) {
    if (w.way == way) return w;
  }
  throw std::runtime_error("no such way");
}

const Answer& demo() {
  static const Answer a = compare(tests::two_plates());
  return a;
}

double worst(const Answer& a, Way way) {
  return in_millimetres(of(a.shown, way).pulls.back().later->worst.value);
}

TEST(Compare, givesEveryWayWithItsNumbers) {
  const auto& a = demo();
  ASSERT_EQ(a.shown.ways.size(), 4U);
  for (const auto& w : a.shown.ways) {
    ASSERT_EQ(w.pulls.size(), 2U);
    EXPECT_FALSE(w.pulls[0].later.has_value());
    ASSERT_TRUE(w.pulls[1].later.has_value());
    const auto& later = *w.pulls[1].later;
    EXPECT_LE(later.worst.low, later.worst.high);
    EXPECT_GE(later.within.parts_of_one(), 0);
    EXPECT_LE(later.within.parts_of_one(), 1);
    EXPECT_NEAR(w.all.parts_of_one(), later.within.parts_of_one(), 1e-12);  // one later plate
    EXPECT_LE(w.pulls[0].across.low, w.pulls[0].across.high);
  }
  EXPECT_FALSE(a.other.has_value());
}

// Common practice, no published source: tight register is hard on a sheet that was dried between,
// and one printed damp no longer takes the second plate dry.
TEST(Compare, printingLaterPlatesDryIsWorst) {
  EXPECT_GT(worst(demo(), Way::dry), 2 * worst(demo(), Way::released));
  EXPECT_LT(of(demo().shown, Way::dry).all.parts_of_one(), 0.05);
}

// Common practice, no published source: kept covered above fibre saturation, a sheet keeps
// register. The nip's newsprint and felt and the minute in the open are in it.
TEST(Compare, twoPullsFourMinutesApartUnderCoverKeepRegister) {
  auto p = tests::two_plates();
  p.nip = units::Strain(0);
  p.plates[1].between = units::minutes(3);
  p.laying = units::minutes(1);
  const auto s = expected(p);
  const auto passage = follow(p, s, at_first_pull(p, s), Way::released);
  for (const auto laid : {Laid::plate, Laid::sheet}) {
    p.laid = laid;
    EXPECT_LT(in_millimetres(worst_corner(case_at(p, passage, Way::released, 1, p.grain))), 0.05);
  }
}

TEST(Compare, aSheetHeldOpenLongerMovesMore) {
  auto p = tests::two_plates();
  p.nip = units::Strain(0);
  p.samples = 0;
  p.room.humidity = units::RelativeHumidity(0.3);
  double last = 0;
  for (const double open : {1.0, 5.0, 15.0}) {
    p.change = units::minutes(open);
    const double now = worst(compare(p), Way::held);
    EXPECT_GT(now, last) << open;
    last = now;
  }
}

// Unmeasured, a paper's shrinkage is known too roughly to cut a plate to it; measured, it is worth
// it.
TEST(Compare, cuttingAPlateToScaleNeedsAMeasuredPaper) {
  auto p = tests::two_plates();
  p.samples = 64;
  const auto chances = [&] { return *of(compare(p).shown, Way::dry).pulls.back().later; };
  const auto by_class = chances();
  EXPECT_LT(by_class.scale.short_way.parts_of_one(), 0);  // the image has shrunk: a smaller plate
  EXPECT_LT(by_class.within_scaled.parts_of_one(), 0.3);
  p.beliefs.along = Belief{.free = 0.012, .dried_in = 0.003, .free_sd = 3e-4, .dried_in_sd = 2e-4};
  p.beliefs.across = Belief{.free = 0.018, .dried_in = 0.003, .free_sd = 3e-4, .dried_in_sd = 2e-4};
  const auto measured = chances();
  EXPECT_LT(measured.within.parts_of_one(), 0.01);
  EXPECT_GT(measured.within_scaled.parts_of_one(), by_class.within_scaled.parts_of_one() + 0.3);
}

TEST(Compare, theBlankPassTakesTwoThirdsOfThePressesShare) {
  auto p = tests::two_plates();
  p.samples = 0;
  const auto by_press = [&] {
    return in_millimetres(of(compare(p).shown, Way::released).pulls.back().later->by_press);
  };
  const double without = by_press();
  p.blank_pass = true;
  EXPECT_NEAR(by_press(), without / 3, 1e-6);
  // 0.05 % over plate and margin: 300 + 130 mm.
  EXPECT_NEAR(without, 0.0005 * 430, 1e-6);
}

TEST(Compare, theAllowedMoistureIsWhereTheCornerIsAtTheTolerance) {
  const auto p = tests::two_plates();
  const auto first = at_first_pull(p, expected(p));
  const auto passage = follow(p, expected(p), first, Way::released);
  auto c = drift_case(case_at(p, passage, Way::released, 1, p.grain));
  c.nip_long = units::Strain(0);
  const auto& later = *of(demo().shown, Way::released).pulls.back().later;
  ASSERT_TRUE(later.moisture && later.moisture->driest);
  c.later = growth(passage.pulls[1].size, *later.moisture->driest);
  EXPECT_NEAR(in_millimetres(worst_corner(c)), 0.2, 1e-3);  // 0.4 mm less 0.2 of placing
  EXPECT_NEAR(later.drier->parts_of_one(),
              passage.pulls[0].mean.parts_of_one() - later.moisture->driest->parts_of_one(), 1e-9);
}

TEST(Lag, ofAPrintingIsTheWaitOfItsExpectedSheet) {
  const auto p = tests::two_plates();
  const auto lag = max_lag(p, Way::released, units::hours(12));
  const auto& later = *of(demo().shown, Way::released).pulls.back().later;
  ASSERT_TRUE(lag.bench.has_value() && later.bench.value.has_value());
  EXPECT_NEAR(units::in_minutes(*lag.bench), units::in_minutes(*later.bench.value), 1e-6);
}

TEST(Compare, unknownGrainShowsBothAndUsesTheWorse) {
  auto p = tests::two_plates();
  p.samples = 8;
  const auto known = compare(p);
  p.grain = Grain::along_short_side;
  const auto turned = compare(p);
  p.grain = Grain::unknown;
  const auto a = compare(p);
  ASSERT_TRUE(a.other.has_value());
  EXPECT_NE(a.shown.grain, a.other->grain);
  const auto& as_known = a.shown.grain == Grain::along_long_side ? known : turned;
  EXPECT_NEAR(worst(a, Way::dry), worst(as_known, Way::dry), 1e-9);
  EXPECT_LE(of(a.shown, a.best).all.parts_of_one(), of(*a.other, a.best).all.parts_of_one() + 1e-9);
}

TEST(Compare, onePlateHasOneWayAndNoMisfit) {
  auto p = tests::two_plates();
  p.plates.pop_back();
  const auto a = compare(p);
  ASSERT_EQ(a.shown.ways.size(), 1U);
  EXPECT_EQ(a.shown.ways[0].all.parts_of_one(), 1);
}

TEST(Compare, saysTheSameTwice) {
  const auto a = compare(tests::two_plates());
  EXPECT_EQ(a.shown.ways[1].all, demo().shown.ways[1].all);
  EXPECT_EQ(a.shown.ways[1].pulls[1].later->worst.high,
            demo().shown.ways[1].pulls[1].later->worst.high);
}

TEST(Compare, prefersTheWayAskedAmongEquals) {
  auto p = tests::two_plates();
  p.tolerance = units::millimetres(20);
  EXPECT_EQ(compare(p, Way::dried).best, Way::dried);
  EXPECT_EQ(compare(p).best, Way::released);
}

TEST(Finished, isSmallerDriedFreeThanUnderBoards) {
  auto p = tests::two_plates();
  p.samples = 0;
  const auto dried_by = [&](Drying drying) {
    p.drying = drying;
    return of(compare(p).shown, Way::released).finished;
  };
  const auto hung = dried_by(Drying::line);
  const auto boards = dried_by(Drying::boards);
  const auto taped = dried_by(Drying::tape);
  EXPECT_LT(hung.sheet.short_side, boards.sheet.short_side);
  EXPECT_LT(boards.sheet.short_side, taped.sheet.short_side);
  // Dried free it has lost the set of a new sheet: 0.3 % across, on 380 mm.
  p.nip = units::Strain(0);
  EXPECT_NEAR(in_millimetres(dried_by(Drying::line).sheet.short_side), 380 * (1 - 0.003), 0.2);
  EXPECT_NEAR(in_millimetres(hung.tear.short_side), 380 * (1 + 0.003), 0.2);
}

TEST(Finished, aDampImageIsSmallerThanItsPlateByTheShrinkage) {
  auto p = tests::two_plates();
  p.samples = 0;
  p.drying = Drying::line;
  p.nip = units::Strain(0);
  const auto a = compare(p);
  const auto& w = of(a.shown, Way::released);
  const auto& image = w.finished.images[0];
  const double across = w.pulls[0].across.value.parts_of_one();
  EXPECT_NEAR(in_millimetres(image.dried.short_side),
              200 * (1 + w.finished.growth.across.parts_of_one()) / (1 + across), 1e-9);
  EXPECT_LT(in_millimetres(image.dried.short_side), 199);
}

// Dried twice the same way it is the same size twice.
TEST(Finished, dryingTwiceRepeats) {
  for (const auto drying : {Drying::line, Drying::boards, Drying::tape}) {
    auto p = tests::two_plates();
    p.drying = drying;
    p.nip = units::Strain(0);
    const auto s = expected(p);
    const auto first = at_first_pull(p, s);
    const auto once = follow(p, s, first, Way::released);
    const auto twice = follow(p, s, first, Way::dried);
    EXPECT_NEAR(once.finished.across.percent(), twice.finished.across.percent(), 0.02);
    EXPECT_NEAR(once.finished.along.percent(), twice.finished.along.percent(), 0.02);
  }
}

TEST(Tissue, isCutSmallerAndLaidWithTheGrain) {
  const auto p = tests::two_plates();
  const auto s = expected(p);
  const auto passage = follow(p, s, at_first_pull(p, s), Way::released);
  const auto t = tissue_for(tests::stock("gampi, 20 g/m2"), p.plates[0], passage.pulls[0],
                            Grain::along_long_side);
  EXPECT_LT(t.cut.long_side, p.plates[0].long_side);
  EXPECT_LT(in_millimetres(t.cut.short_side), 200 * (1 - 0.01));
  EXPECT_GT(in_millimetres(t.cut.short_side), 200 * (1 - 0.02));
  EXPECT_LT(t.with, t.crossed);
}

TEST(Trapped, leavesTheHeldEdgeWhereItIs) {
  const auto p = tests::two_plates();
  auto c = case_of(p, Way::held, p.plates[0], Grain::along_long_side);
  c.first = {units::Strain(0), units::Strain(0)};
  c.later = {units::Strain(0.001), units::Strain(0.001)};
  const auto m = misfit(c);
  EXPECT_NEAR(in_millimetres(m.corner[0].long_way), 0.13, 1e-9);   // the margin's own growth
  EXPECT_NEAR(in_millimetres(m.corner[0].short_way), -0.1, 1e-9);  // shared: half of 20 cm each way
  EXPECT_NEAR(in_millimetres(m.edge[1].short_way), 0, 1e-9);
}

TEST(Laid, aPlateLaidToTheImageForgetsTheMargin) {
  auto p = tests::two_plates();
  EXPECT_NEAR(in_millimetres(case_of(p, Way::released, p.plates[0], p.grain).margin_long), 130,
              1e-9);
  p.laid = Laid::plate;
  EXPECT_EQ(in_millimetres(case_of(p, Way::released, p.plates[0], p.grain).margin_long), 0);
}

TEST(Compare, refusesNonsense) {
  auto p = tests::two_plates();
  p.plates.clear();
  EXPECT_THROW((void)compare(p), std::invalid_argument);
  p = tests::two_plates();
  p.sheet_long = units::millimetres(1);
  EXPECT_THROW((void)compare(p), units::OutOfRange);
}

}  // namespace
}  // namespace dampline::size
