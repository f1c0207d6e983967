#include <filesystem>
#include <fstream>

#include <nlohmann/json.hpp>

#include "run_program.hpp"
#include "support/source_tree.hpp"

// A log of the air from the file to the plan. The readings are made up.

namespace dampline::tests {
namespace {

namespace fs = std::filesystem;
using nlohmann::json;
using ::testing::AllOf;
using ::testing::Contains;
using ::testing::HasSubstr;

std::string shipped(const std::string& name) { return in_source_tree("data/sessions/" + name); }

std::string text_of(const std::string& path) {
  std::ifstream in(path);
  std::ostringstream text;
  text << in.rdbuf();
  EXPECT_FALSE(text.str().empty()) << path;
  return text.str();
}

// Words that stand wrapped over lines, as one line.
std::string unwrapped(const std::string& text) {
  std::string out;
  for (const char c : text) {
    const char plain = c == '\n' ? ' ' : c;
    if (plain != ' ' || out.empty() || out.back() != ' ') out += plain;
  }
  return out;
}

// A session of its own beside a log of its own.
class WithLog : public ::testing::Test {
 protected:
  void SetUp() override {
    // A folder a test: they may run side by side.
    folder_ = fs::path(::testing::TempDir()) /
              ("dampline_" +
               std::string(::testing::UnitTest::GetInstance()->current_test_info()->name()));
    fs::remove_all(folder_);
    fs::create_directories(folder_);
  }
  void TearDown() override { fs::remove_all(folder_); }

  std::string write(const std::string& name, const std::string& text) {
    const auto path = (folder_ / name).string();
    std::ofstream(path) << text;
    return path;
  }
  std::string session(const std::string& from, const std::string& to) {
    auto text = text_of(shipped("cellar-log.toml"));
    const auto at = text.find(from);
    EXPECT_NE(at, std::string::npos) << from;
    return write("day.toml", text.replace(at, from.size(), to));
  }

