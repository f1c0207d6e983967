#include <cmath>

#include <gtest/gtest.h>

#include "papers.hpp"

namespace dampline::method {
namespace {

using material::Sizing;
using tests::cotton;
using tests::stage;

const air::Climate studio;

double soaked(const Sheet& sheet, double minutes, double celsius = 20) {
  Stage tub = stage(Arrangement::tub, units::minutes(minutes));
  tub.water = units::celsius(celsius);
  const Stage stages[] = {tub};
  return tests::mean(run(sheet, conditioned(sheet, studio), stages, studio));
}

// Uptake of an immersed sheet against M = a + A sqrt(t - delay) per face, with the A of the sheet's
// own Cobb value, A = (Cobb - a)/sqrt(60 - delay), a = 8 g/m2 of surface hollows: a lumped law made
// for this project, not a measurement. Within a factor 1.5 up to 80 % full, from 30 s on: before,
// the hollows, which the stack does not carry, are most of the law's water.
TEST(Soak, followsTheLumpedLaw) {
  const double hollows = 8;
  for (const Sizing sizing : {Sizing::soft, Sizing::internal, Sizing::hard, Sizing::tub}) {
    for (const double grammage : {250.0, 300.0, 350.0}) {
      const material::Stock stock = cotton(sizing, grammage);
      const Sheet sheet = sheet_of(stock);
      const double delay = units::in_si(stock.wetting_delay.value);
      const double rate =
          (units::in_grams_per_m2(stock.cobb60.value) - hollows) / std::sqrt(60 - delay);
      const double dry = sheet.porous->dry * 1e3;
      const double start = sample_of(conditioned(sheet, studio)).mean.parts_of_one();
      int compared = 0;
      for (const double minutes : {0.5, 1.0, 2.0, 4.0, 8.0, 15.0, 30.0, 60.0}) {
        const double law = hollows + rate * std::sqrt(60 * minutes - delay);
        const double full = (sheet.porous->saturation - start) * dry / 2;
        if (law > 0.8 * full) break;
        const double got = (soaked(sheet, minutes) - start) * dry / 2;
        EXPECT_GT(got / law, 1 / 1.5)
            << grammage << " g/m2, " << minutes << " min, sizing " << static_cast<int>(sizing);
        EXPECT_LT(got / law, 1.5) << grammage << " g/m2, " << minutes << " min, sizing "
                                  << static_cast<int>(sizing);
        ++compared;
      }
      EXPECT_GT(compared, 0);
    }
  }
}

TEST(Soak, heavierAndHarderSheetsAreSlower) {
  const auto filled = [&](Sizing sizing, double grammage) {
    const Sheet sheet = sheet_of(cotton(sizing, grammage));
    return soaked(sheet, 3) / sheet.porous->saturation;
  };
  EXPECT_GT(filled(Sizing::internal, 180), filled(Sizing::internal, 300));
  EXPECT_GT(filled(Sizing::internal, 300), filled(Sizing::internal, 400));
  EXPECT_GT(filled(Sizing::soft, 300), filled(Sizing::internal, 300));
  EXPECT_GT(filled(Sizing::internal, 300), filled(Sizing::hard, 300));
  EXPECT_GT(filled(Sizing::waterleaf, 300), 0.99);
}

TEST(Soak, warmWaterIsQuickerButEndsAtTheSameLevel) {
  const Sheet sheet = sheet_of(cotton(Sizing::hard, 300));
  EXPECT_GT(soaked(sheet, 3, 40), soaked(sheet, 3, 10));
  EXPECT_NEAR(soaked(sheet, 600, 40), soaked(sheet, 600, 10), 1e-3);
}

// [vitale1992]: soaked 2 h, drip taken by a blotter, seven old papers: 1.33 g/g (0.92-1.94). Only a
// waterleaf sheet of the model comes there; a sized one levels off lower by assumption.
TEST(Soak, unsizedSheetsHoldWhatOldPapersHeld) {
  const double unsized = soaked(sheet_of(cotton(Sizing::waterleaf, 250)), 120);
  EXPECT_GT(unsized, 0.92);
  EXPECT_LT(unsized, 1.94);
}

TEST(Soak, balanceClosesOnLongMixedDays) {
  for (const material::Stock& stock : tests::catalogue().stocks) {
    SCOPED_TRACE(stock.name);
    const Sheet sheet = sheet_of(stock);
    std::vector<Stage> stages = soak_blot_rest(units::minutes(30), 2, units::minutes(30));
    stages.push_back(stage(Arrangement::bench, units::minutes(20)));
    Stage mist = stage(Arrangement::film, units::minutes(2));
    mist.film = units::grams_per_m2(30);
    stages.push_back(mist);
    Stage sponge = mist;
    sponge.film_faces = 1;
    stages.push_back(sponge);
    Stage pack = stage(Arrangement::pack, units::hours(1));
    pack.neighbours = {units::Moisture(0.1), units::Moisture(0.3)};
    stages.push_back(pack);
    stages.push_back(stage(Arrangement::press, units::seconds(3)));
    Stage boards = stage(Arrangement::boards, units::hours(6));
    boards.passes = 3;
    stages.push_back(boards);
    stages.push_back(stage(Arrangement::towel, units::minutes(1)));
    stages.push_back(stage(Arrangement::tub, units::minutes(10)));
    stages.push_back(stage(Arrangement::tub, units::minutes(5)));
    stages.push_back(stage(Arrangement::hang, units::hours(5)));
    stages.push_back(stage(Arrangement::rack, units::hours(60)));
    const History h = run(sheet, conditioned(sheet, studio), stages, studio);
    EXPECT_LT(h.balance_error, 1e-9);
    for (const Sample& s : h.curve) {
      ASSERT_GE(s.driest.parts_of_one(), 0);
      ASSERT_LE(s.wettest.parts_of_one(), sheet.porous->saturation + 1e-12);
      ASSERT_GE(units::in_si(s.film), 0);
    }
    EXPECT_EQ(h.ends.size(), stages.size());
    EXPECT_NEAR(units::in_si(h.curve.back().at), units::in_si(h.ends.back().at), 1e-6);
  }
}

// The promise of the design: 300 g/m2, internal size, 30 min soak, two blots, 20 degC, 50 %.
TEST(Soak, theUsualSheetClosesItsBalance) {
  const Sheet sheet = sheet_of(cotton(Sizing::internal, 300));
  const History h = run(sheet, conditioned(sheet, studio),
                        soak_blot_rest(units::minutes(30), 2, units::minutes(30)), studio);
  EXPECT_LT(h.balance_error, 1e-9);
  EXPECT_GT(tests::mean(h), 0.4);
  EXPECT_LT(tests::mean(h), 0.8);
}

// The same stages in pieces, resumed from the states between, end where one run ends.
TEST(Soak, canBeResumedFromAnyState) {
  const Sheet sheet = sheet_of(cotton(Sizing::internal, 300));
  const auto stages = soak_blot_rest(units::minutes(20), 2, units::minutes(20));
  const History whole = run(sheet, conditioned(sheet, studio), stages, studio);
  State state = conditioned(sheet, studio);
  for (const Stage& s : stages) state = run(sheet, state, std::span(&s, 1), studio).end;
  EXPECT_NEAR(sample_of(state).mean.parts_of_one(), tests::mean(whole), 1e-12);
}

TEST(Soak, theMeanStaysWithinTenThousandthsOfConverged) {
  auto stages = soak_blot_rest(units::minutes(30), 2, units::minutes(30));
  stages.push_back(stage(Arrangement::bench, units::hours(12)));
  for (const material::Stock& stock : tests::catalogue().stocks) {
    SCOPED_TRACE(stock.name);
    const Sheet sheet = sheet_of(stock);
    const auto means = [&](double tolerance) {
      RunOptions o;
      o.tolerance = tolerance;
      o.sample_every = units::minutes(2);
      return run(sheet, conditioned(sheet, studio), stages, studio, o).curve;
    };
    const auto exact = means(1e-8);
    const auto usual = means(RunOptions{}.tolerance);
    ASSERT_EQ(exact.size(), usual.size());
    for (std::size_t i = 0; i < exact.size(); ++i) {
      EXPECT_NEAR(usual[i].mean.parts_of_one(), exact[i].mean.parts_of_one(), 1e-4)
          << units::in_minutes(exact[i].at) << " min";
    }
  }
}

}  // namespace
}  // namespace dampline::method
