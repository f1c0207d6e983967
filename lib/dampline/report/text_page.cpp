#include <algorithm>

#include <dampline/report/text_page.hpp>

namespace dampline::report {

namespace {

std::string spaces(int count) {
  return std::string(static_cast<std::size_t>(std::max(0, count)), ' ');
}

std::string_view trimmed_right(std::string_view text) {
  const auto last = text.find_last_not_of(' ');
  return text.substr(0, last == std::string_view::npos ? 0 : last + 1);
}

std::vector<std::string> head_lines(const std::string& head) {
  std::vector<std::string> out(1);
  for (const char c : head) {
    if (c == '|') {
      out.emplace_back();
    } else {
      out.back() += c;
    }
  }
  return out;
}

std::string head_in_words(const std::string& head) {
  std::string out = head;
  std::replace(out.begin(), out.end(), '|', ' ');
  const auto first = out.find_first_not_of(' ');
  return first == std::string::npos ? "" : out.substr(first);
}

}  // namespace

TextPage::TextPage(const TextOptions& options)
    : columns_(std::max(options.columns, 40)), utf8_(options.utf8), colour_(options.colour) {}

std::string TextPage::letters(std::string_view text) const {
  return utf8_ ? std::string(text) : ascii(text);
}

void TextPage::styled(std::string_view text, Ink ink) {
  if (!colour_ || ink == Ink::plain || text.empty()) {
    out_ += text;
    return;
  }
  out_ += ink == Ink::strong ? "\x1b[1m" : ink == Ink::quiet ? "\x1b[2m" : "\x1b[1;33m";
  out_ += text;
  out_ += "\x1b[0m";
}

void TextPage::blank() { out_ += '\n'; }

void TextPage::line(std::string_view text, Ink ink) {
  styled(trimmed_right(text), ink);
  out_ += '\n';
}

void TextPage::pieces(const std::vector<std::pair<std::string, Ink>>& pieces) {
  for (const auto& [text, ink] : pieces) styled(text, ink);
  out_ += '\n';
}

void TextPage::heading(std::string_view text) {
  blank();
  line(shortened(letters(text), columns_), Ink::strong);
}

void TextPage::paragraph(std::string_view text, int indent, std::string_view lead, Ink ink) {
  const auto lines = wrap(letters(text), columns_ - indent);
  const std::string margin = padded(shortened(letters(lead), indent), indent);
  for (std::size_t i = 0; i < lines.size(); ++i) {
    line((i == 0 ? margin : spaces(indent)) + lines[i], ink);
  }
}

void TextPage::table(const std::vector<Column>& columns,
                     const std::vector<std::vector<std::string>>& rows, int indent) {
  std::vector<int> widths;
  std::size_t head_height = 0;
  int total = indent;
  for (std::size_t c = 0; c < columns.size(); ++c) {
    int width = 0;
    const auto head = head_lines(columns[c].head);
    head_height = std::max(head_height, head.size());
    for (const auto& l : head) width = std::max(width, display_width(l));
    for (const auto& row : rows) width = std::max(width, display_width(letters(row[c])));
    widths.push_back(width);
    total += width;
  }
  const int gaps = static_cast<int>(columns.size()) - 1;
  const int gap = total + 2 * gaps <= columns_ ? 2 : 1;
  if (total + gap * gaps > columns_) {
    for (const auto& row : rows) pairs(columns, row, indent);
    return;
  }
  const auto put = [&](const auto& cell, Ink ink) {
    std::string text = spaces(indent);
    for (std::size_t c = 0; c < columns.size(); ++c) {
      text += spaces(c == 0 ? 0 : gap) + padded(cell(c), widths[c], columns[c].align);
    }
    line(text, ink);
  };
  for (std::size_t l = 0; l < head_height; ++l) {
    put(
        [&](std::size_t c) {
          const auto head = head_lines(columns[c].head);
          const std::size_t above = head_height - head.size();
          return l < above ? std::string() : head[l - above];
        },
        Ink::quiet);
  }
  for (const auto& row : rows) put([&](std::size_t c) { return letters(row[c]); }, Ink::plain);
}

void TextPage::pairs(const std::vector<Column>& columns, const std::vector<std::string>& row,
                     int indent) {
  std::string text;
  for (std::size_t c = 0; c < row.size(); ++c) {
    if (row[c].empty()) continue;
    text += (text.empty() ? "" : ", ") + head_in_words(columns[c].head) + " " + row[c];
  }
  const auto lines = wrap(letters(text), columns_ - indent - 2);
  for (std::size_t i = 0; i < lines.size(); ++i) {
    line(spaces(i == 0 ? indent : indent + 2) + lines[i]);
  }
}

}  // namespace dampline::report
