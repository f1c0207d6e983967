#include <sstream>

#include "run_program.hpp"

namespace dampline::tests {
namespace {

double number_of(const std::string& json, const std::string& key) {
  const auto at = json.find("\"" + key + "\": ");
  EXPECT_NE(at, std::string::npos) << key;
  return at == std::string::npos ? -1 : std::stod(json.substr(at + key.size() + 4));
}

Outcome usual(const std::vector<std::string>& more) {
  std::vector<std::string> words = {"sheet",    "--grammage", "300 g/m2", "--sizing",
                                    "internal", "--soak",     "30 min",   "--blot",
                                    "2",        "--samples",  "8",        "--json"};
  words.insert(words.end(), more.begin(), more.end());
  return run_program(words);
}

TEST(SheetCommand, closesItsWaterBalance) {
  const Outcome o = usual({});
  ASSERT_EQ(o.status, 0) << o.err;
  EXPECT_LT(number_of(o.out, "water_balance_error"), 1e-9);
  EXPECT_NE(o.out.find("\"format\": \"dampline-sheet\""), std::string::npos);
  EXPECT_NE(o.out.find("\"growth_percent\""), std::string::npos);
}

TEST(SheetCommand, dryRoomsGiveShorterWindows) {
  const auto window = [](const std::string& temperature, const std::string& humidity) {
    const Outcome o =
        usual({"--hold", "bench", "--temperature", temperature, "--humidity", humidity});
    EXPECT_EQ(o.status, 0) << o.err;
    return number_of(o.out, "ready_until_minutes") - number_of(o.out, "ready_from_minutes");
  };
  EXPECT_LT(window("21 degC", "25 %"), window("16 degC", "75 %"));
}

TEST(SheetCommand, saysTheSameTwice) { EXPECT_EQ(usual({}).out, usual({}).out); }

TEST(SheetCommand, pageKeepsToItsColumnsAndToAscii) {
  std::istringstream in;
  std::ostringstream out;
  std::ostringstream err;
  const std::vector<std::string> words = {"sheet", "--samples", "4", "--hold", "bench"};
  const int status =
      cli::run(words, {.in = in, .out = out, .err = err, .columns = 80, .utf8 = false});
  ASSERT_EQ(status, 0) << err.str();
  std::istringstream lines(out.str());
  for (std::string line; std::getline(lines, line);) {
    EXPECT_LE(line.size(), 80U) << line;
    for (const char c : line) EXPECT_GE(c, ' ') << line;
  }
}

TEST(SheetCommand, refusesWhatItCannotDo) {
  EXPECT_EQ(run_program({"sheet", "--process", "engraving on butter"}).status, 2);
  EXPECT_EQ(run_program({"sheet", "--grammage", "300"}).status, 2);
  EXPECT_EQ(run_program({"sheet", "--soak", "900 h"}).status, 2);
  EXPECT_EQ(run_program({"sheet", "--temperature", "80 degC"}).status, 2);
  EXPECT_EQ(run_program({"sheet", "--stock", "no such stock"}).status, 2);
}

}  // namespace
}  // namespace dampline::tests
