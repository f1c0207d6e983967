#include "support/source_tree.hpp"

namespace dampline::tests {

std::string in_source_tree(std::string_view path) {
  std::string whole = DAMPLINE_SOURCE_DIR;
  return path.empty() ? whole : whole.append("/").append(path);
}

}  // namespace dampline::tests
