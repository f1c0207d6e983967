#include <algorithm>
#include <filesystem>
#include <map>
#include <set>

#include <gtest/gtest.h>

#include "house/source_text.hpp"
#include "support/reference_table.hpp"
#include "support/source_tree.hpp"

namespace dampline::tests {
namespace {

namespace fs = std::filesystem;

TEST(Files, theTopHoldsOnlyWhatIsListed) {
  const std::set<std::string> allowed{".ci",
                                      ".clang-format",
                                      ".clang-tidy",
                                      ".git",
                                      ".gitignore",
                                      "CMakeLists.txt",
                                      "CMakePresets.json",
                                      "DEVELOPERS.md",
                                      "LICENSE",
                                      "README.md",
                                      "build",
                                      "cli",
                                      "data",
                                      "docs",
                                      "lib",
                                      "tests"};
  for (const auto& entry : fs::directory_iterator(in_source_tree())) {
    const auto name = entry.path().filename().string();
    EXPECT_TRUE(allowed.contains(name)) << name << " does not belong at the top";
  }
}

// Longer than 400 lines, each with its reason.
TEST(Files, noSourceFileIsLong) {
  const std::map<std::string, std::string> with_reason{
      {"lib/dampline/units/parse.cpp", "one table of units a quantity; splitting parts the tables"},
  };
  constexpr std::size_t longest = 400;
  std::set<std::string> long_files;
  for (const std::string folder : {"lib", "cli"}) {
    for (const auto& file : files_below(folder, {".cpp", ".hpp"})) {
      const auto count = lines_of(file.text).size();
      if (count <= longest) continue;
      long_files.insert(file.path);
      EXPECT_TRUE(with_reason.contains(file.path)) << file.path << " has " << count << " lines";
    }
  }
  for (const auto& [path, reason] : with_reason) {
    EXPECT_TRUE(long_files.contains(path)) << path << " is short now: strike it from the list";
  }
}

// Put together here so that this file does not hold the words it looks for.
std::vector<std::string> put_off_words() {
  return {std::string("TO") + "DO", std::string("FIX") + "ME", std::string("XX") + "X",
          std::string("HA") + "CK", std::string("st") + "ub",  std::string("place") + "holder"};
}

TEST(Files, nothingIsPutOff) {
  for (const auto& file : files_below("")) {
    if (file.path.ends_with("package-lock.json")) continue;
    const auto lines = lines_of(file.text);
    for (std::size_t i = 0; i < lines.size(); ++i) {
      for (const auto& word : put_off_words()) {
        EXPECT_FALSE(has_word(lines[i], word)) << place(file, i) << " says " << word;
      }
    }
  }
}

TEST(Files, noPathOfOneMachineIsWrittenDown) {
  const std::string slash = "/";
  const std::vector<std::string> machine_paths{slash + "work/", slash + "home/", slash + "root/",
                                               slash + "tmp/"};
  for (const auto& file : files_below("")) {
    const auto lines = lines_of(file.text);
    for (std::size_t i = 0; i < lines.size(); ++i) {
      for (const auto& path : machine_paths) {
        const auto at = lines[i].find(path);
        const bool inside_a_longer_path =
            at != std::string::npos && at > 0 &&
            (std::isalnum(static_cast<unsigned char>(lines[i][at - 1])) || lines[i][at - 1] == '.');
        EXPECT_TRUE(at == std::string::npos || inside_a_longer_path)
            << place(file, i) << " names " << path;
      }
    }
  }
}

TEST(Files, textIsCleanUtf8WithUnixLines) {
  for (const auto& file : files_below("")) {
    if (file.path.find("/corpus/") != std::string::npos) continue;  // fuzz seeds may be anything
    if (file.path.ends_with(".png") || file.path.ends_with(".pdf")) continue;
    EXPECT_EQ(file.text.find('\r'), std::string::npos) << file.path << " has a carriage return";
    EXPECT_EQ(file.text.find('\0'), std::string::npos) << file.path << " is not text";
    EXPECT_TRUE(file.text.empty() || file.text.ends_with('\n')) << file.path << " ends mid-line";
  }
}

TEST(Files, headersAreGuardedAndScriptsCanRun) {
  for (const std::string folder : {"lib", "cli", "tests"}) {
    for (const auto& file : files_below(folder, {".hpp"})) {
      EXPECT_NE(file.text.find("#pragma once\n"), std::string::npos) << file.path;
    }
  }
  for (const auto& file : files_below("")) {
    if (!file.text.starts_with("#!")) continue;
    const auto rights = fs::status(fs::path(in_source_tree()) / file.path).permissions();
    EXPECT_NE(rights & fs::perms::owner_exec, fs::perms::none) << file.path << " is not executable";
  }
}

}  // namespace
}  // namespace dampline::tests
