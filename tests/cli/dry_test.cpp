#include <string>

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include <dampline/planner/after_press.hpp>

#include "cli/run_program.hpp"
#include "support/reference_table.hpp"

// After the press, judged from the JSON and the calendar.

namespace dampline::tests {
namespace {

using json = nlohmann::json;
using testing::HasSubstr;

std::string changed(const std::string& from, const std::string& to) {
  auto text = repository_file("data/sessions/salt-marsh.toml");
  const auto at = text.find(from);
  EXPECT_NE(at, std::string::npos) << from;
  return at == std::string::npos ? text : text.replace(at, from.size(), to);
}

json dried(const std::string& session, std::vector<std::string> more = {}) {
  std::vector<std::string> words{"dry", "-", "--json", "-", "--samples", "16"};
  words.insert(words.end(), more.begin(), more.end());
  const auto r = run_program(words, session);
  EXPECT_EQ(r.status, 0) << r.err;
  return json::parse(r.out);
}

const json& of_kind(const json& calendar, const std::string& kind) {
  for (const auto& d : calendar["dates"]) {
    if (d["kind"] == kind) return d;
  }
  ADD_FAILURE() << "no " << kind;
  return calendar;
}

std::string at(const json& calendar, const std::string& kind) {
  return of_kind(calendar, kind)["at"];
}

TEST(Dry, everyDateHasABasisAndLiesInItsRange) {
  const auto c = dried(changed("boards\", places", "boards\", places"));
  EXPECT_EQ(c["format"], "dampline-dry");
  std::string before;
  for (const auto& d : c["dates"]) {
    EXPECT_FALSE(d["basis"].get<std::string>().empty());
    EXPECT_LE(before, d["at"].get<std::string>());
    before = d["at"];
    if (d["early"].is_null()) continue;
    EXPECT_LE(d["early"].get<std::string>(), d["at"].get<std::string>()) << d;
    if (d["late"].is_null()) continue;
    EXPECT_LE(d["due"].get<std::string>(), d["late"].get<std::string>()) << d;
  }
  EXPECT_LT(at(c, "dry"), at(c, "flat"));
  EXPECT_LT(at(c, "flat"), at(c, "stack"));
  EXPECT_TRUE(of_kind(c, "stack")["open_ended"].get<bool>());
}

TEST(Dry, printsDryFromChangeToChange) {
  const auto c = dried(changed("17 degC", "17 degC"));
  double before = c["moisture_g_g"]["start"];
  int changes = 0;
  for (const auto& d : c["dates"]) {
    if (d["kind"] != "blotters" || d["print_g_g"].is_null()) continue;
    ++changes;
    EXPECT_LT(d["print_g_g"].get<double>(), before);
    EXPECT_LT(d["blotter_g_g"].get<double>(), d["print_g_g"].get<double>());
    before = d["print_g_g"];
  }
  EXPECT_GE(changes, 3);
  EXPECT_GT(before, c["moisture_g_g"]["room"].get<double>());
}

TEST(Dry, aDamperRoomDriesLaterAndNobodyGetsUpInTheNight) {
  const auto damp = dried(changed("\"52 %\"", "\"80 %\"")),
             usual = dried(changed("\"52 %\"", "\"40 %\""));
  EXPECT_GT(damp["moisture_g_g"]["room"].get<double>(),
            usual["moisture_g_g"]["room"].get<double>());
  for (const auto& c : {damp, usual}) {
    for (const auto& d : c["dates"]) {
      if (d["kind"] == "dry") continue;
      const auto clock = d["at"].get<std::string>().substr(11, 5);
      EXPECT_GE(clock, "07:30") << d;
      EXPECT_LT(clock, "22:00") << d;
    }
  }
}

TEST(Dry, onALineItDriesInHoursAndIsFlattenedDaysLater) {
  const auto line = dried(changed("method = \"boards\"", "method = \"line\""));
  const auto boards = dried(changed("17 degC", "17 degC"));
  EXPECT_LT(at(line, "dry"), at(boards, "dry"));
  EXPECT_LT(at(line, "flatten"), at(line, "flat"));
  EXPECT_GT(at(line, "flat"), at(boards, "flat"));
}

TEST(Dry, countsFromWhenItWasReallyFinished) {
  const auto c = dried(changed("17 degC", "17 degC"), {"--finished", "18:20"});
  EXPECT_EQ(c["finished"], "2026-03-14T18:20:00+00:00");
  EXPECT_EQ(c["dates"][0]["at"], "2026-03-14T18:50:00+00:00");
  EXPECT_EQ(run_program({"dry", "-", "--finished", "25:00"}, changed("17 degC", "17 degC")).status,
            2);
}

TEST(Dry, countsRealHoursAcrossTheSpringChange) {
  const auto c = dried(changed("2026-03-14", "2026-03-28"), {"--finished", "16:50"});
  // 24 h and 12 h after, a day lost an hour: due 17:50 by the clock of the next day.
  const auto day = of_kind(c, "ink")["due"].get<std::string>();
  EXPECT_EQ(day, "2026-03-31T17:50:00+01:00");
}

TEST(Dry, itsCalendarTakesThePlaceOfThePlansOwn) {
  const auto session = changed("17 degC", "17 degC");
  const auto ids = [](const std::string& text) {
    std::vector<std::string> out;
    for (std::size_t at = text.find("UID:"); at != std::string::npos;
         at = text.find("UID:", at + 1)) {
      out.push_back(text.substr(at, text.find("\r\n", at) - at));
    }
    return out;
  };
  const auto plan = ids(run_program({"plan", "-", "--ics", "-"}, session).out);
  const auto dry = ids(run_program({"dry", "-", "--ics", "-"}, session).out);
  int shared = 0;
  for (const auto& id : dry) shared += std::count(plan.begin(), plan.end(), id) > 0 ? 1 : 0;
  EXPECT_GE(shared, 6) << "30 min, 3 h, 12 h, ink, flat, stack";
}

TEST(Dry, theTextFits80And140ColumnsAndKeepsToAscii) {
  const auto r =
      run_program({"dry", "-", "--ascii", "--samples", "8"}, changed("17 degC", "17 degC"));
  EXPECT_EQ(r.status, 0);
  EXPECT_THAT(r.out, HasSubstr("Mon      Tue"));
  std::size_t at = 0;
  for (std::size_t end = r.out.find('\n'); end != std::string::npos;
       at = end + 1, end = r.out.find('\n', at)) {
    EXPECT_LE(end - at, 80U) << r.out.substr(at, end - at);
  }
  for (const char c : r.out) EXPECT_GE(c, 0);
}

TEST(DryingRules, aFileThatCannotBeUsedSaysWhere) {
  const auto whole = repository_file("data/drying.toml");
  EXPECT_NO_THROW((void)planner::read_drying(whole, "drying.toml"));
  for (const std::string word :
       {"basis =", "changes ", "boards =", "least = \"3 days\"", "[stack]"}) {
    auto text = whole;
    text.replace(
        text.find("\n" + word) == std::string::npos ? text.find(word) : text.find("\n" + word) + 1,
        word.size(),
        word == "[stack]"              ? "[stuck]"
        : word == "least = \"3 days\"" ? "least = \"9 days\""
                                       : "other =");
    try {
      (void)planner::read_drying(text, "drying.toml");
      ADD_FAILURE() << word;
    } catch (const planner::DataError& e) {
      EXPECT_THAT(e.what(), HasSubstr("drying.toml:"));
    }
  }
}

}  // namespace
}  // namespace dampline::tests
