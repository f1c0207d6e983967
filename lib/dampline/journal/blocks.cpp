#include <dampline/journal/blocks.hpp>

namespace dampline::journal {
namespace {

// Without blanks in front and behind.
std::string_view trimmed(std::string_view line) {
  const auto begin = line.find_first_not_of(" \t\r");
  if (begin == std::string_view::npos) return {};
  return line.substr(begin, line.find_last_not_of(" \t\r") - begin + 1);
}

bool is_head(std::string_view line) {
  if (!line.starts_with(head_line)) return false;
  const auto rest = trimmed(line.substr(head_line.size()));
  return rest.empty() || rest.front() == '#';
}

// Also of a later schema.
bool is_opening(std::string_view line) {
  return line.starts_with("schema = ") && line.ends_with(opening_line.substr(10));
}

}  // namespace

std::vector<Block> blocks_of(std::string_view text) {
  std::vector<Block> out;
  int number = 0;
  bool inside = false;  // a block is begun and not closed
  std::size_t at = text.starts_with("\xEF\xBB\xBF") ? 3 : 0;
  while (at < text.size()) {
    const auto newline = text.find('\n', at);
    const auto next = newline == std::string_view::npos ? text.size() : newline + 1;
    const auto line =
        trimmed(text.substr(at, next - at - (newline == std::string_view::npos ? 0 : 1)));
    ++number;
    const bool head = is_head(line);
    const bool says_something = !line.empty() && line.front() != '#';
    if (head || (!inside && says_something)) {
      out.push_back({.begin = at, .end = next, .line = number, .entry = head});
      inside = true;
    } else if (inside) {
      auto& block = out.back();
      // What is blank or a comment at the end of a block may belong to what follows it.
      if (says_something || line == closing_line) block.end = next;
      block.opened |= is_opening(line);
      if (line == closing_line && block.entry) {
        block.closed = true;
        inside = false;
      }
    }
    at = next;
  }
  return out;
}

}  // namespace dampline::journal
