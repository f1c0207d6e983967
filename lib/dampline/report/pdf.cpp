#include <algorithm>
#include <array>
#include <cstdint>

#include <dampline/report/characters.hpp>
#include <dampline/report/pdf.hpp>
#include <dampline/units/text.hpp>

namespace dampline::report {

namespace {

/// Widths of the printable ASCII characters in thousandths of the size: the metrics published with
/// the standard fonts, read in the metric files of Debian's fonts-urw-base35, which are of equal
/// width.
constexpr std::array<std::int16_t, 95> regular_widths{
    278,  278, 355, 556, 556, 889, 667, 191, 333, 333, 389, 584, 278, 333, 278, 278,  //
    556,  556, 556, 556, 556, 556, 556, 556, 556, 556, 278, 278, 584, 584, 584, 556,  //
    1015, 667, 667, 722, 722, 667, 611, 778, 722, 278, 500, 667, 556, 833, 722, 778,  //
    667,  778, 722, 667, 611, 722, 667, 944, 667, 667, 611, 278, 278, 278, 469, 556,  //
    333,  556, 556, 500, 556, 556, 278, 556, 556, 222, 222, 500, 222, 833, 556, 556,  //
    556,  556, 333, 500, 278, 556, 500, 722, 500, 500, 500, 334, 260, 334, 584};
constexpr std::array<std::int16_t, 95> bold_widths{
    278, 333, 474, 556, 556, 889, 722, 238, 333, 333, 389, 584, 278, 333, 278, 278,  //
    556, 556, 556, 556, 556, 556, 556, 556, 556, 556, 333, 333, 584, 584, 584, 611,  //
    975, 722, 722, 722, 722, 667, 611, 778, 722, 278, 556, 722, 611, 833, 722, 778,  //
    667, 778, 722, 667, 611, 722, 667, 944, 667, 667, 611, 333, 278, 333, 584, 556,  //
    333, 556, 611, 556, 611, 556, 333, 611, 611, 278, 278, 556, 278, 889, 611, 611,  //
    611, 611, 389, 556, 333, 611, 556, 778, 556, 556, 500, 389, 280, 389, 584};
constexpr int average_small = 556, average_capital = 722;  // for what has no entry above

/// What the alphabet has between 0x80 and 0x9F.
constexpr std::array<std::uint32_t, 32> upper{
    0x20AC, 0,      0x201A, 0x0192, 0x201E, 0x2026, 0x2020, 0x2021, 0x02C6, 0x2030, 0x0160,
    0x2039, 0x0152, 0,      0x017D, 0,      0,      0x2018, 0x2019, 0x201C, 0x201D, 0x2022,
    0x2013, 0x2014, 0x02DC, 0x2122, 0x0161, 0x203A, 0x0153, 0,      0x017E, 0x0178};

struct Character {
  std::uint32_t code;
  std::size_t size;
};

/// The text is clean(): every sequence is whole.
Character first_of(std::string_view text) {
  const auto byte = [&](std::size_t i) {
    return i < text.size() ? static_cast<std::uint32_t>(static_cast<unsigned char>(text[i])) : 0U;
  };
  const std::uint32_t lead = byte(0);
  if (lead < 0x80) return {lead, 1};
  if (lead < 0xE0) return {(lead & 31U) << 6U | (byte(1) & 63U), 2};
  if (lead < 0xF0) return {(lead & 15U) << 12U | (byte(1) & 63U) << 6U | (byte(2) & 63U), 3};
  return {0xFFFD, 4};
}

std::string number(double value) { return units::fixed(value, 2); }

std::string literal(std::string_view bytes) {
  std::string out = "(";
  for (const char c : bytes) {
    if (c == '(' || c == ')' || c == '\\') out += '\\';
    out += c;
  }
  return out + ")";
}

constexpr std::array<std::string_view, 3> font_names{"Helvetica", "Helvetica-Bold",
                                                     "Helvetica-Oblique"};

}  // namespace

std::string windows_latin(std::string_view text) {
  std::string out;
  const std::string whole = clean(text);
  for (std::string_view rest = whole; !rest.empty();) {
    const auto [code, size] = first_of(rest);
    const auto* found = std::find(upper.begin(), upper.end(), code);
    if (code < 0x80 || (code >= 0xA0 && code <= 0xFF)) {
      out += static_cast<char>(static_cast<unsigned char>(code));
    } else if (code != 0 && found != upper.end()) {
      out += static_cast<char>(static_cast<unsigned char>(0x80 + (found - upper.begin())));
    } else {
      out += ascii(rest.substr(0, size));
    }
    rest.remove_prefix(std::min(size, rest.size()));
  }
  return out;
}

double text_width(std::string_view words, double size, Font font) {
  int sum = 0;
  for (const char byte : windows_latin(words)) {
    const auto c = static_cast<unsigned char>(byte);
    if (c >= 32 && c < 127) {
      sum += (font == Font::bold ? bold_widths : regular_widths).at(c - 32U);
    } else {
      sum += c >= 0xC0 && c <= 0xDE ? average_capital : average_small;
    }
  }
  return sum * size / 1000;
}

std::vector<std::string> text_lines(std::string_view words, double size, Font font, double wide) {
  std::vector<std::string> lines{""};
  const auto fits = [&](const std::string& line) { return text_width(line, size, font) <= wide; };
  for (std::size_t at = 0; at < words.size();) {
    const auto end = std::min(words.find(' ', at), words.size());
    std::string word(words.substr(at, end - at));
    at = end + 1;
    if (word.empty()) continue;
    const std::string longer = lines.back() + (lines.back().empty() ? "" : " ") + word;
    if (fits(longer)) {
      lines.back() = longer;
      continue;
    }
    if (!lines.back().empty()) lines.emplace_back();
    while (!fits(word)) {  // cut between characters
      std::size_t cut = 0;
      for (std::size_t next = 0; next < word.size();) {
        next += first_of(std::string_view(word).substr(next)).size;
        if (!fits(word.substr(0, next)) && cut > 0) break;
        cut = next;
      }
      if (cut >= word.size()) break;
      lines.back() = word.substr(0, cut);
      lines.emplace_back();
      word.erase(0, cut);
    }
    lines.back() = word;
  }
  return lines;
}

void Pdf::new_page() {
  pages_.emplace_back();
  page_ = pages_.size() - 1;
}

void Pdf::text(double x, double y, double size, Font font, std::string_view words) {
  now() += "BT /F" + std::to_string(static_cast<int>(font)) + " " + number(size) + " Tf " +
           number(x) + " " + number(y) + " Td " + literal(windows_latin(words)) + " Tj ET\n";
}

void Pdf::line(double x0, double y0, double x1, double y1, double thickness, double grey) {
  now() += number(grey) + " G " + number(thickness) + " w " + number(x0) + " " + number(y0) +
           " m " + number(x1) + " " + number(y1) + " l S 0 G\n";
}

void Pdf::box(double x, double y, double wide, double tall, double thickness) {
  now() += number(thickness) + " w " + number(x) + " " + number(y) + " " + number(wide) + " " +
           number(tall) + " re S\n";
}

void Pdf::fill(double x, double y, double wide, double tall, double grey) {
  now() += number(grey) + " g " + number(x) + " " + number(y) + " " + number(wide) + " " +
           number(tall) + " re f 0 g\n";
}

std::string Pdf::take(std::string_view title) const {
  std::string out = "%PDF-1.4\n%\xE2\xE3\xCF\xD3\n";
  std::vector<std::size_t> places;
  const auto object = [&](const std::string& body) {
    places.push_back(out.size());
    out += std::to_string(places.size()) + " 0 obj\n" + body + "\nendobj\n";
  };
  constexpr std::size_t before_pages = 6;  // catalogue, tree, three fonts, title
  object(
      "<< /Type /Catalog /Pages 2 0 R /Lang (en) /ViewerPreferences << /DisplayDocTitle true >> "
      ">>");
  std::string kids;
  for (std::size_t i = 0; i < pages_.size(); ++i) {
    kids += std::to_string(before_pages + 1 + 2 * i) + " 0 R ";
  }
  object("<< /Type /Pages /Count " + std::to_string(pages_.size()) + " /Kids [ " + kids + "] >>");
  for (const auto name : font_names) {
    object("<< /Type /Font /Subtype /Type1 /BaseFont /" + std::string(name) +
           " /Encoding /WinAnsiEncoding >>");
  }
  object("<< /Title " + literal(windows_latin(title)) + " /Producer (dampline) >>");
  for (std::size_t i = 0; i < pages_.size(); ++i) {
    object("<< /Type /Page /Parent 2 0 R /MediaBox [ 0 0 " + number(width) + " " + number(height) +
           " ] /Resources << /Font << /F0 3 0 R /F1 4 0 R /F2 5 0 R >> >> /Contents " +
           std::to_string(before_pages + 2 + 2 * i) + " 0 R >>");
    object("<< /Length " + std::to_string(pages_[i].size()) + " >>\nstream\n" + pages_[i] +
           "endstream");
  }
  const std::size_t table = out.size();
  const auto count = std::to_string(places.size() + 1);
  out += "xref\n0 " + count + "\n0000000000 65535 f \n";
  for (const std::size_t place : places) {
    std::string digits = std::to_string(place);
    digits.insert(0, 10 - std::min<std::size_t>(10, digits.size()), '0');
    out += digits + " 00000 n \n";
  }
  out += "trailer\n<< /Size " + count + " /Root 1 0 R /Info 6 0 R >>\nstartxref\n" +
         std::to_string(table) + "\n%%EOF\n";
  return out;
}

}  // namespace dampline::report
