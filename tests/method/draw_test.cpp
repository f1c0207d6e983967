#include <algorithm>
#include <cmath>

#include <gtest/gtest.h>

#include <dampline/method/draw.hpp>

#include "papers.hpp"

namespace dampline::method {
namespace {

TEST(Draw, isTheSameForTheSameSeed) {
  const auto a = draws(64, 7);
  const auto b = draws(64, 7);
  const auto longer = draws(128, 7);
  const auto other = draws(64, 8);
  for (std::size_t i = 0; i < a.size(); ++i) {
    EXPECT_EQ(a[i].cobb, b[i].cobb);
    EXPECT_EQ(a[i].timing, longer[i].timing);
  }
  EXPECT_NE(a[3].cobb, other[3].cobb);
}

TEST(Draw, isStandardNormalInEveryDirection) {
  const auto all = draws(1024, 1);
  for (const auto field :
       {&Draw::cobb, &Draw::accessible, &Draw::pores, &Draw::vapour, &Draw::grammage,
        &Draw::contact, &Draw::air, &Draw::humidity, &Draw::timing}) {
    double sum = 0;
    double squares = 0;
    int below = 0;
    for (const Draw& d : all) {
      sum += d.*field;
      squares += d.*field * (d.*field);
      below += d.*field < -1.2815515655446004 ? 1 : 0;
    }
    EXPECT_NEAR(sum / 1024, 0, 0.01);
    EXPECT_NEAR(squares / 1024, 1, 0.02);
    EXPECT_NEAR(below / 1024.0, 0.1, 0.005);
  }
}

TEST(Draw, readsRangesAsTenAndNinetyPercent) {
  const double ninety = 1.2815515655446004;
  EXPECT_NEAR(quantile_si(32, 22, 50, -ninety), 22, 1e-12);
  EXPECT_NEAR(quantile_si(32, 22, 50, 0), 32, 1e-12);
  EXPECT_NEAR(quantile_si(32, 22, 50, ninety), 50, 1e-12);
  EXPECT_EQ(quantile_si(0, 0, 0, 1), 0);
  EXPECT_EQ(quantile_si(32, 22, 50, 100), quantile_si(32, 22, 50, 2.5));
}

TEST(Draw, makesSheetsThatCanBeRun) {
  const material::Stock stock = tests::cotton(material::Sizing::internal, 300);
  const air::Climate studio;
  double driest = 9;
  double wettest = 0;
  for (const Draw& d : draws(32, 3)) {
    const Sheet sheet = drawn(stock, d);
    const auto stages = drawn(soak_blot_rest(units::minutes(30), 2, units::minutes(30)), d);
    const History h = run(sheet, conditioned(sheet, studio), stages, drawn(studio, d));
    EXPECT_LT(h.balance_error, 1e-9);
    driest = std::min(driest, tests::mean(h));
    wettest = std::max(wettest, tests::mean(h));
  }
  EXPECT_GT(wettest - driest, 0.15);  // how wet a blotted sheet is, is the least known of all
}

TEST(Draw, zeroIsTheStockItself) {
  const material::Stock stock = tests::cotton(material::Sizing::soft, 250);
  const Sheet a = drawn(stock, Draw{});
  const Sheet b = sheet_of(stock);
  EXPECT_NEAR(a.porous->liquid / b.porous->liquid, 1, 1e-9);
  EXPECT_EQ(a.air_scale, 1);
}

}  // namespace
}  // namespace dampline::method
