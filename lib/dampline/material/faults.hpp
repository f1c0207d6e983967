#pragma once

#include <string>
#include <string_view>
#include <vector>

/// What is wrong in a data file.
namespace dampline::material {

/// One thing wrong in a stocks file. Lines and columns count from 1; line 0 is the file as a whole.
struct CatalogueError {
  std::string file;
  int line = 0;
  int column = 0;
  std::string what;
  std::string excerpt;  ///< the source line
  std::string help;     ///< how to mend it; never empty
};
using CatalogueErrors = std::vector<CatalogueError>;  ///< everything wrong, in file order

/// Gathers them while one file is read; the text must outlive it.
class Faults {
 public:
  Faults(std::string_view text, std::string_view file) : text_(text), file_(file) {}
  /// Line and column from 1; line 0: the whole file.
  void add(int line, int column, std::string what, std::string help);
  [[nodiscard]] bool none() const { return errors_.empty(); }
  [[nodiscard]] CatalogueErrors in_file_order();

 private:
  std::string_view text_;
  std::string_view file_;
  CatalogueErrors errors_;
};

}  // namespace dampline::material
