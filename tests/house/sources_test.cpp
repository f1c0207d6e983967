#include <algorithm>
#include <cctype>

#include <gtest/gtest.h>

#include "house/source_text.hpp"
#include "support/reference_table.hpp"

namespace dampline::tests {
namespace {

// Ends like the year of a paper or the number of a standard: surely meant as a citation.
bool looks_like_a_key(const std::string& word) {
  const auto digits =
      std::count_if(word.begin(), word.end(), [](unsigned char c) { return std::isdigit(c) != 0; });
  return digits >= 3 && word.find_first_of("-_") == std::string::npos;
}

// A line whose every bracketed word is a citation.
bool is_source_line(const std::string& line) {
  return line.find("Source") != std::string::npos || line.find("basis") != std::string::npos;
}

struct Citation {
  std::string key;
  std::string where;
  bool sure = false;
};

std::vector<Citation> citations() {
  std::vector<Citation> found;
  for (const std::string folder : {"lib", "cli", "tests", "data", "docs"}) {
    for (const auto& file :
         files_below(folder, {".cpp", ".hpp", ".csv", ".toml", ".md", ".sh", ".cjs", ".mjs"})) {
      if (file.path.starts_with("tests/house/")) continue;
      const bool is_code = file.path.ends_with(".cpp") || file.path.ends_with(".hpp");
      const bool is_page = file.path.ends_with(".md");
      // In code, "basis" is also a member's name and its value a string: strings stay in.
      const auto lines = lines_of(is_code ? comments_of(file.text) : file.text);
      for (std::size_t i = 0; i < lines.size(); ++i) {
        for (const auto& word : bracketed_words(lines[i])) {
          if (word == "key") continue;  // where a comment explains how to cite
          const bool sure = looks_like_a_key(word) || (!is_page && is_source_line(lines[i]));
          found.push_back({word, place(file, i), sure});
        }
      }
      if (!is_code) continue;
      // Citations that the program itself prints stand in strings.
      for (const auto& line : lines_of(file.text)) {
        for (const auto& word : bracketed_words(line)) found.push_back({word, file.path, false});
      }
    }
  }
  return found;
}

TEST(Sources, everyCitationIsInTheBibliography) {
  const auto keys = source_keys();
  int sure = 0;
  for (const auto& citation : citations()) {
    if (!citation.sure) continue;
    ++sure;
    EXPECT_TRUE(keys.contains(citation.key))
        << citation.where << " cites [" << citation.key << "], not in docs/sources.bib";
  }
  EXPECT_GT(sure, 0);
}

TEST(Sources, everyEntryIsCited) {
  const auto cited = citations();
  const auto keys = source_keys();
  EXPECT_FALSE(keys.empty());
  for (const auto& key : keys) {
    EXPECT_TRUE(std::any_of(cited.begin(), cited.end(),
                            [&](const auto& citation) { return citation.key == key; }))
        << "docs/sources.bib: " << key << " is cited nowhere";
  }
}

TEST(Sources, theBibliographyIsSortedWholeAndPlain) {
  const auto text = repository_file("docs/sources.bib");
  const auto lines = lines_of(text);
  std::string last;
  int depth = 0;
  std::string entry;
  std::string key;
  for (std::size_t i = 0; i < lines.size(); ++i) {
    const auto& line = lines[i];
    if (depth == 0 && line.starts_with('@')) {
      key = line.substr(line.find('{') + 1, line.find(',') - line.find('{') - 1);
      EXPECT_LT(last, key) << "docs/sources.bib:" << i + 1 << ": not sorted, or twice";
      EXPECT_TRUE(std::all_of(key.begin(), key.end(),
                              [](unsigned char c) { return std::islower(c) || std::isdigit(c); }))
          << key << ": a key is lower-case letters and digits";
      last = key;
      entry.clear();
    } else {
      EXPECT_FALSE(depth == 0 && !line.empty()) << "docs/sources.bib:" << i + 1 << ": " << line;
    }
    entry += line + "\n";
    depth += static_cast<int>(std::count(line.begin(), line.end(), '{'));
    depth -= static_cast<int>(std::count(line.begin(), line.end(), '}'));
    if (depth == 0 && line == "}") {
      EXPECT_NE(entry.find("title = {"), std::string::npos) << key << " has no title";
      // A page or a program without a date says how it was published.
      const bool found = entry.find("year = {") != std::string::npos ||
                         entry.find("howpublished = {") != std::string::npos;
      EXPECT_TRUE(found) << key << " has neither year nor howpublished";
    }
  }
  EXPECT_EQ(depth, 0) << "braces do not close";
}

TEST(Sources, everyReferenceTableNamesItsSource) {
  int tables = 0;
  for (const auto& file : files_below("tests/reference", {".csv"})) {
    SCOPED_TRACE(file.path);
    ++tables;
    EXPECT_NO_THROW(
        (void)reference_table(file.path.substr(std::string("tests/reference/").size())));
  }
  EXPECT_GT(tables, 5);
}

}  // namespace
}  // namespace dampline::tests
