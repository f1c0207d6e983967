#include "run_program.hpp"

namespace dampline::cli {
namespace {

TEST(Program, withoutWordsSaysHowOnStderr) {
  const auto r = tests::run_program({});
  EXPECT_EQ(r.status, 2);
  EXPECT_EQ(r.out, "");
  EXPECT_NE(r.err.find("usage: dampline COMMAND"), std::string::npos);
}

TEST(Program, helpGoesToStdout) {
  for (const auto& words : {std::vector<std::string>{"--help"}, {"-h"}, {"help"}}) {
    const auto r = tests::run_program(words);
    EXPECT_EQ(r.status, 0);
    EXPECT_EQ(r.err, "");
    for (const char* status : {"0 ", "1 ", "2 ", "65", "66", "70", "73", "74"}) {
      EXPECT_NE(r.out.find("\n  " + std::string(status)), std::string::npos) << status;
    }
    for (const auto& command : commands()) {
      EXPECT_NE(r.out.find("\n  " + std::string(command.name) + " "), std::string::npos);
    }
  }
}

TEST(Program, everyCommandExplainsItselfIn80Columns) {
  for (const auto& command : commands()) {
    const std::string name(command.name);
    SCOPED_TRACE(name);
    const auto r = tests::run_program({"help", name});
    EXPECT_EQ(r.status, 0);
    EXPECT_EQ(r.err, "");
    EXPECT_EQ(r.out, tests::run_program({name, "--help"}).out);
    EXPECT_EQ(r.out, tests::run_program({name, "-h"}).out);
    EXPECT_EQ(r.out.rfind("dampline " + name + ": ", 0), 0U);
    EXPECT_NE(r.out.find("\nusage: dampline " + name), std::string::npos);
    EXPECT_NE(r.out.find("\nexamples\n  "), std::string::npos);
    for (std::size_t at = 0; at < r.out.size();) {
      const auto end = r.out.find('\n', at);
      EXPECT_LE(end - at, 80U) << r.out.substr(at, end - at);
      at = end + 1;
    }
  }
}

TEST(Program, versionIsTheFirstLine) {
  const auto r = tests::run_program({"--version"});
  EXPECT_EQ(r.status, 0);
  EXPECT_EQ(r.out.rfind("dampline ", 0), 0U);
}

TEST(Program, unknownWordsAreUsageErrorsWithASuggestion) {
  auto r = tests::run_program({"pahts"});
  EXPECT_EQ(r.status, 2);
  EXPECT_EQ(r.out, "");
  EXPECT_EQ(r.err, "dampline: unknown command pahts\nhelp: did you mean paths?\n");
  r = tests::run_program({"help", "xyzzy"});
  EXPECT_EQ(r.status, 2);
  EXPECT_NE(r.err.find("dampline --help"), std::string::npos);
  r = tests::run_program({"--vresion"});
  EXPECT_EQ(r.status, 2);
  EXPECT_NE(r.err.find("did you mean --version?"), std::string::npos);
}

}  // namespace
}  // namespace dampline::cli
