#include <gtest/gtest.h>

#include <dampline/method/catcher.hpp>
#include <dampline/units/out_of_range.hpp>

#include "papers.hpp"

namespace dampline::method {
namespace {

using material::Sizing;
using tests::cotton;

const air::Climate studio;

Sheet paper() {
  return sheet_of(cotton(Sizing::internal, 300), units::centimetres(38), units::centimetres(50));
}

State damp(const Sheet& sheet, double moisture, double film_g_m2 = 0) {
  State s = evenly(sheet, units::Moisture(moisture));
  s.film_upper = s.film_lower = film_g_m2 * 1e-3;
  return s;
}

double grams(units::Grammage g) { return units::in_grams_per_m2(g); }

// `assumed`: 5 to 30 g/m2 leaves a sheet of 0.6 g/g in a pass, less when well blotted. It is so by
// the time the felts are lifted; the three seconds under the roller alone take 3.
TEST(Catcher, aPullTakesAFewGrams) {
  const Sheet sheet = paper();
  const auto taken = [&](double u, double film = 0) {
    return grams(catcher_forecast(sheet, damp(sheet, u, film), studio, {}, 1).pulls[0].taken);
  };
  EXPECT_GT(taken(0.60), 5);
  EXPECT_LT(taken(0.78, 10), 30);
  EXPECT_LT(taken(0.45), 5);
  EXPECT_GT(taken(0.60), taken(0.45));
  EXPECT_GT(taken(0.78, 10), taken(0.78));
  PressHabits at_once;
  at_once.lying = units::seconds(0);
  EXPECT_LT(grams(catcher_forecast(sheet, damp(sheet, 0.6), studio, at_once, 1).pulls[0].taken), 5);
}

TEST(Catcher, waterGoesWhereItCan) {
  const Sheet sheet = paper();
  const auto f = catcher_forecast(sheet, damp(sheet, 0.6), studio, {}, 12);
  for (const CatcherPull& p : f.pulls) {
    EXPECT_GT(p.into_felt, units::Grammage{});
    EXPECT_LT(p.into_felt, p.taken);  // the newsprint keeps the rest
    EXPECT_NEAR((units::Moisture(0.6) - p.sheet).parts_of_one() * sheet.porous->dry * 1e3,
                grams(p.taken), 1e-9);
  }
  EXPECT_GT(f.pulls[11].felt, f.pulls[0].felt);
  PressHabits bare;
  bare.newsprint = 0;
  for (const CatcherPull& p : catcher_forecast(sheet, damp(sheet, 0.6), studio, bare, 3).pulls) {
    EXPECT_NEAR(grams(p.into_felt), grams(p.taken), 1e-9);
  }
  bare.plate_share = 0.5;
  const auto small = catcher_forecast(sheet, damp(sheet, 0.6), studio, bare, 1).pulls[0];
  EXPECT_NEAR(grams(small.into_felt), 0.5 * grams(small.taken), 1e-9);
}

int swap_after(const State& state, const PressHabits& habits, const Sheet& sheet = paper()) {
  return catcher_forecast(sheet, state, studio, habits, 60).swap_after.value_or(61);
}

// Common practice, no published source: swap after 8 to 15 medium damp pulls, sooner when wet.
TEST(Catcher, isSwappedWhenPracticeSwapsIt) {
  const Sheet sheet = paper();
  for (const double u : {0.55, 0.60, 0.65}) {
    SCOPED_TRACE(u);
    const int pulls = swap_after(damp(sheet, u), {});
    EXPECT_GE(pulls, 8);
    EXPECT_LE(pulls, 15);
  }
  EXPECT_LT(swap_after(damp(sheet, 0.78, 10), {}), swap_after(damp(sheet, 0.60), {}));
  PressHabits padded;
  padded.newsprint = 2;
  EXPECT_GT(swap_after(damp(sheet, 0.60), padded), 15);  // a second newsprint puts it off
}

// The assumed humidity at which a felt is clammy, and the contact in the nip, move the count.
TEST(Catcher, countMovesWithWhatIsAssumed) {
  const Sheet sheet = paper();
  const State medium = damp(sheet, 0.60);
  PressHabits sooner;
  sooner.clammy = units::RelativeHumidity(0.80);
  PressHabits later;
  later.clammy = units::RelativeHumidity(0.90);
  EXPECT_LE(swap_after(medium, sooner), swap_after(medium, {}));
  EXPECT_GE(swap_after(medium, later), swap_after(medium, {}));
  EXPECT_GE(swap_after(medium, sooner), 8);
  EXPECT_LE(swap_after(medium, later), 20);
  Sheet closer = sheet;
  closer.contact_scale = 2;
  Sheet looser = sheet;
  looser.contact_scale = 0.5;
  EXPECT_LT(swap_after(medium, {}, closer), swap_after(medium, {}, looser));
}

// What spares a felt: newsprint fresh at every pull puts the swap off, airing does away with it.
TEST(Catcher, isSparedByFreshNewsprintAndByAir) {
  const Sheet sheet = paper();
  PressHabits fresh;
  fresh.newsprint_pulls = 1;
  EXPECT_GT(swap_after(damp(sheet, 0.6), fresh), 2 * swap_after(damp(sheet, 0.6), {}));
  PressHabits aired;
  aired.aired = true;
  const auto f = catcher_forecast(sheet, damp(sheet, 0.6), studio, aired, 40);
  EXPECT_FALSE(f.swap_after.has_value());
  EXPECT_LT(f.pulls[39].felt.parts_of_one(), 0.15);
}

TEST(Catcher, dampRoomsAndQuickPullsWetItSooner) {
  const Sheet sheet = paper();
  PressHabits bare;
  bare.newsprint = 0;
  bare.aired = true;
  const auto felt = [&](const air::Climate& room, double cycle) {
    PressHabits h = bare;
    h.cycle = units::minutes(cycle);
    return catcher_forecast(sheet, damp(sheet, 0.6), room, h, 15).pulls.back().felt;
  };
  air::Climate cellar = studio;
  cellar.temperature = units::celsius(16);
  cellar.humidity = units::RelativeHumidity(0.75);
  EXPECT_GT(felt(cellar, 20), felt(studio, 20));
  EXPECT_GT(felt(studio, 8), felt(studio, 20));
  PressHabits fresh;
  fresh.newsprint_pulls = 1;
  EXPECT_GT(catcher_forecast(sheet, damp(sheet, 0.6), cellar, {}, 15).pulls.back().felt,
            catcher_forecast(sheet, damp(sheet, 0.6), cellar, fresh, 15).pulls.back().felt);
}

TEST(Catcher, refusesWhatNoPressDoes) {
  const Sheet sheet = paper();
  const State s = damp(sheet, 0.6);
  EXPECT_THROW(static_cast<void>(catcher_forecast(sheet, s, studio, {}, 0)), units::OutOfRange);
  PressHabits h;
  h.newsprint = 9;
  EXPECT_THROW(static_cast<void>(catcher_forecast(sheet, s, studio, h)), units::OutOfRange);
  h = {};
  h.nip = units::seconds(0);
  EXPECT_THROW(static_cast<void>(catcher_forecast(sheet, s, studio, h)), units::OutOfRange);
  h = {};
  h.plate_share = 2;
  EXPECT_THROW(static_cast<void>(catcher_forecast(sheet, s, studio, h)), units::OutOfRange);
}

}  // namespace
}  // namespace dampline::method
