#pragma once

#include <map>
#include <string>
#include <vector>

/// Published tables, kept as CSV in tests/reference with their source in the head:
///   # Source: [key] where the numbers were read
///   # Allowed: 0.0003            (optional: the tolerance the source itself supports)
///   name_with_unit,other_column
namespace dampline::tests {

struct ReferenceRow {
  int line = 0;                    ///< in the file, counted from 1
  std::vector<double> cell;        ///< numbers; NaN where the field is text
  std::vector<std::string> field;  ///< the fields as written
};

struct ReferenceTable {
  std::string source;
  double allowed = 0;
  std::vector<std::string> columns;
  std::vector<ReferenceRow> rows;
  [[nodiscard]] std::size_t column(const std::string& name) const;  ///< throws when absent
  auto begin() const { return rows.begin(); }
  auto end() const { return rows.end(); }
};

/// Reads tests/reference/<name>. Throws when the file is missing, its head names no source, or it
/// has no rows, so that an unsourced table cannot be used.
[[nodiscard]] ReferenceTable reference_table(const std::string& name);

/// The text of a file of this repository, by its path from the top. Throws when missing.
[[nodiscard]] std::string repository_file(const std::string& path);

}  // namespace dampline::tests
