#include <map>
#include <string>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <dampline/report/pdf.hpp>
#include <dampline/report/plan_pdf.hpp>
#include <dampline/report/plan_svg.hpp>

#include "support/sample_plan.hpp"

// What other programs make of these files stands in tests/report/drawings.sh.

namespace dampline::tests {
namespace {

using report::Font;
using testing::HasSubstr;

std::string pdf(const planner::Plan& plan) {
  return report::plan_pdf(report::view(plan, sample_clock()));
}

TEST(Pdf, isTheSameBytesEachTime) {
  EXPECT_EQ(pdf(sample_plan()), pdf(sample_plan()));
  EXPECT_THAT(pdf(sample_plan()), testing::Not(HasSubstr("CreationDate")));
}

TEST(Pdf, everyObjectStandsWhereTheTableSays) {
  for (const auto& plan : {sample_plan(), hostile_plan()}) {
    const auto text = pdf(plan);
    const auto table = std::stoul(text.substr(text.rfind("startxref\n") + 10));
    ASSERT_EQ(text.substr(table, 5), "xref\n");
    const auto count = std::stoul(text.substr(table + 7));
    const auto first = text.find("f \n", table) + 3;
    for (std::size_t i = 1; i < count; ++i) {
      const auto at = std::stoul(text.substr(first + 20 * (i - 1), 10));
      EXPECT_EQ(text.substr(at, std::to_string(i).size() + 6), std::to_string(i) + " 0 obj");
    }
  }
}

TEST(Pdf, lettersOutsideTheAlphabetLoseOnlyTheirAccents) {
  EXPECT_EQ(report::windows_latin("caf\xC3\xA9 17 \xC2\xB0"
                                  "C \xE2\x80\x93 \xE2\x82\xAC"),
            "caf\xE9 17 \xB0"
            "C \x96 \x80");
  EXPECT_EQ(report::windows_latin("\xC4\x8D"), "c");
  EXPECT_EQ(report::windows_latin("\xE6\xB9\xBF").find('\x80'), std::string::npos);
}

TEST(Pdf, linesKeepToTheirWidthAndLoseNothing) {
  const std::string words =
      "One at a time, no air pockets. Sehrlangeplattennamewirdniemalsumbrochenodervielleichtdoch. "
      "The soak counts from the last sheet under.";
  for (const double wide : {60.0, 120.0, 300.0}) {
    std::string together;
    for (const auto& line : report::text_lines(words, 14, Font::bold, wide)) {
      EXPECT_LE(report::text_width(line, 14, Font::bold), wide) << line;
      together += line;
    }
    std::string without = words;
    std::erase(without, ' ');
    std::erase(together, ' ');
    EXPECT_EQ(together, without);
  }
  EXPECT_EQ(report::text_lines("", 14, Font::regular, 10), std::vector<std::string>{""});
}

TEST(Pdf, textIsNeverAnOperator) {
  const auto text = pdf(hostile_plan());
  EXPECT_EQ(text.find("\x1b"), std::string::npos);
  EXPECT_THAT(text, HasSubstr("/Title (</title><script>alert\\('x'\\)"));
}

TEST(PlanSvg, standsAloneWithNothingFetched) {
  for (const auto& plan : {sample_plan(), short_plan(), hostile_plan()}) {
    const auto svg = report::plan_svg(report::view(plan, sample_clock()));
    EXPECT_EQ(svg.rfind("<svg", 0), 0U);
    EXPECT_THAT(svg, HasSubstr("role=\"img\""));
    EXPECT_THAT(svg, HasSubstr("<title id=\"title\">"));
    EXPECT_THAT(svg, HasSubstr("<desc id=\"desc\">"));
    for (const char* none : {"<script", "href", "url(http", "@import", "<image", "var("}) {
      EXPECT_THAT(svg, testing::Not(HasSubstr(none)));
    }
    EXPECT_THAT(svg, HasSubstr("class=\"moisture\""));
  }
}

}  // namespace
}  // namespace dampline::tests
