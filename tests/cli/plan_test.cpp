#include <string>

#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include "cli/plan_checks.hpp"
#include "cli/run_program.hpp"
#include "support/reference_table.hpp"

// The main job from a session file to a plan, judged from the plan's JSON alone.

namespace dampline::tests {
namespace {

const std::string salt_marsh = "data/sessions/salt-marsh.toml";

Outcome planned_text(const std::string& session) {
  return run_program({"plan", "-", "--json", "-", "--samples", "16"}, session);
}

json planned(const std::string& session) {
  const auto outcome = planned_text(session);
  EXPECT_EQ(outcome.status, 0) << outcome.err;
  return json::parse(outcome.out);
}

class DemoSession : public ::testing::TestWithParam<const char*> {};

TEST_P(DemoSession, isPlannedInsideEveryWindowWithNothingDoubleBooked) {
  const auto plan = planned(repository_file(std::string("data/sessions/") + GetParam()));
  expect_within_windows(plan);
  expect_nothing_double_booked(plan);
  EXPECT_TRUE(plan["gap_percent"].is_number());
  EXPECT_LE(plan["bound_finish"].get<Moment>(), plan["finish"].get<Moment>());
  EXPECT_LE(plan["prints_planned"].get<int>(), plan["prints_asked"].get<int>());
}

INSTANTIATE_TEST_SUITE_P(Shipped, DemoSession,
                         ::testing::Values("salt-marsh.toml", "heron-drypoint.toml",
                                           "reed-bed-relief.toml", "saturday-class.toml",
                                           "hired-press.toml"));

TEST(Plan, keepsTheBreakAndTheEndOfTheDay) {
  const auto plan = planned(repository_file(salt_marsh));
  const auto& people = plan["resources"];
  ASSERT_EQ(people[0]["kind"], "person");
  const Moment from = "2026-03-14T13:00:00+00:00";
  const Moment until = "2026-03-14T13:40:00+00:00";
  int breaks = 0;
  for (const auto& step : plan["steps"]) {
    bool hands = false;
    for (const auto& use : step["uses"]) hands = hands || use["resource"] == people[0]["name"];
    if (step["kind"] == "break") {
      ++breaks;
      EXPECT_EQ(step["start"], from);
      EXPECT_EQ(step["end"], until);
    } else if (hands) {
      EXPECT_TRUE(step["end"].get<Moment>() <= from || step["start"].get<Moment>() >= until)
          << step["id"];
    }
  }
  EXPECT_EQ(breaks, 1);
  EXPECT_LE(plan["finish"].get<Moment>(), "2026-03-14T17:30:00+00:00");
}

TEST(Plan, isTheSameBytesASecondTime) {
  const auto session = repository_file(salt_marsh);
  EXPECT_EQ(planned_text(session).out, planned_text(session).out);
}

TEST(Plan, givesADrierRoomAShorterWindowThanADamperOne) {
  const auto session = repository_file(salt_marsh);
  const auto in_room = [&](const std::string& degrees, const std::string& humidity) {
    auto text = replaced(session, "temperature = \"17 degC\"", "temperature = \"" + degrees + "\"");
    return planned(replaced(text, "humidity    = \"52 %\"", "humidity    = \"" + humidity + "\""));
  };
  const auto dry = in_room("21 degC", "25 %");
  const auto damp = in_room("16 degC", "75 %");
  EXPECT_LT(dry["pulls"][0]["ready_until"].get<Moment>(),
            damp["pulls"][0]["ready_until"].get<Moment>());
  EXPECT_LT(dry["open_minutes"].get<double>(), 0.5 * damp["open_minutes"].get<double>());
}

TEST(Plan, saysHowManyOfFortyPrintsFitAndWhatIsShort) {
  auto session = replaced(repository_file(salt_marsh), "prints = 10", "prints = 40");
  session = replaced(session, "sheets = 14", "sheets = 60");
  session = replaced(session, "places = 16", "places = 60");
  const auto plan = planned(session);
  EXPECT_EQ(plan["prints_asked"], 40);
  EXPECT_LT(plan["prints_planned"].get<int>(), 10);
  const auto text = run_program({"plan", "-", "--samples", "16"}, session).out;
  EXPECT_NE(text.find("of 40"), std::string::npos);
  EXPECT_NE(text.find("hands of A"), std::string::npos);
}

TEST(Plan, aSecondPairOfHandsFitsMorePrints) {
  const auto session = repository_file(salt_marsh);
  const auto pair =
      replaced(session, "[equipment]",
               "[[people]]\nname = \"B\"\ndoes = [\"ink\", \"paper\"]\n\n[equipment]");
  EXPECT_GT(planned(pair)["prints_planned"].get<int>(),
            planned(session)["prints_planned"].get<int>());
}

TEST(Plan, namesWhatItDoesNotKnowWithPlaceAndRemedy) {
  const auto session = repository_file(salt_marsh);
  const auto paper =
      run_program({"plan", "-"}, replaced(session, "internal size", "internel size"));
  EXPECT_EQ(paper.status, 65);
  EXPECT_NE(paper.err.find("did you mean \"mould-made cotton, internal size"), std::string::npos)
      << paper.err;
  const auto process =
      run_program({"plan", "-"}, replaced(session, "\"aquatint\"", "\"aquatimt\""));
  EXPECT_EQ(process.status, 65);
  EXPECT_NE(process.err.find("did you mean \"aquatint\""), std::string::npos) << process.err;
  const auto step = run_program({"plan", "-"}, replaced(session, "wipe = ", "wype = "));
  EXPECT_EQ(step.status, 65);
  EXPECT_NE(step.err.find("\"wipe\""), std::string::npos) << step.err;
  for (const auto& outcome : {paper, process, step}) EXPECT_TRUE(outcome.out.empty());
  const auto checked =
      run_program({"check", "-"}, replaced(session, "\"aquatint\"", "\"aquatimt\""));
  EXPECT_EQ(checked.status, 1);
  EXPECT_EQ(checked.err, process.err);
}

TEST(Plan, refusesAMethodItDoesNotKnow) {
  const auto text =
      replaced(repository_file(salt_marsh), "method = \"soak\"", "method = \"misst\"");
  const auto outcome = run_program({"plan", "-"}, text);
  EXPECT_EQ(outcome.status, 65);
  EXPECT_NE(outcome.err.find("no method \"misst\""), std::string::npos) << outcome.err;
  EXPECT_NE(outcome.err.find("did you mean \"mist\""), std::string::npos) << outcome.err;
}

TEST(Plan, refusesProcessesThatShareNoDamp) {
  const auto text = replaced(repository_file(salt_marsh), "\"aquatint\"", "\"lithograph\"");
  const auto outcome = run_program({"plan", "-"}, text);
  EXPECT_EQ(outcome.status, 65);
  EXPECT_NE(outcome.err.find("no damp suits both"), std::string::npos) << outcome.err;
  EXPECT_NE(outcome.err.find("a session of its own"), std::string::npos) << outcome.err;
}

TEST(Plan, saysThatARestOutlastsThePaper) {
  const auto text = replaced(repository_file(salt_marsh), "method = \"soak\"",
                             "rest = \"7 days\"\nmethod = \"soak\"");
  const auto outcome = run_program({"plan", "-", "--samples", "16"}, text);
  EXPECT_EQ(outcome.status, 1);
  EXPECT_NE(outcome.out.find("rest of 168 h"), std::string::npos) << outcome.out;
  EXPECT_EQ(outcome.out.find("no soak tried"), std::string::npos) << outcome.out;
}

TEST(Plan, aSheetHeldOnTheBenchIsUnderNoPlastic) {
  const auto text =
      replaced(repository_file(salt_marsh), "hold   = \"covered\"", "hold   = \"bench\"");
  const auto outcome = run_program({"plan", "-", "--samples", "64"}, text);
  EXPECT_EQ(outcome.status, 0);
  EXPECT_EQ(outcome.out.find("out from under the plastic"), std::string::npos) << outcome.out;
}

TEST(Plan, aDayTooShortForOnePrintSaysSo) {
  auto session = replaced(repository_file(salt_marsh), "until  = \"17:30\"", "until  = \"10:30\"");
  session = replaced(session, "breaks = [{ at = \"13:00\", for = \"40 min\" }]", "");
  const auto outcome = run_program({"plan", "-", "--samples", "16"}, session);
  EXPECT_EQ(outcome.status, 1);
  EXPECT_NE(outcome.out.find("0 of 10"), std::string::npos) << outcome.out;
  EXPECT_EQ(outcome.out.find("Cleaned up"), std::string::npos) << outcome.out;
  EXPECT_EQ(outcome.out.find("can end before"), std::string::npos) << outcome.out;
}

}  // namespace
}  // namespace dampline::tests
