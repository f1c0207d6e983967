#include <dampline/session/csv.hpp>
#include <dampline/session/utf8.hpp>

namespace dampline::session {
namespace {

bool is_blank(char c) { return c == ' ' || c == '\t'; }

// Without blanks at its ends; `column` moves on with what is cut off in front.
Cell trimmed(std::string_view text, int column) {
  while (!text.empty() && is_blank(text.front())) {
    text.remove_prefix(1);
    ++column;
  }
  while (!text.empty() && is_blank(text.back())) text.remove_suffix(1);
  return {std::string(text), column};
}

// From behind the opening quote to behind the closing one; two quotes stand for one.
std::string_view quoted_cell(std::string_view rest, std::string& to, bool& closed) {
  closed = false;
  while (!rest.empty()) {
    if (rest.front() != '"') {
      to += rest.front();
      rest.remove_prefix(1);
    } else if (rest.size() > 1 && rest[1] == '"') {
      to += '"';
      rest.remove_prefix(2);
    } else {
      closed = true;
      return rest.substr(1);
    }
  }
  return rest;
}

}  // namespace

std::vector<std::string_view> lines_of(std::string_view text) {
  std::vector<std::string_view> lines;
  while (!text.empty()) {
    const auto end = text.find_first_of("\r\n");
    lines.push_back(text.substr(0, end));
    if (end == std::string_view::npos) break;
    text.remove_prefix(end + (text.substr(end).starts_with("\r\n") ? 2 : 1));
  }
  return lines;
}

Cells cells_of(std::string_view line, char separator) {
  Cells out;
  std::string_view rest = line;
  const auto column = [&] {
    return static_cast<int>(code_points(line.substr(0, line.size() - rest.size()))) + 1;
  };
  for (;;) {
    const int begins = column();
    const auto first = rest.find_first_not_of(separator == '\t' ? " " : " \t");
    if (first != std::string_view::npos && rest[first] == '"') {
      rest.remove_prefix(first + 1);
      std::string text;
      bool closed = false;
      const int inside = column();
      rest = quoted_cell(rest, text, closed);
      out.open_quote |= !closed;
      // What follows the closing quote belongs to the cell all the same.
      const auto end = rest.find(separator);
      text += rest.substr(0, end);
      out.cells.push_back(trimmed(text, inside));
      if (end == std::string_view::npos) return out;
      rest.remove_prefix(end + 1);
      continue;
    }
    const auto end = rest.find(separator);
    out.cells.push_back(trimmed(rest.substr(0, end), begins));
    if (end == std::string_view::npos) return out;
    rest.remove_prefix(end + 1);
  }
}

std::string as_utf8(std::string_view text, bool& from_latin1) {
  from_latin1 = first_bad_byte(text) != std::string_view::npos;
  if (!from_latin1) return std::string(text);
  std::string out;
  for (const char c : text) {
    const auto byte = static_cast<unsigned char>(c);
    if (byte < 0x80) {
      out += c;
    } else {
      out += static_cast<char>(0xC0U | (byte >> 6U));
      out += static_cast<char>(0x80U | (byte & 0x3FU));
    }
  }
  return out;
}

}  // namespace dampline::session
