#include "tables.hpp"

#include <set>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "run_program.hpp"

// Every option of every command: in the help, the manual and the completions of three shells.

namespace dampline::cli {
namespace {

using testing::HasSubstr;

std::vector<std::string> words_of(const Described& t) {
  std::vector<std::string> out;
  for (std::size_t at = 0; at < t.about.command.size();) {
    const auto end = std::min(t.about.command.find(' ', at), t.about.command.size());
    out.push_back(t.about.command.substr(at, end - at));
    at = end + 1;
  }
  return out;
}

/// The lines of a script from the one that opens a command's part to the one that ends it.
std::string part(const std::string& script, const std::string& opens, const std::string& ends) {
  const auto from = script.find(opens);
  EXPECT_NE(from, std::string::npos) << opens;
  return from == std::string::npos ? "" : script.substr(from, script.find(ends, from) - from);
}

TEST(Tables, knowEveryCommandAndEveryWordOfLog) {
  std::set<std::string> names;
  for (const auto& t : all_tables()) EXPECT_TRUE(names.insert(t.about.command).second);
  for (const auto& command : commands()) EXPECT_TRUE(names.contains(std::string(command.name)));
  EXPECT_TRUE(names.contains("log weigh"));
  EXPECT_TRUE(names.contains("log export"));
  EXPECT_GT(names.size(), 25U);
}

TEST(Tables, everyOptionStandsInHelpManualAndCompletions) {
  const auto tables = all_tables();
  const auto bash = bash_completion(tables), zsh = zsh_completion(tables),
             fish = fish_completion(tables);
  int options = 0;
  for (const auto& t : tables) {
    SCOPED_TRACE(t.about.command);
    auto words = words_of(t);
    const auto man = manual_of(t);
    const bool of_log = words.size() > 1;
    const auto name = words.back();
    words.push_back("--help");
    const auto help = tests::run_program(words).out;
    const auto in_bash = part(bash, "    '" + t.about.command + "')\n", ";;");
    // In zsh words of log stand before the commands, so that "compare" is found twice.
    const auto in_zsh = t.about.command == "log"
                            ? std::string()
                            : part(zsh, (of_log ? "\n      " : "\n    ") + name + ")\n", "  ;;");
    for (const auto& o : t.options) {
      ++options;
      EXPECT_THAT(help, HasSubstr("--" + o.name));
      std::string shielded = "--" + o.name;
      for (std::size_t at = 0; (at = shielded.find('-', at)) != std::string::npos; at += 2) {
        shielded.insert(at, "\\");
      }
      EXPECT_THAT(man, HasSubstr("Fl " + shielded.substr(2)));
      EXPECT_THAT(in_bash, HasSubstr("--" + o.name));
      const bool is_divided = t.about.command == "log";
      EXPECT_TRUE(is_divided || in_zsh.find("--" + o.name + "[") != std::string::npos) << o.name;
      const auto line = part(fish, "__fish_seen_subcommand_from " + name, "\n\n");
      EXPECT_THAT(line, HasSubstr(" -l " + o.name));
    }
  }
  EXPECT_GT(options, 150);
}

TEST(Tables, theOptionsOfEveryCommandAreThere) {
  for (const auto& t : all_tables()) {
    std::set<std::string> names;
    for (const auto& o : t.options) names.insert(o.name);
    for (const char* name : {"help", "color", "ascii"}) EXPECT_TRUE(names.contains(name));
  }
}

TEST(Completions, anUnknownShellIsRefused) {
  const auto r = tests::run_program({"completions", "csh"});
  EXPECT_EQ(r.status, 2);
  EXPECT_THAT(r.err, HasSubstr("bash, zsh or fish"));
}

TEST(Manual, textIsNeverARequest) {
  Described odd{.about = {.command = "x", .purpose = ".Sh \\fB", .usage = "", .examples = {"'a"}},
                .options = {},
                .operands = {}};
  const auto page = manual_of(odd);
  EXPECT_THAT(page, testing::Not(HasSubstr("\n.Sh \\fB")));
  EXPECT_THAT(page, HasSubstr("\\efB"));
  EXPECT_EQ(tests::run_program({"man", "plna"}).status, 2);
  EXPECT_THAT(tests::run_program({"man", "log", "weigh"}).out, HasSubstr(".Nm dampline-log-weigh"));
}

}  // namespace
}  // namespace dampline::cli
