#include <filesystem>
#include <fstream>

#include "run_program.hpp"
#include "schema.hpp"
#include "support/source_tree.hpp"

namespace dampline::cli {
namespace {

using testing::HasSubstr;
using testing::StartsWith;
using tests::run_program;

std::string shipped(const std::string& name) { return tests::in_source_tree("data/" + name); }

struct BadFile {
  const char* name;
  std::string text;
  int status;
  const char* complaint;
};

std::ostream& operator<<(std::ostream& out, const BadFile& f) { return out << f.name; }

class Check : public testing::TestWithParam<BadFile> {};

TEST_P(Check, saysWhatIsWrongAndHowToMendIt) {
  const auto& bad = GetParam();
  const auto r = run_program({"check", "-"}, bad.text);
  EXPECT_EQ(r.status, bad.status);
  EXPECT_EQ(r.out, "");
  EXPECT_THAT(r.err, StartsWith("(standard input)"));
  EXPECT_THAT(r.err, HasSubstr(bad.complaint));
  EXPECT_THAT(r.err, HasSubstr("\nhelp: "));
}

const std::string rest =
    "sheet = \"38 x 56 cm\"\n[[plates]]\nname = \"key\"\nsize = \"20 x 30 cm\"\n"
    "process = \"etching\"\n[edition]\n";

INSTANTIATE_TEST_SUITE_P(
    Files, Check,
    testing::Values(
        BadFile{"empty", "", 1, "nothing in it"},
        BadFile{"dots", std::string(1'000'000, '.'), 65, "larger than 256 KiB"},
        BadFile{"latin1", "title = \"caf\xe9\"\n", 65, ":1:13: error: this character is not UTF-8"},
        BadFile{"bare", "[paper]\ngrammage = 300\n" + rest + "prints = 1\n", 1,
                ":2:12: error: paper.grammage: bare number for a grammage"},
        BadFile{"negative", "[paper]\ngrammage = \"-300 g/m2\"\n" + rest + "prints = 1\n", 1,
                ":2:13: error: paper.grammage: a grammage cannot be negative"},
        BadFile{"unit", "[paper]\ngrammage = \"300 gsmm\"\n" + rest + "prints = 1\n", 1,
                ":2:17: error: paper.grammage: unknown unit \"gsmm\""},
        BadFile{"many", "[paper]\nstock = \"a\"\n" + rest + "prints = 1000000000\n", 1,
                "edition.prints is 1000000000, outside 1 to 1000"},
        BadFile{"syntax", "[paper]\ngrammage = 300gsm\n", 65, ":2:12: error: a quantity without"}));

TEST(CheckCommand, aDirectoryAndAMissingFileAreMissingInput) {
  auto r = run_program({"check", tests::in_source_tree()});
  EXPECT_EQ(r.status, 66);
  EXPECT_THAT(r.err, HasSubstr("is a directory, not a file\nhelp: "));
  r = run_program({"check", "no-such-file.toml"});
  EXPECT_EQ(r.status, 66);
  EXPECT_EQ(r.err,
            "dampline check: cannot open no-such-file.toml: No such file or directory\n"
            "help: check the name and the folder\n");
}

TEST(CheckCommand, everyShippedSessionReadsWell) {
  int n = 0;
  for (const auto& entry : std::filesystem::directory_iterator(shipped("sessions"))) {
    if (entry.path().extension() != ".toml") continue;
    const auto r = run_program({"check", entry.path().string()});
    EXPECT_EQ(r.status, 0) << r.err;
    // The demonstration log has a row that cannot be read.
    const bool spoiled = entry.path().filename() == "cellar-log.toml";
    EXPECT_EQ(r.err.empty(), !spoiled) << r.err;
    EXPECT_THAT(r.out, HasSubstr(" reads well: "));
    ++n;
  }
  EXPECT_GE(n, 4);
}

TEST(NewCommand, writesASessionThatReadsWell) {
  const auto starter = run_program({"new"});
  EXPECT_EQ(starter.status, 0);
  const auto r = run_program({"check", "-"}, starter.out);
  EXPECT_EQ(r.status, 0) << r.err;
}

TEST(NewCommand, writesNoFileTwice) {
  const auto folder = std::filesystem::path(testing::TempDir()) / "dampline_new_test";
  std::filesystem::remove_all(folder);
  std::filesystem::create_directories(folder);
  const auto path = (folder / "day.toml").string();
  EXPECT_EQ(run_program({"new", path}).status, 0);
  { std::ofstream(path, std::ios::app) << "# mine\n"; }
  const auto size = std::filesystem::file_size(path);
  const auto r = run_program({"new", path});
  EXPECT_EQ(r.status, 73);
  EXPECT_THAT(r.err, HasSubstr("it exists already"));
  EXPECT_EQ(std::filesystem::file_size(path), size);
  EXPECT_EQ(run_program({"new", (folder / "no/such/day.toml").string()}).status, 73);
  std::filesystem::remove_all(folder);
}

TEST(ExplainCommand, knowsKeysWithAndWithoutTheirTable) {
  const auto r = run_program({"explain", "plates.size"});
  EXPECT_EQ(r.status, 0);
  EXPECT_THAT(r.out, StartsWith("plates.size: both sides\n"));
  EXPECT_THAT(run_program({"explain", "sheets"}).out, HasSubstr("equipment.tub.sheets"));
  const auto slip = run_program({"explain", "tolerence"});
  EXPECT_EQ(slip.status, 2);
  EXPECT_THAT(slip.err, HasSubstr("did you mean tolerance?"));
}

// Editors complete and check from this file; it is the key table and nothing else.
TEST(Schema, theShippedFileIsTheKeyTable) {
  std::ifstream in(shipped("session.schema.json"));
  std::ostringstream text;
  text << in.rdbuf();
  EXPECT_EQ(text.str(), session_schema())
      << "write it anew: dampline explain --schema > data/session.schema.json";
}

}  // namespace
}  // namespace dampline::cli
