#include <filesystem>
#include <fstream>

#include <nlohmann/json.hpp>

#include "run_program.hpp"
#include "support/reference_table.hpp"

namespace dampline::tests {
namespace {

using nlohmann::json;

// A file of one's own that is gone after the test.
class OwnFile {
 public:
  explicit OwnFile(const std::string& text)
      : path_(std::filesystem::temp_directory_path() /
              ("dampline-methods-" +
               std::string(testing::UnitTest::GetInstance()->current_test_info()->name()) +
               ".toml")) {
    std::ofstream(path_) << text;
  }
  OwnFile(const OwnFile&) = delete;
  OwnFile& operator=(const OwnFile&) = delete;
  ~OwnFile() { std::filesystem::remove(path_); }
  [[nodiscard]] std::string path() const { return path_.string(); }

 private:
  std::filesystem::path path_;
};

Outcome sheet(const std::vector<std::string>& more) {
  std::vector<std::string> words = {"sheet", "--grammage", "300 g/m2", "--samples", "2"};
  words.insert(words.end(), more.begin(), more.end());
  return run_program(words);
}

json answer(const std::vector<std::string>& more) {
  auto words = more;
  words.push_back("--json");
  const Outcome o = sheet(words);
  EXPECT_EQ(o.status, 0) << o.err;
  return o.status == 0 ? json::parse(o.out) : json();
}

// The ```toml block of docs/methods.md.
std::string example() {
  const std::string page = repository_file("docs/methods.md");
  const auto from = page.find("```toml\n") + 8;
  return page.substr(from, page.find("```", from) - from);
}

TEST(SheetMethod, everyMethodOfTheBookRuns) {
  const std::string book = repository_file("data/methods.toml");
  int methods = 0;
  for (std::size_t at = book.find("[[method]]"); at != std::string::npos;
       at = book.find("[[method]]", at + 1)) {
    const auto quote = book.find('"', at);
    const std::string name = book.substr(quote + 1, book.find('"', quote + 1) - quote - 1);
    SCOPED_TRACE(name);
    const json a = answer({"--method", name});
    EXPECT_LT(a["water_balance_error"].get<double>(), 1e-9);
    EXPECT_FALSE(a["stages"].empty());
    EXPECT_FALSE(a["curve"].empty());
    if (a["purpose"] == "drying") {
      EXPECT_GT(a["dry_at_minutes"].get<double>(), 30);
      EXPECT_TRUE(a["ready_from_minutes"].is_null());
    } else {
      EXPECT_TRUE(a["dry_at_minutes"].is_null());
    }
    EXPECT_EQ(sheet({"--method", name}).status, 0);
    ++methods;
  }
  EXPECT_GE(methods, 15);
}

TEST(SheetMethod, optionsTakeThePlaceOfTheBooksNumbers) {
  const json a = answer({"--method", "soak", "--soak", "12 min", "--rest", "1 h", "--blot", "4"});
  EXPECT_EQ(a["stages"][0]["minutes"], 12);
  EXPECT_NEAR(a["stages"][2]["minutes"].get<double>(), 80.0 / 60, 1e-9);
  EXPECT_EQ(a["stages"][3]["minutes"], 60);
  EXPECT_EQ(answer({"--method", "soak", "--blot", "0"})["stages"].size(), 3U);
  EXPECT_EQ(answer({"--method", "pack", "--rest", "5 h"})["stages"][0]["minutes"], 300);
  EXPECT_EQ(sheet({"--method", "mist", "--soak", "12 min"}).status, 2);
  EXPECT_EQ(sheet({"--method", "soak", "--film", "50 g/m2"}).status, 2);
  EXPECT_EQ(sheet({"--method", "mist", "--blot", "2"}).status, 2);
}

TEST(SheetMethod, anUnknownOneIsAnsweredWithTheNearest) {
  const Outcome o = sheet({"--method", "spong"});
  EXPECT_EQ(o.status, 2);
  EXPECT_NE(o.err.find("did you mean \"sponge\""), std::string::npos) << o.err;
}

TEST(SheetMethod, theExampleOfTheManualRuns) {
  const OwnFile own(example());
  const json floated = answer({"--methods", own.path(), "--method", "float and press"});
  ASSERT_EQ(floated["stages"].size(), 3U);
  EXPECT_EQ(floated["stages"][0]["name"], "float");
  EXPECT_LT(floated["stages"][0]["minutes"].get<double>(), 20);
  const json dried = answer({"--methods", own.path(), "--method", "two boards"});
  EXPECT_EQ(dried["purpose"], "drying");
  EXPECT_FALSE(dried["dry_at_minutes"].is_null());
  // The installed ones are still there.
  EXPECT_EQ(sheet({"--methods", own.path(), "--method", "soak"}).status, 0);
}

TEST(SheetMethod, aFaultyFileIsReadToItsEnd) {
  const OwnFile own("[[method]]\nname = \"mine\"\n[[method.stage]]\nas = \"tubb\"\nfor = \"5\"\n");
  const Outcome o = sheet({"--methods", own.path(), "--method", "mine"});
  EXPECT_EQ(o.status, 65);
  EXPECT_NE(o.err.find(".toml:4:"), std::string::npos) << o.err;
  EXPECT_NE(o.err.find(".toml:5:"), std::string::npos) << o.err;
}

// Every word of the manual's tables is one that the reader takes, and the other way round.
TEST(SheetMethod, theManualExplainsEveryWord) {
  const std::string page = repository_file("docs/methods.md");
  const OwnFile own("[[method]]\nname = \"m\"\nx = 1\n[[method.stage]]\nas = \"q\"\nqqqqqqq = 1\n");
  const std::string err = sheet({"--methods", own.path(), "--method", "m"}).err;
  const auto list = err.find("one of: basis, as");
  ASSERT_NE(list, std::string::npos) << err;
  std::string words = err.substr(list + 8, err.find('\n', list) - list - 8);
  const auto last = words.rfind(" or ");
  ASSERT_NE(last, std::string::npos) << err;
  words.replace(last, 4, ", ");
  for (std::size_t from = 0; from < words.size();) {
    const auto to = std::min(words.find(", ", from), words.size());
    const std::string key = words.substr(from, to - from);
    EXPECT_NE(page.find("`" + key + "`"), std::string::npos) << key;
    from = to + 2;
  }
}

}  // namespace
}  // namespace dampline::tests
