#include <cmath>

#include <gtest/gtest.h>

#include <dampline/size/strain.hpp>

#include "size/papers.hpp"

namespace dampline::size {
namespace {

using tests::reference_table;
using tests::stock;

// [deruvo1973] (abstract read): slope times stiffness is about the same in every direction, so that
// the tensile ratio is about the ratio of growths. Machine paper grows across by more than twice
// that: a miss, kept in sight.
TEST(DirectionRule, holdsForHandAndMouldAndMissesMachinePaper) {
  const auto table = reference_table("tensile_ratio.csv");
  for (const auto& row : table) {
    SCOPED_TRACE(row.field[0]);
    const auto& s = stock(row.field[1]);
    const double ratio = s.across.free.value.parts_of_one() / s.along.free.value.parts_of_one();
    EXPECT_GE(ratio, row.cell[2]);  // as a floor it holds for all three
    if (row.field[0] == "machine-made") {
      EXPECT_NEAR(ratio / row.cell[2], 2.2, 0.1);
    } else {
      EXPECT_LE(ratio, row.cell[2] * (1 + table.allowed));
    }
  }
}

// The rule in the measurements themselves: within a third.
TEST(DirectionRule, isAsGoodAsTheSheetsItWasSeenOn) {
  for (const auto& row : reference_table("oriented_slopes.csv")) {
    const double product = (row.cell[3] / row.cell[2]) * row.cell[4];
    EXPECT_GT(product, 1);
    EXPECT_LT(product, 1.35);
  }
}

// Open measurements: inside the class's range, with the tester's own uncertainty.
TEST(GrowthClasses, rangesHoldTheMeasuredSlopes) {
  const double span = 0.50 - swelling_water_si(0.07, 0.50);
  for (const char* file : {"hygroexpansion.csv", "oriented_slopes.csv"}) {
    const auto table = reference_table(file);
    for (const auto& row : table) {
      SCOPED_TRACE(std::string(file) + ": " + row.field[0]);
      const auto& s = stock(row.field[1]);
      const auto inside = [&](const material::Growth& g, double measured) {
        EXPECT_GE(measured, (g.free.low - g.dried_in.high).parts_of_one() / span - table.allowed);
        EXPECT_LE(measured, (g.free.high - g.dried_in.low).parts_of_one() / span + table.allowed);
      };
      inside(s.across, row.cell[2]);
      inside(s.along, row.cell[3]);
    }
  }
}

TEST(GrowthClasses, rangesHoldWhatIsKnownAcrossAlone) {
  const auto table = reference_table("growth_across.csv");
  for (const auto& row : table) {
    const auto& g = stock(row.field[1]).across;
    EXPECT_NEAR((g.free.value - g.dried_in.value).percent(), row.cell[2], table.allowed);
  }
}

// Of the four soaked papers the class's own value, range apart, meets two; the other two lie in the
// range only. Kept in sight: measured less modelled, per cent of length.
TEST(GrowthClasses, missTheSoakedPapersByThis) {
  const double miss_across[] = {1.17, -0.03, 0.63, -0.50};
  const double miss_along[] = {-0.63, -0.10, 0.57, 0.10};
  const auto table = reference_table("immersion_growth.csv");
  for (std::size_t i = 0; i < table.rows.size(); ++i) {
    const auto& row = table.rows[i];
    const auto& s = stock(row.field[1]);
    const auto soaked = [](const material::Growth& g) {
      return (g.free.value - g.dried_in.value).percent();
    };
    EXPECT_NEAR(row.cell[2] - soaked(s.across), miss_across[i], 0.005) << row.field[0];
    EXPECT_NEAR(row.cell[3] - soaked(s.along), miss_along[i], 0.005) << row.field[0];
  }
}

// What a sheet loses at its first wetting and drying: along within the range of what was dried in,
// across beyond it, for the paper measured carried a coat of albumen.
TEST(DriedAgain, losesWhatWasDriedInAndMissesTheCoatedPaperAcross) {
  const auto table = reference_table("dried_again.csv");
  const auto& row = table.rows.front();
  const auto& s = stock(row.field[1]);
  EXPECT_LE(-row.cell[5], s.along.dried_in.high.percent() + table.allowed);
  EXPECT_GE(-row.cell[4], s.along.dried_in.low.percent() - table.allowed);
  EXPECT_LE(-row.cell[2], s.across.dried_in.high.percent() + table.allowed);
  EXPECT_NEAR(-row.cell[3] - s.across.dried_in.high.percent(), 0.2, 0.01);
}

// Moisture at which a share of the shrinkage is done.
double when_done(double share) {
  double low = 0.07;
  double high = 4;
  for (int i = 0; i < 60; ++i) {
    const double u = 0.5 * (low + high);
    (dryness_si(u, 0.50, 0.07) < share ? high : low) = u;
  }
  return low;
}

// A tenth of the shrinkage is done where papers drying in air were seen to begin; a twentieth, by
// which they may have begun, is done wetter than that: the law bends too softly. After a bath or a
// humidity chamber the onset was elsewhere, and one curve cannot be in three places.
TEST(Onset, isMetInAirOnlyRoughly) {
  const auto table = reference_table("shrinkage_onset.csv");
  EXPECT_GE(when_done(0.10), table.rows[0].cell[2]);
  EXPECT_LE(when_done(0.10), table.rows[0].cell[3]);
  EXPECT_NEAR(when_done(0.05), 0.76, 0.02);
  EXPECT_NEAR(dryness_si(table.rows[0].cell[1], 0.50, 0.07), 0.115, 0.005);
  EXPECT_LT(when_done(0.05), table.rows[1].cell[2]);
  EXPECT_GT(when_done(0.10), table.rows[2].cell[3]);
}

}  // namespace
}  // namespace dampline::size