  fs::path folder_;
};

TEST(ReadingsPlan, aLogWithAGapDecimalCommasAndABadRowPlansAndSaysWhatItDid) {
  const auto r = run_program({"plan", shipped("cellar-log.toml"), "--samples", "16"});
  EXPECT_EQ(r.status, 0) << r.err;
  EXPECT_THAT(r.err, AllOf(HasSubstr("cellar.csv:103:23: warning: row left out: humidity \"7o,7\" "
                                     "is not a number"),
                           HasSubstr("\nhelp: ")));
  const auto shown = unwrapped(r.out);
  EXPECT_THAT(shown, HasSubstr("cellar.csv:103: row left out: humidity \"7o,7\" is not a number"));
  EXPECT_THAT(shown, HasSubstr("No reading from 11:40 to 13:20 (lines 110 and 111): a straight "
                               "line joins them."));
  EXPECT_THAT(shown, HasSubstr("has 138 readings, one every 10 min; 1 row left out; 39 of them lie "
                               "in the hours planned."));
  EXPECT_THAT(shown, HasSubstr("09:00 to 17:00: as logged."));
  EXPECT_THAT(shown, HasSubstr("up to 2 points damper or drier"));
  EXPECT_THAT(shown, HasSubstr("Columns not used: Batterie (V)."));
}

TEST(ReadingsPlan, theSameStandsInItsJson) {
  const auto r =
      run_program({"plan", shipped("cellar-log.toml"), "--samples", "16", "--json", "-"});
  ASSERT_EQ(r.status, 0) << r.err;
  const auto plan = json::parse(r.out);
  const auto& air = plan["climate"];
  EXPECT_EQ(air["readings"], 138);
  EXPECT_EQ(air["readings_in_the_hours"], 39);
  ASSERT_EQ(air["hours"].size(), 1U);
  EXPECT_EQ(air["hours"][0]["from"], "2026-03-14T09:00:00+01:00");
  EXPECT_EQ(air["hours"][0]["until"], "2026-03-14T17:00:00+01:00");
  EXPECT_EQ(air["hours"][0]["basis"], "logged");
  ASSERT_EQ(air["bridged"].size(), 1U);
  EXPECT_EQ(air["bridged"][0]["from"], "2026-03-14T11:40:00+01:00");
  EXPECT_EQ(air["bridged"][0]["line_before"], 110);
  EXPECT_EQ(air["bridged"][0]["line_after"], 111);
  ASSERT_EQ(air["left_out"].size(), 1U);
  EXPECT_EQ(air["left_out"][0]["first_lines"], json::array({103}));
  EXPECT_THAT(air["left_out"][0]["why"].get<std::string>(), HasSubstr("7o,7"));
  // Mean and extremes of the log's own columns over 09:00 to 17:00, to the curve between readings.
  EXPECT_NEAR(air["temperature_c"]["low"].get<double>(), 13.8, 0.05);
  EXPECT_NEAR(air["temperature_c"]["high"].get<double>(), 16.2, 0.05);
  EXPECT_GT(air["humidity_percent"]["mean"].get<double>(), 61);
  EXPECT_LT(air["humidity_percent"]["mean"].get<double>(), 74);
  EXPECT_NEAR(air["humidity_scatter_points"].get<double>(), 2, 1e-9);
  EXPECT_FALSE(plan["pulls"].empty());
  for (const auto& pull : plan["pulls"]) {
    EXPECT_LE(pull["ready_from"].get<std::string>(), pull["at"].get<std::string>());
    EXPECT_LE(pull["at"].get<std::string>(), pull["ready_until"].get<std::string>());
  }
  std::string codes;
  for (const auto& w : plan["warnings"]) codes += w["code"].get<std::string>() + " ";
  EXPECT_THAT(codes, HasSubstr("readings"));
}

TEST(ReadingsPlan, thePageAndTheCheckTellItToo) {
  const auto page =
      run_program({"plan", shipped("cellar-log.toml"), "--samples", "16", "--html", "-"});
  EXPECT_EQ(page.status, 0) << page.err;
  EXPECT_THAT(page.out, HasSubstr("The air, from the log"));
  EXPECT_THAT(page.out, HasSubstr("(lines 110 and 111)"));
  const auto checked = run_program({"check", shipped("cellar-log.toml")});
  EXPECT_EQ(checked.status, 0) << checked.err;
  EXPECT_THAT(unwrapped(checked.out),
              AllOf(HasSubstr("room by cellar.csv"), HasSubstr("09:00 to 17:00: as logged."),
                    HasSubstr("(lines 110 and 111)")));
}

TEST(ReadingsPlan, aDayByOneReadingHasNoClimateOfALog) {
  const auto r =
      run_program({"plan", shipped("heron-drypoint.toml"), "--samples", "8", "--json", "-"});
  EXPECT_EQ(r.status, 0) << r.err;
  EXPECT_FALSE(json::parse(r.out).contains("climate"));
}

TEST_F(WithLog, daysBeforeItStandForADayNotLogged) {
  write("cellar.csv", text_of(shipped("cellar.csv")));
  const auto r = run_program({"plan", session("2026-03-14", "2026-03-16"), "--samples", "8"});
  EXPECT_EQ(r.status, 0) << r.err;
  EXPECT_THAT(unwrapped(r.out),
              HasSubstr("09:00 to 17:00: a typical day, the mean by the clock hour of the readings "
                        "of 13 to 14 March"));
  EXPECT_THAT(unwrapped(r.out), HasSubstr("up to 4 points damper or drier"));
}

// Two days of one mean, dry in the morning or dry in the afternoon: the damping chosen is the same,
// what an early pull finds on the bench is not.
TEST_F(WithLog, theAirOfItsOwnHoursReachesASheet) {
  const auto planned = [&](int morning, int afternoon) {
    std::string rows = "time;temp C;RH %\n";
    for (int h = 8; h <= 18; ++h) {
      const auto clock = std::string(h < 10 ? "0" : "") + std::to_string(h);
      for (const char* minutes : {":00", ":30"}) {
        rows += "2026-03-14 " + clock + minutes + ";18;" +
                std::to_string(h < 13 ? morning : afternoon) + "\n";
      }
    }
    write("cellar.csv", rows);
    const auto path = session("[[plates]]", "[damping]\nhold = \"bench\"\n\n[[plates]]");
    const auto r = run_program({"plan", path, "--samples", "8", "--json", "-"});
    EXPECT_EQ(r.status, 0) << r.err;
    return json::parse(r.out);
  };
  const auto dry_first = planned(40, 70);
  const auto damp_first = planned(70, 40);
  EXPECT_NEAR(dry_first["climate"]["humidity_percent"]["mean"].get<double>(),
              damp_first["climate"]["humidity_percent"]["mean"].get<double>(), 2);
  ASSERT_FALSE(dry_first["pulls"].empty());
  ASSERT_FALSE(damp_first["pulls"].empty());
  ASSERT_EQ(dry_first["pulls"][0]["at"], damp_first["pulls"][0]["at"]);
  EXPECT_LT(dry_first["pulls"][0]["moisture"]["mean"].get<double>(),
            damp_first["pulls"][0]["moisture"]["mean"].get<double>() - 0.005);
}

TEST_F(WithLog, aLogThatIsMissingOrEmptyIsOneErrorInItsPlace) {
  const auto path = session("cellar.csv\"", "celar.csv\"");
  for (const char* command : {"plan", "check"}) {
    const auto missing = run_program({command, path});
    EXPECT_EQ(missing.status, 66);
    EXPECT_EQ(missing.out, "");
    EXPECT_THAT(missing.err, AllOf(HasSubstr("day.toml:14:12: error: studio.readings: cannot open"),
                                   HasSubstr("No such file"), HasSubstr("\nhelp: ")));
  }
  write("celar.csv", "time;temp C\n2026-03-14 09:00;17\n");
  const auto bad = run_program({"plan", path});
  EXPECT_EQ(bad.status, 65);
  EXPECT_EQ(bad.out, "");
  EXPECT_THAT(bad.err, HasSubstr("celar.csv:1:1: error: no column of humidity in this header"));
}

TEST_F(WithLog, aLogAndAReadingOfTheAirContradict) {
  write("cellar.csv", text_of(shipped("cellar.csv")));
  const auto both = run_program(
      {"check", session("air      = \"still\"", "humidity = \"52 %\"\nair = \"still\"")});
  EXPECT_EQ(both.status, 1);
  EXPECT_THAT(both.err, HasSubstr("keep one of humidity, wet_bulb, dew_point and readings"));
  const auto warm = run_program(
      {"check", session("air      = \"still\"", "temperature = \"17 degC\"\nair = \"still\"")});
  EXPECT_EQ(warm.status, 0);
  EXPECT_THAT(warm.err, HasSubstr("studio.temperature is not used: the readings have their own"));
}

TEST_F(WithLog, theLogsTimesMayStandInAnotherZone) {
  write("cellar.csv", text_of(shipped("cellar.csv")));
  const auto r = run_program(
      {"check", session("air      = \"still\"", "readings_zone = \"UTC\"\nair = \"still\"")});
  EXPECT_EQ(r.status, 0) << r.err;
  EXPECT_THAT(unwrapped(r.out), HasSubstr("No reading from 12:40 to 14:20 (lines 110 and 111)"));
}

// --- dampline air, dampline sheet ----------------------------------------------------------------

const std::vector<std::string> cellar{"--readings", shipped("cellar.csv"), "--zone",
                                      "Europe/Vienna"};

Outcome with_log(std::vector<std::string> words, const std::vector<std::string>& more = {}) {
  words.insert(words.end(), cellar.begin(), cellar.end());
  words.insert(words.end(), more.begin(), more.end());
  return run_program(words);
}

TEST(ReadingsAir, sumsALogUp) {
  const auto r = with_log({"air"});
  EXPECT_EQ(r.status, 0) << r.err;
  const auto shown = unwrapped(r.out);
  EXPECT_THAT(shown, HasSubstr("138, one every 10 min"));
  EXPECT_THAT(shown, HasSubstr("2026-03-13 18:00 to 2026-03-14 18:30, Europe/Vienna"));
  EXPECT_THAT(shown, HasSubstr("2026-03-14 11:40 to 2026-03-14 13:20 (lines 110 and 111)"));
  EXPECT_THAT(shown, HasSubstr("line 103: humidity \"7o,7\" is not a number"));
  const auto data = json::parse(with_log({"air", "--json"}).out);
  const auto& power = data["evaporation_g_m2_h"];
  EXPECT_GT(power["driest"].get<double>(), power["mean"].get<double>());
  EXPECT_GT(power["mean"].get<double>(), power["dampest"].get<double>());
  EXPECT_EQ(data["readings"], 138);
  // The same air, given as one reading, has the same drying power.
  const auto mean = json::parse(
      run_program({"air", "-t",
                   std::to_string(data["temperature_c"]["mean"].get<double>()) + " degC", "-u",
                   std::to_string(data["humidity_percent"]["mean"].get<double>()) + " %", "--json"})
          .out);
  EXPECT_NEAR(mean["evaporation_g_m2_h"].get<double>(), power["mean"].get<double>(), 0.01);
}

TEST(ReadingsSheet, followsASheetThroughTheLog) {
  const std::vector<std::string> words{"sheet", "--hold", "bench", "--samples", "0", "--json"};
  const auto dried = [&](const std::string& from) {
    const auto r = with_log(words, {"--from", from});
    EXPECT_EQ(r.status, 0) << r.err;
    const auto data = json::parse(r.out);
    EXPECT_LT(data["water_balance_error"].get<double>(), 1e-9);
    return data["ready_until_minutes"].get<double>() - data["ready_from_minutes"].get<double>();
  };
  // 13:30 is the driest part of the log, the evening before the dampest.
  EXPECT_LT(dried("2026-03-14 13:30"), 0.9 * dried("2026-03-13 20:00"));
}

TEST(ReadingsSheet, aLogOfOneSteadyAirIsThatAir) {
  std::string rows = "time,temp C,RH %\n";
  for (int h = 0; h < 24; ++h) {
    rows += "2026-03-14 " + std::string(h < 10 ? "0" : "") + std::to_string(h) + ":00,18,55\n";
  }
  const std::vector<std::string> words{"sheet", "--hold", "bench", "--samples", "0", "--json"};
  auto by_log = words;
  by_log.insert(by_log.end(), {"--readings", "-"});
  auto by_reading = words;
  by_reading.insert(by_reading.end(), {"--temperature", "18 degC", "--humidity", "55 %"});
  const auto a = json::parse(run_program(by_log, rows).out);
  const auto b = json::parse(run_program(by_reading).out);
  EXPECT_NEAR(a["ready_until_minutes"].get<double>(), b["ready_until_minutes"].get<double>(), 0.05);
  EXPECT_NEAR(a["curve"].back()["mean"].get<double>(), b["curve"].back()["mean"].get<double>(),
              2e-4);
}

// 20 degC, 50 %: wet bulb 13.78, dew point 9.27 degC [psychrolib].
TEST(SheetAir, takesWetBulbDewPointAndAltitude) {
  const auto humidity = [](std::vector<std::string> words) {
    words.insert(words.begin(), {"sheet", "--samples", "0", "--json"});
    const auto r = run_program(words);
    EXPECT_EQ(r.status, 0) << r.err;
    return json::parse(r.out)["humidity_percent"].get<double>();
  };
  EXPECT_NEAR(humidity({"--wet-bulb", "13.7834 degC"}), 50, 0.05);
  EXPECT_NEAR(humidity({"--dew-point", "9.2724 degC"}), 50, 0.05);
  // In thinner air the same wet bulb is that of damper air.
  EXPECT_GT(humidity({"--wet-bulb", "13.7834 degC", "--altitude", "2240 m"}), 51);
}

TEST(SheetAir, refusesWhatContradicts) {
  const auto refused = [](std::vector<std::string> words) {
    words.insert(words.begin(), "sheet");
    const auto r = run_program(words);
    EXPECT_EQ(r.out, "");
    return std::to_string(r.status) + " " + r.err;
  };
  EXPECT_THAT(refused({"--humidity", "50 %", "--wet-bulb", "13 degC"}),
              HasSubstr("2 dampline sheet: the damp of the air is given more than once"));
  EXPECT_THAT(refused({"--dew-point", "9 degC", "--wet-bulb", "13 degC"}),
              HasSubstr("keep one of"));
  EXPECT_THAT(refused({"--wet-bulb", "25 degC"}), HasSubstr("65 "));
  EXPECT_THAT(refused({"--readings", "x.csv", "--humidity", "50 %"}),
              HasSubstr("2 dampline sheet: a log of the air and a reading of it"));
  EXPECT_THAT(refused({"--from", "2026-03-14 09:30"}), HasSubstr("--from without --readings"));
  EXPECT_THAT(refused({"--zone", "UTC"}), HasSubstr("--zone without --readings"));
  EXPECT_THAT(refused({"--readings", "no-such.csv"}), HasSubstr("66 "));
  EXPECT_THAT(refused({"--readings", shipped("cellar.csv"), "--zone", "Europe/Wien"}),
              HasSubstr("no time zone"));
  EXPECT_THAT(refused({"--readings", shipped("cellar.csv"), "--from", "14.03.2026 09:30"}),
              HasSubstr("--from \"2026-03-14 09:30\""));
}

TEST(ReadingsExplain, tellsTheKey) {
  const auto r = run_program({"explain", "studio.readings"});
  EXPECT_EQ(r.status, 0);
  EXPECT_THAT(r.out, AllOf(HasSubstr("hygrometer's log"), HasSubstr("hygrometer.csv")));
}

}  // namespace
}  // namespace dampline::tests
