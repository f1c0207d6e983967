#pragma once

#include <string>
#include <string_view>
#include <vector>

/// A small writer of PDF 1.4: text in the standard fonts that every reader has, lines and boxes. No
/// font is embedded, so text keeps to the Windows Latin alphabet; what lies outside it is written
/// without its accents or as "?". The same input gives the same bytes.
namespace dampline::report {

enum class Font { regular, bold, slanted };

/// Lengths in points (1/72 inch), from the lower left corner.
class Pdf {
 public:
  static constexpr double width = 595, height = 842;  ///< A4

  void new_page();
  [[nodiscard]] std::size_t pages() const { return pages_.size(); }
  /// Draws on this page, the first being 0, instead of the last.
  void choose(std::size_t page) { page_ = page; }

  void text(double x, double y, double size, Font font, std::string_view words);
  void line(double x0, double y0, double x1, double y1, double thickness, double grey = 0);
  void box(double x, double y, double wide, double tall, double thickness);
  void fill(double x, double y, double wide, double tall, double grey);

  /// The finished document. `title` for the reader's window.
  [[nodiscard]] std::string take(std::string_view title) const;

 private:
  std::string& now() { return pages_.at(page_); }
  std::vector<std::string> pages_;
  std::size_t page_ = 0;
};

/// How wide the text is. Error: letters with accents count as an average letter, within 10 %.
[[nodiscard]] double text_width(std::string_view words, double size, Font font);

/// Lines no wider than that, broken at spaces; a longer word is cut. Never empty.
[[nodiscard]] std::vector<std::string> text_lines(std::string_view words, double size, Font font,
                                                  double wide);

/// UTF-8 in the bytes of the fonts' alphabet.
[[nodiscard]] std::string windows_latin(std::string_view text);

}  // namespace dampline::report
