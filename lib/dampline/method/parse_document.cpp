#include <algorithm>

#include <toml++/toml.h>

#include <dampline/method/document.hpp>

namespace dampline::method::document {

namespace {

constexpr std::size_t largest_file = std::size_t{256} * 1024;
// The parser recurses once a part of a dotted key and overflows the stack near 30000 parts.
constexpr std::ptrdiff_t most_points = 10'000;

Place place_of(const toml::source_position& p) {
  return {static_cast<int>(p.line), static_cast<int>(p.column)};
}

Node node_of(const toml::node& from) {
  Node node;
  node.where = place_of(from.source().begin);
  if (const auto* text = from.as_string()) {
    node.kind = Node::Kind::text;
    node.text = text->get();
  } else if (const auto* truth = from.as_boolean()) {
    node.kind = Node::Kind::truth;
    node.truth = truth->get();
  } else if (const auto* whole = from.as_integer()) {
    node.kind = Node::Kind::whole;
    node.whole = whole->get();
  } else if (const auto* list = from.as_array()) {
    node.kind = Node::Kind::list;
    for (const auto& one : *list) node.items.push_back(node_of(one));
  } else if (const auto* table = from.as_table()) {
    node.kind = Node::Kind::table;
    for (const auto& [key, value] : *table) {
      node.entries.push_back(
          {std::string(key.str()), place_of(key.source().begin), node_of(value)});
    }
  }
  return node;
}

}  // namespace

std::optional<Node> parse(std::string_view text, std::string_view file, Faults& faults) {
  if (text.size() > largest_file) {
    faults.add({}, "the file is larger than 256 KiB", "keep your own methods in a file apart");
    return std::nullopt;
  }
  if (std::count(text.begin(), text.end(), '.') > most_points) {
    faults.add({}, "more than 10000 points in the file", "remove the long dotted key");
    return std::nullopt;
  }
  try {
    const toml::table root = toml::parse(text, std::string(file));
    return node_of(root);
  } catch (const toml::parse_error& e) {
    faults.add(place_of(e.source().begin), std::string(e.description()),
               "put text and quantities in double quotes, one key a line");
    return std::nullopt;
  }
}

}  // namespace dampline::method::document
