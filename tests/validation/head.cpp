#include "validation/head.hpp"

#include <algorithm>
#include <cctype>
#include <sstream>

#include "support/reference_table.hpp"

namespace dampline::validation {

Head head_of(const std::string& file) {
  std::istringstream in(tests::repository_file("tests/reference/" + file));
  Head head;
  std::string* part = &head.title;
  for (std::string line; std::getline(in, line) && line.starts_with('#');) {
    std::string words = line.substr(1);
    if (words.starts_with(" Source: ")) {
      part = &head.source;
      words = words.substr(9);
    } else if (words.starts_with(" Allowed: ")) {
      part = &head.allowed;
      words = words.substr(10);
    }
    words.erase(0, words.find_first_not_of(' '));
    if (!part->empty() && !words.empty()) *part += ' ';
    *part += words;
  }
  return head;
}

std::vector<std::string> keys_in(const std::string& text) {
  std::vector<std::string> keys;
  for (auto open = text.find('['); open != std::string::npos; open = text.find('[', open + 1)) {
    const auto close = text.find(']', open);
    if (close == std::string::npos) break;
    const auto word = text.substr(open + 1, close - open - 1);
    const bool is_key = !word.empty() && std::all_of(word.begin(), word.end(), [](unsigned char c) {
      return std::islower(c) || std::isdigit(c);
    });
    if (is_key && std::count(keys.begin(), keys.end(), word) == 0) keys.push_back(word);
  }
  return keys;
}

}  // namespace dampline::validation
