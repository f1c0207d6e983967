#include "house/source_text.hpp"

#include <algorithm>
#include <cctype>
#include <filesystem>

#include "support/reference_table.hpp"
#include "support/source_tree.hpp"

namespace dampline::tests {
namespace {

namespace fs = std::filesystem;

bool is_word_character(char c) { return std::isalnum(static_cast<unsigned char>(c)) || c == '_'; }

bool is_skipped_folder(const std::string& name) {
  return name == "build" || name == "node_modules" || (name.starts_with('.') && name != ".ci");
}

enum class Part { code, line_comment, block_comment, string, raw_string, character };

// Walks C++ text once and calls keep(part, index) for every character.
template <class Visit>
void walk(std::string_view text, Visit visit) {
  Part part = Part::code;
  std::string raw_end;
  for (std::size_t i = 0; i < text.size(); ++i) {
    const auto rest = text.substr(i);
    switch (part) {
      case Part::code:
        if (rest.starts_with("//")) {
          part = Part::line_comment;
        } else if (rest.starts_with("/*")) {
          part = Part::block_comment;
        } else if (rest.starts_with("R\"")) {
          part = Part::raw_string;
          raw_end = ")" + std::string(rest.substr(2, rest.find('(') - 2)) + "\"";
        } else if (text[i] == '"') {
          part = Part::string;
        } else if (text[i] == '\'' && (i == 0 || !is_word_character(text[i - 1]))) {
          part = Part::character;  // not the digit separator of 1'000
        }
        visit(part, i);
        break;
      case Part::line_comment:
        if (text[i] == '\n') part = Part::code;
        visit(part, i);
        break;
      case Part::block_comment:
        visit(part, i);
        if (text[i] == '/' && text[i - 1] == '*') part = Part::code;
        break;
      case Part::raw_string:
        visit(part, i);
        if (text.substr(0, i + 1).ends_with(raw_end)) part = Part::code;
        break;
      case Part::string:
      case Part::character:
        visit(part, i);
        if (text[i] == '\\') {
          visit(part, ++i);
        } else if (text[i] == (part == Part::string ? '"' : '\'')) {
          part = Part::code;
        }
        break;
    }
  }
}

template <class Keep>
std::string blanked(std::string_view text, Keep keep) {
  std::string out(text.size(), ' ');
  walk(text, [&](Part part, std::size_t i) {
    if (i < text.size() && (text[i] == '\n' || keep(part))) out[i] = text[i];
  });
  return out;
}

}  // namespace

std::vector<SourceFile> files_below(const std::string& folder,
                                    const std::vector<std::string>& endings) {
  const fs::path top(in_source_tree());
  std::vector<SourceFile> files;
  if (!fs::exists(top / folder)) return files;
  for (auto at = fs::recursive_directory_iterator(top / folder); at != fs::end(at); ++at) {
    const auto name = at->path().filename().string();
    if (at->is_directory()) {
      if (is_skipped_folder(name)) at.disable_recursion_pending();
      continue;
    }
    const bool wanted =
        endings.empty() || std::any_of(endings.begin(), endings.end(),
                                       [&](const auto& ending) { return name.ends_with(ending); });
    if (!at->is_regular_file() || !wanted) continue;
    const auto path = fs::relative(at->path(), top).generic_string();
    files.push_back({path, repository_file(path)});
  }
  std::sort(files.begin(), files.end(),
            [](const auto& a, const auto& b) { return a.path < b.path; });
  return files;
}

std::string code_of(std::string_view text) {
  return blanked(text, [](Part part) { return part == Part::code; });
}

std::string comments_of(std::string_view text) {
  return blanked(
      text, [](Part part) { return part == Part::line_comment || part == Part::block_comment; });
}

std::vector<std::string> lines_of(std::string_view text) {
  std::vector<std::string> lines(1);
  for (const char c : text) {
    if (c == '\n') {
      lines.emplace_back();
    } else {
      lines.back() += c;
    }
  }
  if (lines.back().empty()) lines.pop_back();
  return lines;
}

bool has_word(std::string_view text, std::string_view word) {
  for (auto at = text.find(word); at != std::string_view::npos; at = text.find(word, at + 1)) {
    const auto end = at + word.size();
    const bool open = at == 0 || !is_word_character(text[at - 1]);
    const bool closed = end == text.size() || !is_word_character(text[end]);
    if (open && closed) return true;
  }
  return false;
}

std::string place(const SourceFile& file, std::size_t line_from_zero) {
  return file.path + ":" + std::to_string(line_from_zero + 1);
}

std::set<std::string> source_keys() {
  std::set<std::string> keys;
  for (const auto& line : lines_of(repository_file("docs/sources.bib"))) {
    const auto brace = line.find('{');
    if (!line.starts_with('@') || brace == std::string::npos) continue;
    keys.insert(line.substr(brace + 1, line.find(',') - brace - 1));
  }
  return keys;
}

std::vector<std::string> bracketed_words(std::string_view line) {
  std::vector<std::string> words;
  for (auto open = line.find('['); open != std::string_view::npos;
       open = line.find('[', open + 1)) {
    const auto close = line.find(']', open);
    if (close == std::string_view::npos) break;
    std::string word;
    std::vector<std::string> inside;
    for (const char c : std::string(line.substr(open + 1, close - open - 1)) + ",") {
      if (c != ',' && c != ';') {
        if (c != ' ') word += c;
        continue;
      }
      const bool is_key = !word.empty() && std::islower(static_cast<unsigned char>(word[0])) &&
                          std::all_of(word.begin(), word.end(), [](unsigned char w) {
                            return std::islower(w) || std::isdigit(w) || w == '-' || w == '_';
                          });
      if (is_key) inside.push_back(word);
      word.clear();
    }
    words.insert(words.end(), inside.begin(), inside.end());
  }
  return words;
}

}  // namespace dampline::tests
