#include "support/reference_table.hpp"

#include <charconv>
#include <fstream>
#include <limits>
#include <sstream>
#include <stdexcept>

#include "support/source_tree.hpp"

namespace dampline::tests {
namespace {

double number(std::string_view text) {
  double value = 0;
  if (text.starts_with('+')) text.remove_prefix(1);
  const auto got = std::from_chars(text.data(), text.data() + text.size(), value);
  const bool whole = got.ec == std::errc() && got.ptr == text.data() + text.size();
  return whole ? value : std::numeric_limits<double>::quiet_NaN();
}

std::vector<std::string> split(const std::string& line) {
  std::vector<std::string> fields(1);
  for (const char c : line) {
    if (c == ',') {
      fields.emplace_back();
    } else if (c != '\r') {
      fields.back() += c;
    }
  }
  return fields;
}

}  // namespace

std::size_t ReferenceTable::column(const std::string& name) const {
  for (std::size_t i = 0; i < columns.size(); ++i) {
    if (columns[i] == name) return i;
  }
  throw std::runtime_error("no column " + name);
}

std::string repository_file(const std::string& path) {
  std::ifstream in(in_source_tree(path), std::ios::binary);
  if (!in) throw std::runtime_error("no file " + path);
  std::ostringstream text;
  text << in.rdbuf();
  return text.str();
}

ReferenceTable reference_table(const std::string& name) {
  std::istringstream in(repository_file("tests/reference/" + name));
  ReferenceTable table;
  std::string line;
  for (int count = 1; std::getline(in, line); ++count) {
    if (line.empty()) continue;
    if (line.starts_with("# Source: ")) table.source = line.substr(10);
    if (line.starts_with("# Allowed: ")) {
      const auto end = line.find(' ', 11);
      table.allowed = number(std::string_view(line).substr(11, end - 11));
      if (!(table.allowed > 0)) throw std::runtime_error(name + ": Allowed is not a number");
    }
    if (line.starts_with('#')) continue;
    if (table.columns.empty()) {
      table.columns = split(line);
      continue;
    }
    ReferenceRow row;
    row.line = count;
    row.field = split(line);
    for (const auto& field : row.field) row.cell.push_back(number(field));
    if (row.cell.size() != table.columns.size()) {
      throw std::runtime_error(name + " line " + std::to_string(count) + ": wrong field count");
    }
    table.rows.push_back(std::move(row));
  }
  if (table.source.empty()) throw std::runtime_error(name + " names no source");
  if (table.rows.empty()) throw std::runtime_error(name + " has no rows");
  return table;
}

}  // namespace dampline::tests
