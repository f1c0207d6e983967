#include <cmath>

#include <gtest/gtest.h>

#include <dampline/material/catalogue.hpp>
#include <dampline/size/register.hpp>
#include <dampline/units/out_of_range.hpp>

#include "support/reference_table.hpp"

namespace dampline::size {
namespace {

using units::in_millimetres;
using units::millimetres;
using units::Strain;

RegisterCase shrunk_sheet() {
  return {.long_side = millimetres(300),
          .short_side = millimetres(200),
          .first = {Strain::from_percent(0.6), Strain::from_percent(1.2)},
          .later = {Strain::from_percent(0.5), Strain::from_percent(1.0)},
          .grain = Grain::along_long_side,
          .locate = Locate::corner,
          .placing = millimetres(0.2),
          .tolerance = millimetres(0.5)};
}

// By hand: 300 mm x 0.1 % / 1.006 along, 200 mm x 0.2 % / 1.012 across.
TEST(Misfit, isLengthTimesTheChangeOfGrowth) {
  const auto m = misfit(shrunk_sheet());
  EXPECT_NEAR(in_millimetres(m.along), 0.3 / 1.006, 1e-9);
  EXPECT_NEAR(in_millimetres(m.across), 0.4 / 1.012, 1e-9);
  EXPECT_NEAR(in_millimetres(m.worst), std::hypot(0.3 / 1.006, 0.4 / 1.012), 1e-9);
  EXPECT_EQ(in_millimetres(m.corner[0].long_way), 0);
  EXPECT_LT(in_millimetres(m.corner[3].short_way), 0);  // the old image has shrunk
}

TEST(Misfit, ofAnUnchangedSheetIsNothing) {
  auto c = shrunk_sheet();
  c.later = c.first;
  c.placing = millimetres(0);
  const auto m = misfit(c);
  EXPECT_EQ(in_millimetres(m.worst), 0);
  EXPECT_EQ(m.within.parts_of_one(), 1);
}

TEST(Misfit, centringHalvesIt) {
  auto c = shrunk_sheet();
  const double corner = in_millimetres(misfit(c).worst);
  c.locate = Locate::centre;
  EXPECT_NEAR(in_millimetres(misfit(c).worst), corner / 2, 1e-9);
  c.locate = Locate::edge;
  const auto edge = misfit(c);
  EXPECT_NEAR(in_millimetres(edge.along), 0.15 / 1.006, 1e-9);
  EXPECT_NEAR(in_millimetres(edge.across), 0.4 / 1.012, 1e-9);
}

TEST(Misfit, aMarginToTheLocatingCornerAdds) {
  auto c = shrunk_sheet();
  c.margin_long = millimetres(100);
  EXPECT_NEAR(in_millimetres(misfit(c).along), 0.4 / 1.006, 1e-9);
}

TEST(Misfit, unknownGrainGivesTheWorseWay) {
  auto c = shrunk_sheet();
  const auto long_way = misfit(c);
  c.grain = Grain::along_short_side;
  const auto short_way = misfit(c);
  c.grain = Grain::unknown;
  const auto unknown = misfit(c);
  EXPECT_EQ(unknown.worst, std::max(long_way.worst, short_way.worst));
  EXPECT_TRUE(unknown.grain_across_long);  // 300 mm lie across the grain then
  EXPECT_NEAR(in_millimetres(short_way.across), 300 * 0.002 / 1.012, 1e-9);
  c.grain = Grain::none;
  EXPECT_LT(misfit(c).worst, unknown.worst);
}

// With the sheet unchanged the chance is that of a normal error inside a circle: 1 - exp(-t2/2s2).
TEST(Chance, ofPlacingAloneIsTheRayleighLaw) {
  auto c = shrunk_sheet();
  c.later = c.first;
  for (const double tolerance : {0.05, 0.2, 0.5, 1.0}) {
    c.tolerance = millimetres(tolerance);
    EXPECT_NEAR(misfit(c).within.parts_of_one(), 1 - std::exp(-0.5 * std::pow(tolerance / 0.2, 2)),
                1e-5)
        << tolerance;
  }
}

// Against the plain definition: placing errors drawn on a fine grid and counted.
TEST(Chance, agreesWithTheCountedDefinition) {
  for (const auto locate : {Locate::corner, Locate::edge, Locate::centre}) {
    auto c = shrunk_sheet();
    c.locate = locate;
    const auto m = misfit(c);
    double inside = 0;
    double all = 0;
    const double s = 0.2;
    for (double x = -1; x <= 1; x += 0.004) {
      for (double y = -1; y <= 1; y += 0.004) {
        const double weight = std::exp(-0.5 * (x * x + y * y) / (s * s));
        all += weight;
        bool fits = true;
        for (const auto& corner : m.corner) {
          fits = fits && std::hypot(in_millimetres(corner.long_way) + x,
                                    in_millimetres(corner.short_way) + y) <= 0.5;
        }
        if (fits) inside += weight;
      }
    }
    EXPECT_NEAR(m.within.parts_of_one(), inside / all, 1e-3);
  }
}

TEST(Chance, fallsWithMisfitAndRisesWithTolerance) {
  auto c = shrunk_sheet();
  double last = 2;
  for (double later = 1.2; later > 0.6; later -= 0.05) {
    c.later.across = Strain::from_percent(later);
    const double now = misfit(c).within.parts_of_one();
    EXPECT_LE(now, last);
    last = now;
  }
  c.later.across = Strain::from_percent(0.2);
  EXPECT_LT(misfit(c).within.parts_of_one(), 1e-6);
}

SheetSize demo_sheet() {
  static const auto read =
      material::read_catalogue(tests::repository_file("data/stocks.toml"), "stocks.toml");
  auto sheet = new_sheet(*material::find_stock(std::get<material::Catalogue>(read),
                                               "mould-made cotton, internal size, 300 g/m2"));
  wet(sheet, units::Moisture(0.8));
  return sheet;
}

TEST(AllowedDifference, bringsTheWorstCornerToTheTolerance) {
  auto c = shrunk_sheet();
  const auto sheet = demo_sheet();
  const units::Moisture first(0.45);
  const auto drier = allowed_moisture_difference(c, sheet, first, true);
  ASSERT_TRUE(drier.has_value());
  c.first = growth(sheet, first);
  c.later = growth(sheet, first - *drier);
  EXPECT_NEAR(in_millimetres(misfit(c).worst), 0.5, 1e-6);
  c.tolerance = millimetres(0.25);
  EXPECT_LT(*allowed_moisture_difference(c, sheet, first, true), *drier);
}

TEST(AllowedDifference, isUnlimitedForASmallPlateGettingWetter) {
  auto c = shrunk_sheet();
  c.long_side = millimetres(30);
  c.short_side = millimetres(20);
  EXPECT_FALSE(
      allowed_moisture_difference(c, demo_sheet(), units::Moisture(0.6), false).has_value());
}

TEST(Misfit, refusesNonsense) {
  auto c = shrunk_sheet();
  c.long_side = millimetres(0);
  EXPECT_THROW((void)misfit(c), units::OutOfRange);
  c = shrunk_sheet();
  c.tolerance = millimetres(-1);
  EXPECT_THROW((void)misfit(c), units::OutOfRange);
  c = shrunk_sheet();
  c.placing = millimetres(std::nan(""));
  EXPECT_THROW((void)misfit(c), units::OutOfRange);
}

}  // namespace
}  // namespace dampline::size
