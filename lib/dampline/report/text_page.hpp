#pragma once

#include <string>
#include <string_view>
#include <vector>

#include <dampline/report/characters.hpp>
#include <dampline/report/plan_text.hpp>

namespace dampline::report {

enum class Ink { plain, strong, quiet, alert };

/// Lays lines out within a width and an alphabet. Styles only wrap whole lines or pieces whose
/// width is already settled, so that they never count as columns.
class TextPage {
 public:
  explicit TextPage(const TextOptions& options);

  [[nodiscard]] int columns() const { return columns_; }
  [[nodiscard]] bool utf8() const { return utf8_; }
  /// The text in the page's alphabet.
  [[nodiscard]] std::string letters(std::string_view text) const;

  void blank();
  void line(std::string_view text, Ink ink = Ink::plain);
  /// A line made of styled pieces; the caller keeps it within the width.
  void pieces(const std::vector<std::pair<std::string, Ink>>& pieces);
  void heading(std::string_view text);
  /// Wrapped; the first line begins with `lead` in the margin of `indent` columns.
  void paragraph(std::string_view text, int indent, std::string_view lead = {},
                 Ink ink = Ink::plain);

  struct Column {
    std::string head;  ///< lines divided by "|", set at the foot
    Align align = Align::left;
  };
  /// Columns side by side, two spaces apart if they fit or one; else each row as a line of "head
  /// value" pairs, wrapped.
  void table(const std::vector<Column>& columns, const std::vector<std::vector<std::string>>& rows,
             int indent);

  [[nodiscard]] std::string take() { return std::move(out_); }

 private:
  void styled(std::string_view text, Ink ink);
  void pairs(const std::vector<Column>& columns, const std::vector<std::string>& row, int indent);

  int columns_;
  bool utf8_;
  bool colour_;
  std::string out_;
};

}  // namespace dampline::report
