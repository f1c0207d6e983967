#include <fstream>

#include "run_program.hpp"
#include "support/reference_table.hpp"

namespace dampline::cli {
namespace {

using ::testing::HasSubstr;
using tests::run_program;

std::size_t count(const std::string& text, const std::string& what) {
  std::size_t n = 0;
  for (auto at = text.find(what); at != std::string::npos; at = text.find(what, at + 1)) ++n;
  return n;
}

TEST(PapersCommand, listsEveryStockIn80Columns) {
  const auto r = run_program({"papers"});
  EXPECT_EQ(r.status, 0) << r.err;
  const auto file = tests::repository_file("data/stocks.toml");
  EXPECT_EQ(count(r.out, " g/m2"), count(file, "\n[[stock]]"));
  EXPECT_THAT(r.out, HasSubstr("mould-made cotton, internal size, 300 g/m2"));
  for (std::size_t at = 0; at < r.out.size();) {
    const auto end = r.out.find('\n', at);
    EXPECT_LE(end - at, 80U) << r.out.substr(at, end - at);
    at = end + 1;
  }
}

TEST(PapersCommand, showsEveryNumberOfOneWithItsRangeAndBasis) {
  const auto r = run_program({"papers", "mould-made cotton, internal size, 300 g/m2", "--json"});
  EXPECT_EQ(r.status, 0) << r.err;
  for (const char* key : {"grammage", "thickness", "cobb60", "accessible", "swelling",
                          "isotherm_scale", "pore_ratio", "vapour", "wetting_delay", "fibre_full",
                          "free_along", "dried_in_along", "free_across", "dried_in_across"}) {
    EXPECT_THAT(r.out, HasSubstr("\"" + std::string(key) + "\": {")) << key;
  }
  EXPECT_EQ(count(r.out, "\"basis\""), 14U);
  EXPECT_EQ(count(r.out, "\"humidity_percent\""), 9U);
  EXPECT_THAT(r.out, HasSubstr("\"value\": 300, \"low\": 288, \"high\": 312, \"unit\": \"g/m2\""));
}

TEST(PapersCommand, takesANameWithoutQuotes) {
  const auto quoted = run_program({"papers", "gampi, 20 g/m2"});
  const auto plain = run_program({"papers", "gampi,", "20", "g/m2"});
  EXPECT_EQ(quoted.status, 0) << quoted.err;
  EXPECT_EQ(quoted.out, plain.out);
  EXPECT_THAT(quoted.out, HasSubstr("moisture at 23 degC"));
}

TEST(PapersCommand, suggestsTheNearestName) {
  const auto r = run_program({"papers", "gampy 20"});
  EXPECT_EQ(r.status, 2);
  EXPECT_EQ(r.out, "");
  EXPECT_THAT(r.err, HasSubstr("no stock named \"gampy 20\""));
  EXPECT_THAT(r.err, HasSubstr("gampi, 20 g/m2"));
}

TEST(PapersCommand, reportsEverythingWrongInAStocksFile) {
  const std::string bad =
      "[[stock]]\nname = \"mine\"\nfurnish = \"cotten\"\nmaking = \"mould\"\nsizing = "
      "\"internal\"\ncolour = 3\n";
  const auto r = run_program({"papers", "--stocks", "-"}, bad);
  EXPECT_EQ(r.status, 65);
  EXPECT_EQ(r.out, "");
  EXPECT_THAT(r.err, HasSubstr("(standard input):3:11: error: unknown furnish \"cotten\""));
  EXPECT_THAT(r.err, HasSubstr(":6:1: error: unknown key \"colour\""));
  EXPECT_THAT(r.err, HasSubstr("help: one of: cotton"));
}

}  // namespace
}  // namespace dampline::cli
