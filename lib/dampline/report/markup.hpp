#pragma once

#include <initializer_list>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace dampline::report {

/// `text` for HTML, SVG or XML: safe between tags and inside quoted attributes alike.
/// A number and its "%" are kept on one line.
[[nodiscard]] std::string escaped(std::string_view text);

/// A coordinate of a drawing, to a hundredth.
[[nodiscard]] std::string coordinate(double value);

using Attribute = std::pair<std::string_view, std::string>;

/// Writes elements that are always closed and text that is always escaped; the one way around the
/// escaping is verbatim(), for the program's own style sheet.
class Markup {
 public:
  Markup& open(std::string_view tag, std::initializer_list<Attribute> attributes = {});
  /// An element without content: "<rect/>", which HTML takes for its void elements too.
  Markup& empty(std::string_view tag, std::initializer_list<Attribute> attributes = {});
  Markup& text(std::string_view text);
  Markup& close();
  /// open, text, close
  Markup& element(std::string_view tag, std::string_view text,
                  std::initializer_list<Attribute> attributes = {});
  Markup& line();
  Markup& verbatim(std::string_view markup);

  /// Closes what is open and hands over.
  [[nodiscard]] std::string take();

 private:
  void begin(std::string_view tag, std::initializer_list<Attribute> attributes);

  std::string out_;
  std::vector<std::string> open_;
};

}  // namespace dampline::report
