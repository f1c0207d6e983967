#include <string>

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include "cli/run_program.hpp"
#include "program.hpp"
#include "support/reference_table.hpp"

namespace dampline::tests {
namespace {

using json = nlohmann::json;
using testing::HasSubstr;
using testing::Not;

std::string salt_marsh() { return repository_file("data/sessions/salt-marsh.toml"); }

std::vector<std::string> asked(std::vector<std::string> more) {
  std::vector<std::string> words{"compare", "-", "--samples", "8"};
  words.insert(words.end(), more.begin(), more.end());
  return words;
}

TEST(Compare, aStudioOfTheSameAirIsTheSameDay) {
  const auto r = run_program(asked({"--studio", "17 degC, 52 %", "--json", "-"}), salt_marsh());
  ASSERT_EQ(r.status, 0) << r.err;
  const auto days = json::parse(r.out)["studios"];
  ASSERT_EQ(days.size(), 2U);
  EXPECT_TRUE(days[0]["own"].get<bool>());
  auto same = days[1];
  same["own"] = true;
  EXPECT_EQ(days[0], same);
}

TEST(Compare, dampAirKeepsAnUncoveredSheetLonger) {
  const auto r = run_program(
      asked({"--studio", "17 degC, 85 %", "--studio", "26 degC, 30 %, fan", "--json", "-"}),
      salt_marsh());
  ASSERT_EQ(r.status, 0) << r.err;
  const auto days = json::parse(r.out)["studios"];
  ASSERT_EQ(days.size(), 3U);
  const auto open = [&](std::size_t i) {
    return days[i]["open_minutes"].is_null() ? 1e9 : days[i]["open_minutes"].get<double>();
  };
  EXPECT_GT(open(1), open(0));
  EXPECT_LT(open(2), open(0));
  EXPECT_LE(days[2]["prints_planned"].get<int>(), days[0]["prints_planned"].get<int>());
}

TEST(Compare, isOneTableAndAChartWithin80Columns) {
  const auto r = run_program(asked({"--studio", "12 degC, 80 %", "--ascii"}), salt_marsh());
  EXPECT_EQ(r.status, 0) << r.err;
  EXPECT_EQ(r.err, "");
  EXPECT_THAT(r.out, HasSubstr("B 12 degC, 80 %, still"));
  EXPECT_THAT(r.out, HasSubstr("\n  A *"));
  EXPECT_THAT(r.out, HasSubstr("wwPP"));
  std::size_t at = 0;
  for (auto end = r.out.find('\n'); end != std::string::npos;
       at = end + 1, end = r.out.find('\n', at)) {
    EXPECT_LE(end - at, 80U) << r.out.substr(at, end - at);
  }
}

TEST(Compare, refusesAirThatIsNone) {
  for (const char* air : {"12 degC", "80 %", "12, 80 %", "12 degC, 80 %, gale", "60 degC, 10 %",
                          "12 degC, 0 %", "nan degC, 50 %", ""}) {
    const auto r = run_program(asked({"--studio", air}), salt_marsh());
    EXPECT_EQ(r.status, 2) << air;
    EXPECT_THAT(r.err, HasSubstr("help: ")) << air;
  }
  EXPECT_EQ(run_program({"compare", "-"}, salt_marsh()).status, 2);
}

TEST(Compare, progressIsForATerminalOnlyAndIsWipedAway) {
  const auto errors = [](bool terminal, std::vector<std::string> more) {
    std::istringstream in(salt_marsh());
    std::ostringstream out, err;
    more.insert(more.end(), {"--studio", "12 degC, 80 %"});
    EXPECT_EQ(
        cli::run(asked(more), {.in = in, .out = out, .err = err, .err_is_terminal = terminal}), 0);
    return err.str();
  };
  EXPECT_EQ(errors(false, {}), "");
  EXPECT_EQ(errors(true, {"--quiet"}), "");
  EXPECT_EQ(errors(true, {"--json", "-"}), "");
  const auto shown = errors(true, {});
  EXPECT_THAT(shown, HasSubstr("studio 2 of 2"));
  EXPECT_TRUE(shown.ends_with("             \r")) << shown;
}

}  // namespace
}  // namespace dampline::tests
