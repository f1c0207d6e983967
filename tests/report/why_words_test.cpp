#include <set>

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include <dampline/report/why_words.hpp>

#include "support/sample_plan.hpp"

namespace dampline::report {
namespace {

using planner::Ground;
using planner::HalfMinutes;
using planner::Why;
using planner::WhyLink;
using testing::HasSubstr;

const Ground all_grounds[] = {Ground::opening,   Ground::set_time, Ground::order, Ground::soak,
                              Ground::tub_limit, Ground::rest,     Ground::keeps, Ground::plate,
                              Ground::between,   Ground::tub,      Ground::hands, Ground::changing,
                              Ground::ink_waits, Ground::away,     Ground::finish};

WhyLink link(Ground ground) {
  WhyLink out;
  out.ground = ground;
  out.step = "blot-1";
  out.name = "lift, drain and blot, sheets 1-4";
  out.start = HalfMinutes(120);
  out.end = HalfMinutes(140);
  out.resource = "Ana";
  out.wait = HalfMinutes(62);
  out.print = 3;
  out.pulled = HalfMinutes(200);
  return out;
}

Why late_soak() {
  Why why;
  why.step = "soak-1";
  why.name = "soaking";
  why.start = why.begins = HalfMinutes(40);
  why.end = HalfMinutes(120);
  why.needed_for = {link(Ground::soak), link(Ground::rest)};
  why.needed_for[1].name = "print 3";
  why.waits_for = {link(Ground::order)};
  why.waits_for[0].name = "set the press";
  why.windows = {{3, {HalfMinutes(200)}, HalfMinutes(190), HalfMinutes(500), HalfMinutes(62)}};
  return why;
}

TEST(WhyWords, everyGroundHasWordsBothWaysAndANameOfItsOwn) {
  const auto plan = tests::sample_plan();
  std::set<std::string> names, down, up;
  for (const auto ground : all_grounds) {
    names.emplace(ground_name(ground));
    down.insert(down_sentence(link(ground), plan, tests::sample_clock()));
    up.insert(up_sentence(link(ground), plan, tests::sample_clock()));
  }
  EXPECT_EQ(names.size(), std::size(all_grounds));
  EXPECT_EQ(down.size(), std::size(all_grounds));
  EXPECT_GE(up.size(), std::size(all_grounds) - 2);  // opening, set time and order read alike
  EXPECT_FALSE(down.contains("") || up.contains("") || names.contains("other"));
}

TEST(WhyWords, theAnswerNamesWhatAStepPutLateIsNeededFor) {
  const auto text = answer(late_soak(), tests::sample_plan(), tests::sample_clock());
  EXPECT_THAT(text, HasSubstr("Soaking starts"));
  EXPECT_THAT(text, HasSubstr("needs 31 min under water, \"lift, drain and blot, sheets 1-4\" and "
                              "31 min of rest"));
  EXPECT_THAT(text, HasSubstr("print 3, pulled"));
  EXPECT_THAT(text, HasSubstr("\"set the press\" comes first"));
}

TEST(WhyWords, aLongChainShowsItsEndsAndDataTheWhole) {
  auto why = late_soak();
  why.waits_for.assign(40, link(Ground::hands));
  const auto plan = tests::sample_plan();
  const auto text = why_text(why, plan, tests::sample_clock());
  EXPECT_THAT(text, HasSubstr("... 30 more"));
  const auto data = nlohmann::json::parse(why_json(why, plan, tests::sample_clock()));
  EXPECT_EQ(data["waits_for"].size(), 40U);
  EXPECT_EQ(data["waits_for"][0]["ground"], "hands");
  EXPECT_EQ(data["waits_for"][0]["wait_minutes"], 31.0);
}

TEST(WhyWords, keepsToTheWidthAndToAscii) {
  auto why = late_soak();
  why.waits_for[0].name = "lay \xE2\x80\x9Cthe\xE2\x80\x9D sheet\x1b[31m";
  TextOptions narrow;
  narrow.columns = 40;
  narrow.utf8 = false;
  const auto text = why_text(why, tests::sample_plan(), tests::sample_clock(), narrow);
  std::size_t width = 0;
  for (const char c : text) {
    EXPECT_TRUE(c == '\n' || (c >= ' ' && c < 127)) << static_cast<int>(c);
    width = c == '\n' ? 0 : width + 1;
    EXPECT_LE(width, 40U);
  }
}

}  // namespace
}  // namespace dampline::report
