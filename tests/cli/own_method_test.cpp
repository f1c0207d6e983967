#include <filesystem>
#include <fstream>
#include <string>

#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include "cli/run_program.hpp"
#include "support/reference_table.hpp"

// A session that names a method of the book is planned as the method is written.

namespace dampline::tests {
namespace {

using nlohmann::json;
using testing::HasSubstr;

std::string damped_by(const std::string& method) {
  std::string text = repository_file("data/sessions/salt-marsh.toml");
  const std::string was = "method = \"soak\"";
  const auto at = text.find(was);
  EXPECT_NE(at, std::string::npos);
  return text.replace(at, was.size(), "method = \"" + method + "\"");
}

Outcome plan(const std::string& session, const char* form) {
  return run_program({"plan", "-", form, "-", "--samples", "8"}, session);
}

TEST(OwnMethod, isPlannedStageByStage) {
  const auto outcome = plan(damped_by("soak and towel"), "--json");
  ASSERT_EQ(outcome.status, 0) << outcome.err;
  const auto day = json::parse(outcome.out);
  ASSERT_FALSE(day["pulls"].empty());
  bool towelled = false;
  for (const auto& step : day["steps"]) {
    if (step["what"].get<std::string>().find("towel") != std::string::npos) towelled = true;
  }
  EXPECT_TRUE(towelled);
  for (const auto& pull : day["pulls"]) {
    EXPECT_LE(pull["ready_from"].get<std::string>(), pull["at"].get<std::string>());
    EXPECT_LE(pull["at"].get<std::string>(), pull["ready_until"].get<std::string>());
  }
}

// The time on the line passes between the hands' work and the cover.
TEST(OwnMethod, leavesTimeForWhatNeedsNoHands) {
  const auto outcome = plan(damped_by("soak and hang"), "--json");
  ASSERT_EQ(outcome.status, 0) << outcome.err;
  const auto day = json::parse(outcome.out);
  std::string lifted;
  for (const auto& step : day["steps"]) {
    if (step["what"].get<std::string>().starts_with("lift, ")) continue;
    if (step["what"] == "lift" || step["what"].get<std::string>().starts_with("lift")) {
      lifted = step["end"];
      break;
    }
  }
  ASSERT_FALSE(day["pulls"].empty());
  EXPECT_LT(lifted, day["pulls"][0]["ready_from"].get<std::string>());
}

TEST(OwnMethod, unknownOrForDryingIsRefusedWithItsPlace) {
  const auto unknown = plan(damped_by("soak and towl"), "--json");
  EXPECT_EQ(unknown.status, 65);
  EXPECT_THAT(unknown.err, HasSubstr("did you mean \"soak and towel\""));
  const auto drying = plan(damped_by("forced air"), "--json");
  EXPECT_EQ(drying.status, 65);
  EXPECT_THAT(drying.err, HasSubstr("a way of drying"));
}

TEST(OwnMethod, thatBringsNoPrintableSheetSaysHowItEnds) {
  const auto outcome = plan(damped_by("dip"), "--json");
  EXPECT_EQ(outcome.status, 1);
  EXPECT_THAT(outcome.out, HasSubstr("does not bring this paper to the damp"));
}

TEST(OwnMethod, ofAFileOfOnesOwnIsPlannedAndChecked) {
  const auto folder = std::filesystem::path(testing::TempDir());
  const auto file = (folder / "own-methods.toml").string();
  std::ofstream(file) << R"([[method]]
name = "float"
[[method.stage]]
name  = "float"
stack = "air / sheet / water"
for   = "20 min"
[[method.stage]]
as      = "blot"
for     = "20 s"
contact = "roller"
[[method.stage]]
name = "rest"
as   = "covered"
for  = "30 min"
)";
  const auto session = damped_by("float");
  EXPECT_EQ(run_program({"check", "-"}, session).status, 1);
  EXPECT_EQ(run_program({"check", "-", "--methods", file}, session).status, 0);
  const auto day =
      run_program({"plan", "-", "--methods", file, "--json", "-", "--samples", "8"}, session);
  EXPECT_EQ(day.status, 0) << day.err;
  EXPECT_THAT(day.out, HasSubstr("As \\\"float\\\" is written: float 20 min, then blot"));
}

TEST(Pack, isEvenedOutInTheModelAndSaysHowMany) {
  const auto outcome = run_program({"plan", "-", "--json", "-", "--samples", "8"},
                                   repository_file("data/sessions/reed-bed-relief.toml"));
  ASSERT_EQ(outcome.status, 0) << outcome.err;
  EXPECT_THAT(outcome.out, HasSubstr("sheet on both faces with"));
  EXPECT_THAT(outcome.out, HasSubstr("By the model its sheets differ by"));
}

}  // namespace
}  // namespace dampline::tests
