#include <sstream>
#include <string>
#include <vector>

#include <gtest/gtest.h>

#include <dampline/report/characters.hpp>
#include <dampline/report/plan_text.hpp>

#include "support/sample_plan.hpp"

namespace dampline::tests {

namespace {

using report::TextOptions;

std::string shown(const planner::Plan& plan, const TextOptions& options = {}) {
  return report::plan_text(report::view(plan, sample_clock()), options);
}

std::vector<std::string> lines(const std::string& text) {
  std::vector<std::string> out;
  std::istringstream in(text);
  for (std::string line; std::getline(in, line);) out.push_back(line);
  return out;
}

std::string without_codes(const std::string& text) {
  std::string out;
  for (std::size_t i = 0; i < text.size(); ++i) {
    if (text[i] == '\x1b') {
      i = text.find('m', i);
    } else {
      out += text[i];
    }
  }
  return out;
}

/// The first line that holds the words; empty when none does.
std::string line_with(const std::string& text, const std::string& words) {
  for (const auto& l : lines(text)) {
    if (l.find(words) != std::string::npos) return l;
  }
  return "";
}

}  // namespace

TEST(PlanText, neverRunsOverTheWidth) {
  for (const auto& plan : {sample_plan(), short_plan(), hostile_plan()}) {
    for (const int columns : {40, 60, 80, 100, 140, 200}) {
      for (const bool utf8 : {true, false}) {
        for (const auto& l : lines(shown(plan, {.columns = columns, .utf8 = utf8}))) {
          EXPECT_LE(report::display_width(l), columns) << l;
        }
      }
    }
  }
}

TEST(PlanText, isAsciiWhenAsked) {
  for (const auto& plan : {sample_plan(), hostile_plan()}) {
    for (const char c : shown(plan, {.utf8 = false})) {
      EXPECT_TRUE(c == '\n' || (c >= ' ' && c <= '~')) << static_cast<int>(c);
    }
  }
}

TEST(PlanText, hasNoEscapeCodesWithoutColourWhateverTheSessionSays) {
  EXPECT_EQ(shown(hostile_plan()).find('\x1b'), std::string::npos);
}

TEST(PlanText, colourSaysNothingByItself) {
  const auto plain = shown(short_plan());
  const auto coloured = shown(short_plan(), {.colour = true});
  EXPECT_NE(coloured.find('\x1b'), std::string::npos);
  EXPECT_EQ(without_codes(coloured), plain);
}

TEST(PlanText, answersFirstWhatIsAskedFirst) {
  const auto text = lines(shown(sample_plan()));
  EXPECT_TRUE(text[0].starts_with("Salt marsh, two plates"));
  EXPECT_TRUE(text[0].ends_with("Saturday 14 March 2026"));
  EXPECT_EQ(text[2], "  Start soaking  09:54");
  EXPECT_EQ(text[3].substr(0, 22), "  First pull     11:01");
  EXPECT_TRUE(text[5].starts_with("  Cleaned up"));
  EXPECT_NE(text[5].find("out by 17:30"), std::string::npos);
  EXPECT_NE(text[6].find("6 of 6"), std::string::npos);
}

TEST(PlanText, showsEveryStepAtItsTimeWithWhoDoesIt) {
  const planner::Plan plan = sample_plan();
  const auto view = report::view(plan, sample_clock());
  const auto text = shown(plan);
  std::size_t at = 0, rows = 0;
  for (const auto& block : view.steps) {
    for (const auto& row : block.rows) {
      const std::string begins = row.family == report::Family::pause ? row.from + " to " + row.until
                                                                     : "\n  " + row.from + "  ";
      at = text.find(begins, at);
      ASSERT_NE(at, std::string::npos) << row.from << " " << row.what;
      at += begins.size();
      ++rows;
    }
  }
  EXPECT_EQ(rows, plan.steps.size());
  EXPECT_NE(line_with(text, "wipe tone, print 3").find("  A  "), std::string::npos);
  EXPECT_NE(line_with(text, "soaking, sheets 1-4").find("  -  "), std::string::npos);
}

TEST(PlanText, aBreakStandsOut) {
  const auto text = shown(sample_plan());
  EXPECT_TRUE(line_with(text, "13:00 to 13:40").starts_with("\u2500 13:00 to 13:40  break"));
  EXPECT_TRUE(
      line_with(shown(sample_plan(), {.utf8 = false}), "13:00 to 13:40").ends_with("-----"));
}

TEST(PlanText, chartShowsEveryPullAndTheBreak) {
  const auto text = shown(sample_plan(), {.columns = 140});
  const auto chart = text.substr(text.find("Who does what"));
  const auto press = line_with(chart, "table press");
  std::size_t pulls = 0;
  for (std::size_t i = 1; i < press.size(); ++i) pulls += press[i] == 'P' && press[i - 1] != 'P';
  EXPECT_EQ(pulls, 7U) << press;
  EXPECT_NE(line_with(chart, "  A  ").find("======="), std::string::npos);
  EXPECT_NE(line_with(chart, "  tub  ").find("44444"), std::string::npos);
}

TEST(PlanText, saysWhatIsShortAndHowToMendIt) {
  const auto text = shown(short_plan());
  EXPECT_NE(text.find("2 of the 8 prints asked for do not fit."), std::string::npos);
  EXPECT_NE(text.find("What is short"), std::string::npos);
  EXPECT_NE(text.find("help: Ask a second person to wipe"), std::string::npos);
  EXPECT_NE(text.find("after its paper has dried too far"), std::string::npos);
  EXPECT_NE(text.find("less likely printable than not"), std::string::npos);
}

TEST(PlanText, endsWithTheFooterAndLeavesTheLastWordToTouch) {
  const auto text = shown(sample_plan(), {.columns = 200});
  EXPECT_NE(text.find("limp, cool, no shine"), std::string::npos);
  EXPECT_TRUE(text.ends_with("It does not set press pressure.\n"));
}

TEST(PlanText, isTheSameEachTime) { EXPECT_EQ(shown(short_plan()), shown(short_plan())); }

TEST(PlanText, anEmptyPlanIsStillASheet) {
  const auto text = shown(planner::Plan{});
  EXPECT_NE(text.find("Nothing can be printed as asked"), std::string::npos);
  EXPECT_EQ(text.find("Cleaned up"), std::string::npos);  // there is nothing to clean up after
}

}  // namespace dampline::tests
