#include <algorithm>
#include <utility>

#include <dampline/material/faults.hpp>

namespace dampline::material {

void Faults::add(int line, int column, std::string what, std::string help) {
  CatalogueError e{std::string(file_), line, column, std::move(what), {}, std::move(help)};
  std::size_t begin = 0;
  for (int n = 1; n < line && begin != std::string_view::npos; ++n) {
    begin = text_.find('\n', begin);
    if (begin != std::string_view::npos) ++begin;
  }
  if (line > 0 && begin != std::string_view::npos) {
    e.excerpt = std::string(text_.substr(begin, text_.find('\n', begin) - begin));
  }
  errors_.push_back(std::move(e));
}

CatalogueErrors Faults::in_file_order() {
  std::stable_sort(errors_.begin(), errors_.end(), [](const auto& a, const auto& b) {
    return std::pair(a.line, a.column) < std::pair(b.line, b.column);
  });
  return std::move(errors_);
}

}  // namespace dampline::material
