#include <cmath>

#include <gtest/gtest.h>

#include "validation/baseline.hpp"
#include "validation/check.hpp"
#include "validation/head.hpp"
#include "validation/page.hpp"
#include "validation/picture.hpp"

namespace dampline::validation {
namespace {

Check of(std::vector<Point> points, Measure measure = Measure::relative) {
  Check c;
  c.id = "some";
  c.title = "Some";
  c.room = "air";
  c.quantity = "loss";
  c.measure = measure;
  c.series = {{"", std::move(points)}};
  return c;
}

Point at(double data, double model) { return {.x = data, .data = data, .model = model}; }

// ln ratios ln 1.1, 0, -ln 1.1: no bias, and a standard deviation of ln 1.1.
TEST(Judge, biasAndScatterAreThoseOfTheLogarithms) {
  const auto v = judge(of({at(10, 11), at(20, 20), at(11, 10)}));
  EXPECT_EQ(v.n, 3);
  EXPECT_NEAR(v.bias, 0, 1e-12);
  EXPECT_NEAR(v.scatter, std::log(1.1), 1e-12);
}

TEST(Judge, differencesAreInTheUnit) {
  const auto v = judge(of({at(10, 11), at(20, 22), at(30, 33)}, Measure::difference));
  EXPECT_NEAR(v.bias, 2, 1e-12);
  EXPECT_NEAR(v.scatter, 1, 1e-12);
  EXPECT_NEAR(v.worst, 3, 1e-12);
}

TEST(Judge, aBoundIsMissedByThePointsBeyondIt) {
  auto c = of({at(10, 10.4), at(10, 9.6), at(10, 10.6)});
  EXPECT_FALSE(judge(c).bound);
  c.allowed = 0.05;
  EXPECT_EQ(judge(c).outside, 1);
  EXPECT_FALSE(judge(c).meets());
  c.allowed = 0.07;
  EXPECT_TRUE(judge(c).meets());
}

TEST(Judge, withoutABoundTwiceTheDatasOwnUncertaintyIsOne) {
  auto c = of({at(10, 10.4), at(10, 9.3)});
  c.own = 0.02;
  EXPECT_EQ(judge(c).outside, 1);
}

TEST(Judge, rangesHoldWhatLiesInsideThem) {
  auto c = of({{.data_low = 1, .data_high = 2, .model = 1.9},
               {.data_low = 1, .data_high = 2, .model = 2.1}},
              Measure::factor);
  c.rule = Rule::inside;
  EXPECT_EQ(judge(c).outside, 1);
  c.allowed = 1.1;
  EXPECT_EQ(judge(c).outside, 0);
}

TEST(Judge, rmsIsHeldSeriesBySeries) {
  auto c = of({at(1, 1.1), at(1, 0.9)}, Measure::difference);
  c.series.push_back({"worse", {at(1, 1.3), at(1, 0.9)}});
  c.rule = Rule::rms;
  c.allowed = 0.11;
  EXPECT_EQ(judge(c).outside, 1);
}

// Bias 0, scatter 0.1, data 0.08: the model's own part is 0.06, so no better than the data's.
TEST(Judge, noModelIsShownToBeBetterThanTheData) {
  auto c = of({at(1, std::exp(0.1)), at(1, 1), at(1, std::exp(-0.1))});
  c.own = 0.08;
  EXPECT_NEAR(model_scatter(c, judge(c)), 0.08, 1e-12);
  c.own = 0.06;
  EXPECT_NEAR(model_scatter(c, judge(c)), 0.08, 1e-12);
}

TEST(Judge, refusesAModelWithoutAValue) {
  EXPECT_THROW((void)judge(of({at(1, std::nan(""))})), std::runtime_error);
  EXPECT_THROW((void)judge(of({{.model = 1}})), std::runtime_error);
}

TEST(Judge, aPredictionNeedsNoDataAndHasNoVerdict) {
  auto c = of({{.model = 1}});
  c.prediction = true;
  EXPECT_EQ(judge(c).n, 0);
  EXPECT_FALSE(judge(c).bound);
}

TEST(Baseline, aDriftShowsAndNoiseDoesNot) {
  auto c = of({at(10, 11), at(20, 20), at(11, 10)});
  const auto kept = baseline({c});
  EXPECT_TRUE(drift({c}, kept).empty());
  c.series[0].points[1].model *= 1 + 1e-4;
  EXPECT_TRUE(drift({c}, kept).empty());
  c.series[0].points[1].model *= 1.01;
  EXPECT_EQ(drift({c}, kept).size(), 1U);
}

TEST(Baseline, aCheckThatComesOrGoesShows) {
  auto c = of({at(10, 11)});
  const auto kept = baseline({c});
  c.id = "other";
  EXPECT_EQ(drift({c}, kept).size(), 2U);
}

TEST(Baseline, theVerdictIsKept) {
  auto c = of({at(10, 10.4)});
  c.allowed = 0.05;
  const auto kept = baseline({c});
  c.allowed = 0.03;
  EXPECT_EQ(drift({c}, kept).size(), 1U);
}

TEST(Page, theOverviewIsHeldToItsLastDigits) {
  const std::string was = "| [Loss](#loss) | 5 | +3.2 % | meets |\n";
  EXPECT_TRUE(overview_drift("| [Loss](#loss) | 5 | +3.3 % | meets |\n", was).empty());
  EXPECT_EQ(overview_drift("| [Loss](#loss) | 5 | +3.5 % | meets |\n", was).size(), 1U);
  EXPECT_EQ(overview_drift("| [Loss](#loss) | 5 | +3.2 % | misses |\n", was).size(), 1U);
}

TEST(Page, aTablesHeadIsReadWhole) {
  const auto head = head_of("wet_sheet_climates.csv");
  EXPECT_EQ(head.title.substr(0, 25), "Loss of a whole wet sheet");
  EXPECT_NE(head.source.find("no measured drying curve of paper was found"), std::string::npos);
  EXPECT_EQ(head.allowed.substr(0, 13), "0.05 relative");
  EXPECT_EQ(keys_in("see [crank1975] eq. 4, [not a key] and [iso535]"),
            (std::vector<std::string>{"crank1975", "iso535"}));
}

TEST(Picture, wordsAreEscaped) {
  auto c = of({at(10, 11), at(20, 20)});
  c.title = "a < b & c";
  const auto svg = picture(c);
  EXPECT_NE(svg.find("a &lt; b &amp; c"), std::string::npos);
  EXPECT_EQ(svg.find("a < b"), std::string::npos);
  EXPECT_TRUE(svg.ends_with("</svg>\n"));
}

}  // namespace
}  // namespace dampline::validation
