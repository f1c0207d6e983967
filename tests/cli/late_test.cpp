#include <fstream>
#include <set>
#include <string>

#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include "cli/plan_checks.hpp"
#include "cli/run_program.hpp"
#include "support/reference_table.hpp"

// A day that has begun, planned again; judged from the JSON alone.

namespace dampline::tests {
namespace {

const std::string salt_marsh = "data/sessions/salt-marsh.toml";

Outcome late_text(std::vector<std::string> words, const std::string& session) {
  ::setenv("XDG_STATE_HOME", "/nowhere", 1);  // not the journal of whoever runs the tests
  words.insert(words.begin(), {"late", "-", "--json", "-"});
  return run_program(words, session);
}

json late(const std::vector<std::string>& words, const std::string& session) {
  const auto outcome = late_text(words, session);
  EXPECT_EQ(outcome.status, 0) << outcome.err;
  return outcome.out.empty() ? json::object() : json::parse(outcome.out);
}
json late(const std::vector<std::string>& words) {
  return late(words, repository_file(salt_marsh));
}

json morning() {
  const auto outcome = run_program({"plan", "-", "--json", "-"}, repository_file(salt_marsh));
  return json::parse(outcome.out);
}

Moment clock(const std::string& hhmm) { return "2026-03-14T" + hhmm + ":00+00:00"; }

std::map<std::string, json> by_id(const json& plan) {
  std::map<std::string, json> out;
  for (const auto& step : plan["steps"]) out[step["id"].get<std::string>()] = step;
  return out;
}

int minutes(const Moment& at) {
  return std::stoi(at.substr(11, 2)) * 60 + std::stoi(at.substr(14, 2));
}

void expect_pulls_to_come_inside_their_windows(const json& plan) {
  const Moment now = plan["late"]["at"];
  for (const auto& pull : plan["pulls"]) {
    if (pull["at"].get<Moment>() < now) continue;
    EXPECT_LE(pull["ready_from"].get<Moment>(), pull["at"].get<Moment>()) << pull;
    EXPECT_LE(pull["at"].get<Moment>(), pull["ready_until"].get<Moment>()) << pull;
  }
  for (const auto& warning : plan["warnings"]) EXPECT_NE(warning["code"], "pull-outside-window");
}

void expect_nothing_planned_before_now(const json& plan) {
  const Moment now = plan["late"]["at"];
  for (const auto& step : plan["steps"]) {
    const Moment start = step["start"], end = step["end"];
    const std::string state = step["state"];
    EXPECT_TRUE(state == "done"      ? end <= now
                : state == "planned" ? start >= now
                                     : start <= now && end >= now)
        << step;
  }
}

void expect_sound(const json& plan) {
  expect_nothing_double_booked(plan);
  expect_nothing_planned_before_now(plan);
  expect_pulls_to_come_inside_their_windows(plan);
}

// Nobody works in a break of the plan.
void expect_break_kept(const json& plan, const Moment& from, const Moment& until) {
  int breaks = 0;
  for (const auto& step : plan["steps"]) {
    if (step["kind"] != "break") continue;
    ++breaks;
    EXPECT_EQ(step["start"], from);
    EXPECT_EQ(step["end"], until);
  }
  EXPECT_EQ(breaks, 1);
}

TEST(Late, fortyMinutesBehindAtNoonKeepsWhatIsDoneAndFitsTheRest) {
  const auto before = morning();
  const auto plan = late({"--at", "12:00", "--late", "40 min"});
  expect_sound(plan);
  expect_break_kept(plan, clock("13:00"), clock("13:40"));
  // What the morning had over by 11:20 is done, forty minutes later than planned.
  const auto now = by_id(plan);
  int done = 0;
  for (const auto& [id, step] : by_id(before)) {
    if (step["kind"] == "soak" || step["end"].get<Moment>() > clock("11:20")) continue;
    ASSERT_TRUE(now.contains(id)) << id;
    EXPECT_EQ(now.at(id)["state"], "done") << id;
    EXPECT_EQ(minutes(now.at(id)["start"]), minutes(step["start"]) + 40) << id;
    EXPECT_EQ(minutes(now.at(id)["end"]), minutes(step["end"]) + 40) << id;
    EXPECT_EQ(now.at(id)["what"], step["what"]) << id;
    ++done;
  }
  EXPECT_GT(done, 8);
  EXPECT_EQ(plan["late"]["finish_before"], before["finish"]);
  EXPECT_LE(plan["finish"].get<Moment>(), clock("17:30"));
  EXPECT_EQ(plan["prints_planned"].get<int>() + plan["proofs_planned"].get<int>() +
                static_cast<int>(plan["late"]["lost_prints"].size()),
            before["prints_planned"].get<int>() + before["proofs_planned"].get<int>());
}

TEST(Late, saysWhichPrintsAreLostAndWhatBecomesOfTheirWetSheets) {
  const auto plan = late({"--at", "12:00", "--late", "40 min"});
  ASSERT_EQ(plan["late"]["lost_prints"], json::array({5}));
  std::set<std::string> kinds, codes;
  for (const auto& rescue : plan["late"]["rescues"]) {
    EXPECT_EQ(rescue["sheets"], json::array({5}));
    kinds.insert(rescue["kind"].get<std::string>());
  }
  EXPECT_TRUE(kinds.contains("refrigerate"));
  EXPECT_TRUE(kinds.contains("damp-again"));
  for (const auto& warning : plan["warnings"]) codes.insert(warning["code"].get<std::string>());
  EXPECT_TRUE(codes.contains("prints-lost"));
  const auto text =
      run_program({"late", "-", "--at", "12:00", "--late", "40 min"}, repository_file(salt_marsh));
  EXPECT_NE(text.out.find("Lost: print 5"), std::string::npos) << text.out;
  EXPECT_NE(text.out.find("this morning it was 16:50"), std::string::npos) << text.out;
}

TEST(Late, onTimeChangesNothingThatIsToCome) {
  const auto before = morning();
  const auto plan = late({"--at", "13:40", "--late", "0 min"});
  expect_sound(plan);
  EXPECT_EQ(plan["finish"], before["finish"]);
  EXPECT_EQ(plan["late"]["lost_prints"].size(), 0U);
  EXPECT_EQ(plan["pulls"].size(), before["pulls"].size());
}

TEST(Late, withNothingDoneTheWholeDayIsPlannedIntoWhatIsLeft) {
  const auto plan = late({"--at", "12:00"});
  expect_sound(plan);
  EXPECT_EQ(plan["late"]["steps_done"], 0);
  EXPECT_LT(plan["prints_planned"].get<int>(), 3);
  EXPECT_GT(plan["pulls"].size(), 0U);
  EXPECT_LE(plan["finish"].get<Moment>(), clock("17:30"));
  const auto hopeless = late_text({"--at", "16:50"}, repository_file(salt_marsh));
  EXPECT_EQ(hopeless.status, 1);
  EXPECT_EQ(json::parse(hopeless.out)["pulls"].size(), 0U);
}

TEST(Late, withEverythingDoneNothingIsLeft) {
  const auto before = morning();
  const auto plan = late({"--at", "17:00", "--done-until", before["steps"].back()["id"]});
  expect_sound(plan);
  for (const auto& step : plan["steps"]) EXPECT_EQ(step["state"], "done") << step["id"];
  EXPECT_EQ(plan["finish"], before["finish"]);
  EXPECT_EQ(plan["pulls"].size(), before["pulls"].size());
}

TEST(Late, aBlockPartWayKeepsItsDonePartsAndGoesOnAtOnce) {
  const auto plan = late({"--at", "11:45", "--done-until", "ink-1-tone", "--running",
                          "print-1/pull-tone@11:43", "--samples", "64"});
  expect_sound(plan);
  const auto steps = by_id(plan);
  EXPECT_EQ(steps.at("print-1/place-tone")["state"], "done");
  EXPECT_EQ(steps.at("print-1/place-tone")["end"], clock("11:43"));
  EXPECT_EQ(steps.at("print-1/pull-tone")["state"], "running");
  EXPECT_EQ(steps.at("print-1/pull-tone")["end"], clock("11:45"));
  EXPECT_EQ(steps.at("print-1/change-plate-key")["start"], clock("11:45"));
}

// Its rest at once would leave the ink to stand over the break for too long.
TEST(Late, aPlateHalfInkedIsWipedWhenItCanBePrinted) {
  const auto plan = late({"--at", "12:30", "--done-until", "ink-1-key/ink-key"});
  expect_sound(plan);
  EXPECT_GT(plan["pulls"].size(), 0U);
}

TEST(Late, theListOfATabletIsTheSameAsTheWords) {
  const auto words =
      late({"--at", "10:45", "--done", "lay-out@09:32-09:50", "--done", "hot-plate@09:50-10:01",
            "--done", "tear@09:50-09:58", "--running", "load-1@10:43"});
  const std::string list = ::testing::TempDir() + "late-done.txt";
  std::ofstream(list) << "# steps done\nlay-out 09:32 09:50\nhot-plate 09:50 10:01\n"
                      << "tear 09:50 09:58\n\nload-1 10:43\n";
  const auto listed = late({"--at", "10:45", "--done", "@" + list});
  EXPECT_EQ(words, listed);
  EXPECT_EQ(by_id(listed).at("lay-out")["start"], clock("09:32"));
  EXPECT_EQ(by_id(listed).at("load-1")["state"], "running");
  expect_sound(listed);
  std::ofstream(list) << "lay-out 09:32 09:50 hm\n";
  const auto bad = late_text({"--at", "10:45", "--done", "@" + list}, repository_file(salt_marsh));
  EXPECT_EQ(bad.status, 65);
  EXPECT_NE(bad.err.find("late-done.txt:1"), std::string::npos) << bad.err;
}

TEST(Late, sheetsThatLayOpenAreMistedRestedAndPulledInsideTheirBand) {
  const auto plan = late({"--at", "12:40", "--done-until", "print-1", "--uncovered", "2@11:00"});
  expect_sound(plan);
  const auto steps = by_id(plan);
  int misted = 0;
  for (const auto& rescue : plan["late"]["rescues"]) {
    if (rescue["kind"] != "mist" || rescue["step"].is_null()) continue;
    ++misted;
    const auto& step = steps.at(rescue["step"]);
    EXPECT_GE(step["start"].get<Moment>(), clock("12:40"));
    EXPECT_GT(rescue["water_g"].get<double>(), 2);
    EXPECT_LT(rescue["moisture_now"].get<double>(), rescue["moisture_rested"].get<double>());
    const int rested = minutes(step["start"]) + static_cast<int>(rescue["rest_minutes"]);
    for (const auto& pull : plan["pulls"]) {
      if (pull["sheet"] != rescue["sheets"][0]) continue;
      EXPECT_GE(minutes(pull["at"]), rested);
      // Found by the sheet's own simulation through the day, not by the one that chose the water.
      EXPECT_NEAR(pull["moisture"]["mean"], rescue["moisture_rested"], 0.03);
    }
  }
  EXPECT_EQ(misted, 1);
}

TEST(Late, sheetsThatLayOpenForLessAreCoveredAtOnce) {
  const auto plan = late({"--at", "12:10", "--done-until", "print-1", "--uncovered", "2@12:05"});
  expect_sound(plan);
  ASSERT_FALSE(plan["late"]["rescues"].empty());
  const auto& rescue = plan["late"]["rescues"][0];
  EXPECT_EQ(rescue["kind"], "cover");
  EXPECT_NE(rescue["text"].get<std::string>().find("Cover sheet 2 at once"), std::string::npos);
}

TEST(Late, aPlateThatHasStoodTooLongIsInkedAgain) {
  const auto session =
      replaced(repository_file(salt_marsh), "between = \"held\"", "between = \"held\"\n");
  const auto plan = late({"--at", "14:30", "--done-until", "ink-1-tone"}, session);
  expect_sound(plan);
  const auto steps = by_id(plan);
  ASSERT_TRUE(steps.contains("ink-1-key-again"));
  ASSERT_TRUE(steps.contains("ink-1-tone-again"));
  for (const auto& pull : plan["pulls"]) {
    if (pull["print"] != 1) continue;
    const auto& ink = steps.at("ink-1-" + pull["plate"].get<std::string>() + "-again");
    EXPECT_LE(ink["end"].get<Moment>(), pull["at"].get<Moment>());
  }
}

TEST(Late, aBreakIsTakenOnceTheHandsAreFree) {
  const auto plan = late({"--at", "13:10", "--done-until", "print-1", "--late", "60 min"});
  expect_sound(plan);
  int breaks = 0;
  for (const auto& step : plan["steps"]) {
    if (step["kind"] != "break") continue;
    ++breaks;
    EXPECT_GE(step["start"].get<Moment>(), clock("13:00"));
    EXPECT_EQ(minutes(step["end"]) - minutes(step["start"]), 40);
  }
  EXPECT_EQ(breaks, 1);
}

TEST(Late, whatIsBegunIsFinishedInOvertimeWhichIsSaid) {
  const auto plan = late({"--at", "17:20", "--late", "60 min"});
  expect_nothing_double_booked(plan);
  expect_nothing_planned_before_now(plan);
  EXPECT_GT(plan["finish"].get<Moment>(), clock("17:30"));
  bool said = false;
  for (const auto& warning : plan["warnings"]) said = said || warning["code"] == "past-the-end";
  EXPECT_TRUE(said);
  // Nothing but what is begun is printed, and it is all cleaned up.
  for (const auto& step : plan["steps"]) {
    if (step["kind"] == "pull" && step["state"] == "planned") {
      EXPECT_TRUE(std::any_of(plan["steps"].begin(), plan["steps"].end(), [&](const auto& other) {
        return other["print"] == step["print"] && other["state"] != "planned" &&
               (other["kind"] == "place" || other["kind"] == "pull");
      })) << step;
    }
  }
  EXPECT_TRUE(by_id(plan).contains("close-press-table-press"));
}

TEST(Late, stayingLongerSavesThePrint) {
  const auto plan = late({"--at", "12:00", "--late", "40 min", "--until", "18:15"});
  expect_sound(plan);
  EXPECT_EQ(plan["late"]["lost_prints"].size(), 0U);
  EXPECT_GT(plan["finish"].get<Moment>(), clock("17:30"));
  EXPECT_LE(plan["finish"].get<Moment>(), clock("18:15"));
}

struct Refused {
  std::vector<std::string> words;
  int status;
  std::string what;
};

class LateRefuses : public ::testing::TestWithParam<Refused> {};

TEST_P(LateRefuses, withOneClearSentence) {
  const auto outcome = late_text(GetParam().words, repository_file(salt_marsh));
  EXPECT_EQ(outcome.status, GetParam().status);
  EXPECT_TRUE(outcome.out.empty());
  EXPECT_NE(outcome.err.find(GetParam().what), std::string::npos) << outcome.err;
  EXPECT_NE(outcome.err.find("help:"), std::string::npos) << outcome.err;
}

INSTANTIATE_TEST_SUITE_P(
    Words, LateRefuses,
    ::testing::Values(
        Refused{{"--at", "12:00", "--done", "inkk-1-key"}, 2, "did you mean ink-1-key?"},
        Refused{{"--at", "12:00", "--done-until", "prnt-1"}, 2, "did you mean print-1?"},
        Refused{{"--at", "08:00"}, 2, "outside the day, which goes from 09:30 to 17:30"},
        Refused{{"--at", "17:30"}, 2, "outside the day"},
        Refused{{"--at", "noon"}, 2, "\"noon\" is not a clock time"},
        Refused{{"--late", "40 min"}, 2, "missing --at"},
        Refused{{"--at", "12:40", "--done", "print-1"}, 2, "has to be done before it"},
        Refused{{"--at", "12:00", "--done-until", "print-1", "--done", "print-1@10:50-10:55"},
                2,
                "\"print-1\" begins at 10:50, but"},
        Refused{{"--at", "12:30", "--done-until", "ink-2-key", "--done", "ink-2-key@11:59-12:25"},
                2,
                "A would be in two places"},
        Refused{{"--at", "12:00", "--done", "lay-out@09:45-09:40"}, 2, "before it begins"},
        Refused{{"--at", "12:00", "--done", "lay-out@11:50-12:10"}, 2, "after 12:00"},
        Refused{{"--at", "12:00", "--running", "lay-out@12:10"}, 2, "after 12:00"},
        Refused{{"--at", "12:00", "--done", "lay-out", "--done", "lay-out"}, 2, "named twice"},
        Refused{{"--at", "12:00", "--done", "@no-such-list"}, 66, "no-such-list"},
        Refused{{"--at", "12:00", "--uncovered", "30"}, 2, "no sheet 30"},
        Refused{{"--at", "12:00", "--uncovered", "some"}, 2, "names no sheets"}));

// The night the clocks change, in a studio open then.
std::string night(const std::string& date) {
  auto text = replaced(repository_file(salt_marsh), "2026-03-14", date);
  text = replaced(text, "from   = \"09:30\"", "from   = \"00:30\"");
  text = replaced(text, "until  = \"17:30\"", "until  = \"08:30\"");
  return replaced(text, "at = \"13:00\"", "at = \"04:00\"");
}

TEST(Late, aTimeThatDoesNotExistIsRefusedOnTheDayTheClocksGoForward) {
  // Lisbon, 29 March 2026: 01:00 to 02:00.
  const auto outcome = late_text({"--at", "01:20"}, night("2026-03-29"));
  EXPECT_EQ(outcome.status, 2);
  EXPECT_NE(outcome.err.find("there is no 01:20 that day"), std::string::npos) << outcome.err;
  const auto plan = late({"--at", "03:00", "--done-until", "lay-out"}, night("2026-03-29"));
  expect_sound(plan);
  EXPECT_EQ(plan["late"]["at"], "2026-03-29T03:00:00+01:00");
}

TEST(Late, aTimeThatComesTwiceIsTheFirstAndSaysSo) {
  // Lisbon, 25 October 2026: 02:00 summer time back to 01:00.
  const auto outcome = late_text({"--at", "01:20", "--done-until", "lay-out"}, night("2026-10-25"));
  EXPECT_EQ(outcome.status, 0) << outcome.err;
  EXPECT_NE(outcome.err.find("01:20 comes twice"), std::string::npos) << outcome.err;
  EXPECT_EQ(json::parse(outcome.out)["late"]["at"], "2026-10-25T01:20:00+01:00");
}

TEST(Late, itsWarningsAndRescuesAreExplained) {
  for (const std::string code : {"prints-lost", "past-the-end", "other-days", "mist", "cover"}) {
    const auto told = run_program({"explain", code});
    EXPECT_EQ(told.status, 0) << told.err;
    EXPECT_EQ(told.out.find(code + ": "), 0U) << told.out;
  }
  EXPECT_NE(run_program({"explain", "print-lost"}).err.find("did you mean prints-lost?"),
            std::string::npos);
}

class LateSession : public ::testing::TestWithParam<const char*> {};

TEST_P(LateSession, isSoundHalfAnHourLateAtEveryHour) {
  const auto session = repository_file(std::string("data/sessions/") + GetParam());
  for (const std::string at : {"10:40", "11:30", "13:10", "14:20"}) {
    const auto outcome = late_text({"--at", at, "--late", "30 min", "--samples", "16"}, session);
    ASSERT_LE(outcome.status, 1) << at << outcome.err;
    SCOPED_TRACE(at);
    expect_sound(json::parse(outcome.out));
  }
}

INSTANTIATE_TEST_SUITE_P(Shipped, LateSession,
                         ::testing::Values("salt-marsh.toml", "heron-drypoint.toml",
                                           "reed-bed-relief.toml", "saturday-class.toml",
                                           "hired-press.toml"));

}  // namespace
}  // namespace dampline::tests
