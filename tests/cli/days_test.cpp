#include <string>

#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include "cli/plan_checks.hpp"
#include "cli/run_program.hpp"
#include "support/reference_table.hpp"

// An edition over several days: what the plan of one day says is what the next is planned from.

namespace dampline::tests {
namespace {

std::string first_day() {
  auto text = repository_file("data/sessions/salt-marsh.toml");
  text = replaced(text, "between = \"held\"", "between = \"dried\"");
  return replaced(text, "prints = 10", "prints = 5");
}

json planned(const std::string& session) {
  const auto outcome = run_program({"plan", "-", "--json", "-"}, session);
  EXPECT_EQ(outcome.status, 0) << outcome.err;
  return outcome.out.empty() ? json::object() : json::parse(outcome.out);
}

// The session of the next day: the lines of the plan in place of the prints and proofs of the
// first.
std::string next_day(const std::string& session, const json& plan) {
  auto text = replaced(session, "prints = 5\nproofs = 2\n", "");
  return replaced(text, "between = \"dried\"",
                  "between = \"dried\"\n" + plan["resume"]["lines"].get<std::string>() + "\n");
}

TEST(Days, theFirstTouchesNoPlateOfTheNext) {
  const auto plan = planned(first_day());
  for (const auto& step : plan["steps"]) {
    EXPECT_EQ(step["what"].get<std::string>().find("key"), std::string::npos) << step["what"];
  }
  for (const auto& resource : plan["resources"]) EXPECT_NE(resource["name"], "key");
  for (const auto& line : plan["summary"]) {
    EXPECT_EQ(line.get<std::string>().find("between plates"), std::string::npos) << line;
  }
}

TEST(Days, theFirstSaysWhatToWriteForTheNext) {
  const auto plan = planned(first_day());
  const auto& resume = plan["resume"];
  EXPECT_EQ(resume["printed"], json::array({"tone"}));
  EXPECT_EQ(resume["prints"], plan["prints_planned"]);
  EXPECT_EQ(resume["proofs"], plan["proofs_planned"]);
  EXPECT_NEAR(resume["first_pull_percent"]["across"], plan["pulls"][0]["growth_percent"]["across"],
              0.05);
  const auto text = run_program({"plan", "-"}, first_day());
  EXPECT_NE(text.out.find("printed = [\"tone\"]"), std::string::npos);
}

TEST(Days, theNextPrintsTheOtherPlateOnSheetsThatAreTornAndMarkedAlready) {
  const auto second = next_day(first_day(), planned(first_day()));
  const auto plan = planned(second);
  expect_within_windows(plan);
  expect_nothing_double_booked(plan);
  ASSERT_EQ(plan["pulls"].size(), 7U);
  for (const auto& pull : plan["pulls"]) {
    EXPECT_EQ(pull["plate"], "key");
    ASSERT_TRUE(pull["misfit_mm"].is_object());
  }
  for (const auto& step : plan["steps"]) {
    EXPECT_NE(step["kind"], "tear");
    EXPECT_NE(step["plate"], "tone");
  }
  EXPECT_FALSE(plan.contains("resume"));
}

// `dampline size` follows one sheet through both days by itself: damped, printed, dried, damped.
TEST(Days, theMisfitOfTheNextAgreesWithASheetFollowedThroughBoth) {
  const auto pull = planned(next_day(first_day(), planned(first_day())))["pulls"][0];
  const auto size = json::parse(run_program({"size", "-", "--json", "-"}, first_day()).out);
  bool compared = false;
  for (const auto& way : size["strategies"]) {
    if (way["strategy"] != "dried") continue;
    const auto& misfit = way["pulls"][1]["misfit_mm"];
    EXPECT_NEAR(pull["misfit_mm"]["worst"], misfit["worst"], 0.06);
    compared = true;
  }
  EXPECT_TRUE(compared) << size.dump(1).substr(0, 400);
}

// An image printed on a sheet 0.2 % smaller along the grain lies that much further out.
TEST(Days, theSizeAtTheFirstPullDecidesTheMisfit) {
  const auto second = next_day(first_day(), planned(first_day()));
  const auto at = second.find("along = \"");
  auto smaller = second;
  const double along = std::stod(second.substr(at + 9));
  smaller.replace(at + 9, second.find('"', at + 9) - at - 9, std::to_string(along - 0.2) + " %");
  const double before = planned(second)["pulls"][0]["misfit_mm"]["along"];
  const double after = planned(smaller)["pulls"][0]["misfit_mm"]["along"];
  // From the corner of a sheet 56 cm long to the far side of a plate in its middle: 43 cm.
  EXPECT_NEAR(after - before, 0.002 * 430, 0.05);
}

TEST(Days, ofThreePlatesTheSizeAtTheFirstPullGoesOnToTheThird) {
  auto text = replaced(next_day(first_day(), planned(first_day())), "[edition]",
                       "[[plates]]\nname = \"line\"\nsize = \"20 x 30 cm\"\nprocess = "
                       "\"etching\"\n[edition]");
  text = replaced(text, "\"tone\", \"key\"]", "\"tone\", \"key\", \"line\"]");
  const auto plan = planned(text);
  for (const auto& pull : plan["pulls"]) EXPECT_EQ(pull["plate"], "key");
  EXPECT_EQ(plan["resume"]["printed"], (json::array({"tone", "key"})));
  EXPECT_EQ(plan["resume"]["lines"].get<std::string>().find("first_pull"),
            std::string("printed = [\"tone\", \"key\"]\n").size());
}

TEST(Days, processesThatShareNoDampAreNoMatterWhenADayPrintsOneOfThem) {
  const auto other = replaced(first_day(), "\"aquatint\"", "\"lithograph\"");
  EXPECT_EQ(run_program({"check", "-"}, other).status, 0);
  const auto held = replaced(other, "\"dried\"", "\"held\"");
  EXPECT_NE(run_program({"check", "-"}, held).err.find("no damp suits both"), std::string::npos);
}

struct Wrong {
  std::string line;
  std::string what;
};
class DaysRefuse : public ::testing::TestWithParam<Wrong> {};

TEST_P(DaysRefuse, whatCannotBe) {
  const auto text =
      replaced(first_day(), "between = \"dried\"", "between = \"dried\"\n" + GetParam().line);
  const auto outcome = run_program({"check", "-"}, text);
  EXPECT_EQ(outcome.status, 1);
  EXPECT_NE(outcome.err.find(GetParam().what), std::string::npos) << outcome.err;
}

INSTANTIATE_TEST_SUITE_P(
    Lines, DaysRefuse,
    ::testing::Values(Wrong{"printed = [\"tonne\"]", "did you mean \"tone\"?"},
                      Wrong{"printed = [\"key\"]", "not number 1 of edition.order"},
                      Wrong{"printed = [\"tone\", \"key\"]",
                            "every plate is on the sheets already"},
                      Wrong{"printed = [\"tone\"]\nsheet_each = true", "sheets of its own"},
                      Wrong{"printed = [\"tone\"]\nfirst_pull = { along = 1, across = \"1 %\" }",
                            "bare number for a growth"},
                      Wrong{"printed = [\"tone\"]\nfirst_pull = { along = \"1 %\" }", "across"}));

}  // namespace
}  // namespace dampline::tests
