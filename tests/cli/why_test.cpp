#include <set>
#include <string>

#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include "cli/run_program.hpp"
#include "support/reference_table.hpp"

namespace dampline::tests {
namespace {

using nlohmann::json;
using testing::HasSubstr;

Outcome asked(const std::string& step, std::vector<std::string> more = {}) {
  std::vector<std::string> words{"plan", "-", "--samples", "8", "--why", step};
  words.insert(words.end(), more.begin(), more.end());
  return run_program(words, repository_file("data/sessions/heron-drypoint.toml"));
}

TEST(PlanWhy, tellsTheChainDownToTheOpening) {
  const auto outcome = asked("mix ink heron");
  EXPECT_EQ(outcome.status, 0) << outcome.err;
  EXPECT_THAT(outcome.out, HasSubstr("because"));
  EXPECT_THAT(outcome.out, HasSubstr("M's hands"));
}

TEST(PlanWhy, finishIsAStepToo) {
  const auto outcome = asked("finish");
  EXPECT_EQ(outcome.status, 0) << outcome.err;
  EXPECT_THAT(outcome.out, HasSubstr("The day is finished"));
}

TEST(PlanWhy, dataHoldTheSameChain) {
  const auto plan = json::parse(run_program({"plan", "-", "--samples", "8", "--json", "-"},
                                            repository_file("data/sessions/heron-drypoint.toml"))
                                    .out);
  std::set<std::string> ids{"", "finish"};
  for (const auto& step : plan["steps"]) ids.insert(step["id"].get<std::string>());
  const auto why = json::parse(asked("print-3/pull-heron", {"--json", "-"}).out);
  EXPECT_EQ(why["format"], "dampline-why");
  EXPECT_EQ(why["version"], 1);
  EXPECT_EQ(why["step"], "print-3/pull-heron");
  ASSERT_FALSE(why["waits_for"].empty());
  for (const auto* key : {"waits_for", "needed_for"}) {
    for (const auto& link : why[key]) {
      EXPECT_TRUE(ids.contains(link["step"].get<std::string>())) << link;
      EXPECT_FALSE(link["text"].get<std::string>().empty());
    }
  }
  const auto& window = why["windows"][0];
  EXPECT_LE(window["ready_from"].get<std::string>(), window["pulled"][0].get<std::string>());
  EXPECT_LE(window["pulled"][0].get<std::string>(), window["ready_until"].get<std::string>());
}

TEST(PlanWhy, anUnknownStepGetsTheNearestAndTheList) {
  const auto outcome = asked("prnt-3");
  EXPECT_EQ(outcome.status, 2);
  EXPECT_TRUE(outcome.out.empty());
  EXPECT_THAT(outcome.err, HasSubstr("did you mean print-3?"));
  EXPECT_THAT(outcome.err, HasSubstr("print-1 to print-"));
}

TEST(PlanWhy, wordsThatFitSeveralStepsListThem) {
  const auto outcome = asked("pull");
  EXPECT_EQ(outcome.status, 2);
  EXPECT_THAT(outcome.err, HasSubstr("may be several steps"));
  EXPECT_THAT(outcome.err, HasSubstr("print-1/pull-heron"));
}

TEST(PlanWhy, doesNotGoWithAPage) { EXPECT_EQ(asked("finish", {"--html", "-"}).status, 2); }

TEST(PlanWhy, isTheSameBytesASecondTime) {
  EXPECT_EQ(asked("finish", {"--json", "-"}).out, asked("finish", {"--json", "-"}).out);
}

}  // namespace
}  // namespace dampline::tests
