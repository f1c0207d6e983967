#include <string>
#include <vector>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <dampline/report/csv.hpp>

#include "support/sample_plan.hpp"

namespace dampline::tests {
namespace {

/// RFC 4180, read plainly.
std::vector<std::vector<std::string>> read(const std::string& text, char between = ',') {
  std::vector<std::vector<std::string>> rows{{""}};
  bool quoted = false;
  for (std::size_t i = 0; i < text.size(); ++i) {
    const char c = text[i];
    if (quoted && c == '"' && i + 1 < text.size() && text[i + 1] == '"') {
      rows.back().back() += '"';
      ++i;
    } else if (c == '"') {
      quoted = !quoted;
    } else if (!quoted && c == between) {
      rows.back().emplace_back();
    } else if (!quoted && c == '\r') {
      EXPECT_EQ(text.at(i + 1), '\n');
      ++i;
      rows.push_back({""});
    } else {
      rows.back().back() += c;
    }
  }
  EXPECT_EQ(rows.back(), std::vector<std::string>{""}) << "the last row does not end in CRLF";
  rows.pop_back();
  return rows;
}

TEST(Csv, cellsReadBackAsTheyWere) {
  const std::vector<std::string> cells{"plain", "a,b", "say \"clear\"", "two\nlines", "", "a;b"};
  EXPECT_EQ(read(report::csv_row(cells)).at(0), cells);
  EXPECT_EQ(read(report::csv_row(cells, report::Separator::semicolon), ';').at(0), cells);
}

TEST(Csv, hasARowForEveryStepAndFiguresForEveryPull) {
  const auto plan = sample_plan();
  const auto rows = read(report::plan_csv(plan, sample_clock()));
  ASSERT_EQ(rows.size(), plan.steps.size() + 1);
  std::size_t pulls = 0;
  for (const auto& row : rows) {
    ASSERT_EQ(row.size(), rows.front().size());
    pulls += row.at(4) == "pull" && !row.at(12).empty() ? 1U : 0U;
    const bool has_figures = row.at(4) == "pull" || row.at(4) == "kind";
    EXPECT_TRUE(has_figures || row.at(12).empty());
  }
  EXPECT_EQ(pulls, plan.pulls.size());
  EXPECT_EQ(rows.at(1).at(0).substr(0, 11), "2026-03-14T");
  EXPECT_TRUE(rows.at(1).at(0).ends_with("+01:00"));
}

TEST(Csv, headNamesUnits) {
  const auto head = read(report::plan_csv(sample_plan(), sample_clock())).at(0);
  EXPECT_THAT(head, testing::IsSupersetOf({"minutes", "moisture_g_g", "chance_ready_percent",
                                           "growth_along_percent", "misfit_worst_mm"}));
}

TEST(Csv, theSemicolonBringsTheDecimalComma) {
  const auto rows =
      read(report::plan_csv(sample_plan(), sample_clock(), report::Separator::semicolon), ';');
  EXPECT_EQ(rows.at(1).at(2), "15,0");
}

TEST(Csv, hostileTextStaysInItsCell) {
  const auto rows = read(report::plan_csv(hostile_plan(), sample_clock()));
  for (const auto& row : rows) EXPECT_EQ(row.size(), 20U);
}

}  // namespace
}  // namespace dampline::tests
