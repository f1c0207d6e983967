#include <string>

#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include "cli/run_program.hpp"
#include "support/reference_table.hpp"

namespace dampline::tests {
namespace {

using nlohmann::json;
using testing::HasSubstr;

std::string heron() { return repository_file("data/sessions/heron-drypoint.toml"); }

std::string replaced(std::string text, const std::string& from, const std::string& to) {
  const auto at = text.find(from);
  EXPECT_NE(at, std::string::npos) << from;
  return at == std::string::npos ? text : text.replace(at, from.size(), to);
}

Outcome planned(const std::string& session, std::vector<std::string> more = {}) {
  std::vector<std::string> words{"plan", "-", "--samples", "8", "--conflicts", "2000"};
  words.insert(words.end(), more.begin(), more.end());
  return run_program(words, session);
}

TEST(PlanAdvice, everyPlanSaysWhoIsBusiest) {
  const auto plan = json::parse(planned(heron(), {"--json", "-"}).out);
  EXPECT_THAT(plan["bottleneck"].get<std::string>(), HasSubstr("M's hands"));
  ASSERT_FALSE(plan["utilisation"].empty());
  EXPECT_EQ(plan["utilisation"][0]["resource"], "M");
  for (const auto& use : plan["utilisation"]) {
    EXPECT_LE(use["busy_minutes"].get<double>(), use["available_minutes"].get<double>()) << use;
  }
  EXPECT_FALSE(plan.contains("advice"));
  EXPECT_TRUE(plan["clashes"].empty());
}

TEST(PlanAdvice, tellsWhatOneChangeWouldGain) {
  const auto plan = json::parse(planned(heron(), {"--json", "-", "--advice"}).out);
  ASSERT_FALSE(plan["advice"].empty());
  int gain = 1000;
  for (const auto& change : plan["advice"]) {
    EXPECT_LE(change["gain_prints"].get<int>(), gain);
    gain = change["gain_prints"];
    EXPECT_TRUE(gain > 0 || change["gain_minutes"].get<double>() > 0) << change;
    EXPECT_TRUE(change["proved"].is_boolean());
  }
  EXPECT_EQ(plan["advice_conflicts"], 2000);
  ASSERT_FALSE(plan["clashes"].empty());
  EXPECT_GE(plan["clashes"][0]["demands"].size(), 2U);
  EXPECT_FALSE(plan["nearest"].empty());
}

TEST(PlanAdvice, aDayThatTakesNothingIsExplainedUnasked) {
  const auto session = replaced(heron(), "\"15:30\"", "\"11:30\"");
  const auto outcome = planned(replaced(session, "breaks", "# breaks"), {"--json", "-"});
  EXPECT_EQ(outcome.status, 1) << outcome.err;
  const auto plan = json::parse(outcome.out);
  ASSERT_EQ(plan["clashes"].size(), 1U);
  EXPECT_THAT(plan["clashes"][0]["demands"].dump(), HasSubstr("out by 11:30"));
  bool later = false;
  for (const auto& day : plan["nearest"]) {
    later = later || day["change"].get<std::string>().starts_with("out by ");
  }
  EXPECT_TRUE(later);
}

TEST(PlanAdvice, isTheSameBytesASecondTime) {
  EXPECT_EQ(planned(heron(), {"--advice"}).out, planned(heron(), {"--advice"}).out);
}

}  // namespace
}  // namespace dampline::tests
