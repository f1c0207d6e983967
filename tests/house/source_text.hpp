#pragma once

#include <set>
#include <string>
#include <string_view>
#include <vector>

/// The repository as text, for tests that hold the code to the rules of the house.
namespace dampline::tests {

struct SourceFile {
  std::string path;  ///< from the top of the repository
  std::string text;
};

/// Text files below `folder` ("" for all), sorted by path; nothing built, fetched or hidden but
/// .ci. `endings` such as {".cpp", ".hpp"}; empty: every file.
[[nodiscard]] std::vector<SourceFile> files_below(const std::string& folder,
                                                  const std::vector<std::string>& endings = {});

/// C++ with comments and the insides of literals blanked, line numbers kept.
[[nodiscard]] std::string code_of(std::string_view text);
/// C++ with everything but comments blanked, line numbers kept.
[[nodiscard]] std::string comments_of(std::string_view text);

[[nodiscard]] std::vector<std::string> lines_of(std::string_view text);

/// True when `word` stands in `text` with no letter, digit or underscore on either side.
[[nodiscard]] bool has_word(std::string_view text, std::string_view word);

/// "path:line"
[[nodiscard]] std::string place(const SourceFile& file, std::size_t line_from_zero);

/// The keys of docs/sources.bib.
[[nodiscard]] std::set<std::string> source_keys();

/// The words that stand in square brackets as citations do: "[a1990]", "[a1990, b1991]".
[[nodiscard]] std::vector<std::string> bracketed_words(std::string_view line);

}  // namespace dampline::tests
