#include <algorithm>
#include <cmath>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <dampline/report/register_map.hpp>

#include "size/printings.hpp"

namespace dampline::report {
namespace {

using testing::HasSubstr;
using testing::Not;

struct Drawn {
  size::Printing printing = [] {
    auto p = tests::two_plates();
    p.samples = 8;
    return p;
  }();
  size::Answer answer = size::compare(printing);
  std::string svg = register_map(printing, answer);
};

const Drawn& drawn() {
  static const Drawn d;
  return d;
}

int count(const std::string& text, const std::string& part) {
  int n = 0;
  for (auto at = text.find(part); at != std::string::npos; at = text.find(part, at + 1)) ++n;
  return n;
}

TEST(RegisterMap, hasAMapForEachWayWithFourTolerances) {
  const auto& svg = drawn().svg;
  for (const auto way : size::ways) EXPECT_THAT(svg, HasSubstr(size::title(way)));
  EXPECT_EQ(count(svg, "class=\"pass\""), 16);
  EXPECT_EQ(count(svg, "class=\"image\""), 4);
  EXPECT_EQ(count(svg, "class=\"sheet\""), 4);
}

TEST(RegisterMap, statesItsExaggerationAndSpeaksInWords) {
  const auto& svg = drawn().svg;
  EXPECT_THAT(svg, HasSubstr("times too large"));
  EXPECT_THAT(svg, HasSubstr("<title id=\"map-title\">"));
  EXPECT_THAT(svg, HasSubstr("<desc id=\"map-desc\">"));
  EXPECT_THAT(svg, HasSubstr("role=\"img\""));
}

TEST(RegisterMap, isLegibleInLightAndDarkAndFetchesNothing) {
  const auto& svg = drawn().svg;
  EXPECT_THAT(svg, HasSubstr("prefers-color-scheme:dark"));
  EXPECT_THAT(svg, Not(HasSubstr("href")));
  EXPECT_THAT(svg, Not(HasSubstr("url(")));
  EXPECT_THAT(svg, Not(HasSubstr("<script")));
  EXPECT_EQ(count(svg, "http"), 1);  // the namespace
}

TEST(RegisterMap, escapesWhatTheUserWrote) {
  auto p = drawn().printing;
  auto a = drawn().answer;
  p.plates[1].name = "<b>&key";
  for (auto& w : a.shown.ways) w.pulls[1].plate = p.plates[1].name;
  const auto svg = register_map(p, a);
  EXPECT_THAT(svg, HasSubstr("&lt;b&gt;&amp;key"));
  EXPECT_THAT(svg, Not(HasSubstr("<b>")));
}

TEST(RegisterMap, ofOnePlateIsEmpty) {
  auto p = drawn().printing;
  p.plates.pop_back();
  EXPECT_EQ(register_map(p, size::compare(p)), "");
}

TEST(Exaggeration, isRoundAndKeepsTheLargestMoveInside) {
  EXPECT_EQ(exaggeration(0.5, 40), 50);
  EXPECT_EQ(exaggeration(0.4, 40), 100);
  EXPECT_EQ(exaggeration(0.41, 40), 50);
  EXPECT_EQ(exaggeration(100, 40), 1);
  EXPECT_EQ(exaggeration(0, 40), 1000);
}

}  // namespace
}  // namespace dampline::report
