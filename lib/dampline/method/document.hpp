#pragma once

#include <cstdint>
#include <initializer_list>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <variant>
#include <vector>

#include <dampline/material/catalogue.hpp>
#include <dampline/units/parse.hpp>

/// A methods file as plain values with their places, and the ways of asking for them.
namespace dampline::method::document {

struct Place {
  int line = 0;
  int column = 0;
};

struct Entry;
using Table = std::vector<Entry>;

struct Node {
  enum class Kind { text, truth, whole, list, table, other };
  Place where;
  Kind kind = Kind::other;
  std::string text{};
  std::int64_t whole = 0;
  bool truth = false;
  std::vector<Node> items;  ///< of a list
  Table entries;            ///< of a table
};
struct Entry {
  std::string key;
  Place where;
  Node value;
};

/// Everything wrong in a file.
class Faults : public material::Faults {
 public:
  using material::Faults::add;
  using material::Faults::Faults;
  void add(Place where, std::string what, std::string help) {
    add(where.line, where.column, std::move(what), std::move(help));
  }
};

/// The tables of a TOML text; none, and a fault, when it is too large or no TOML.
[[nodiscard]] std::optional<Node> parse(std::string_view text, std::string_view file,
                                        Faults& faults);

/// A table being read: what it has not been asked for is an unknown key.
class Keys {
 public:
  Keys(const Node& table, Faults& faults) : table_(table), faults_(faults) {}
  [[nodiscard]] const Node* find(std::string_view key);
  [[nodiscard]] bool has(std::string_view key) { return find(key) != nullptr; }
  [[nodiscard]] Place place(std::string_view key);
  [[nodiscard]] Place place() const { return table_.where; }

  /// A text; empty and a fault when it is missing though needed, or no text.
  std::string text(std::string_view key, bool needed);
  std::optional<bool> truth(std::string_view key);
  std::optional<int> whole(std::string_view key, int low, int high);
  std::vector<std::string> texts(std::string_view key);
  /// One of some words.
  template <class Value>
  std::optional<Value> word(std::string_view key,
                            std::initializer_list<std::pair<std::string_view, Value>> words) {
    const std::string given = text(key, false);
    if (given.empty()) return std::nullopt;
    std::vector<std::string_view> names;
    for (const auto& [name, value] : words) {
      if (name == given) return value;
      names.push_back(name);
    }
    unknown_word(key, given, names);
    return std::nullopt;
  }
  /// What `read` makes of a text.
  template <class Value>
  std::optional<Value> parsed(std::string_view key,
                              units::Parsed<Value> (*read)(std::string_view)) {
    const std::string given = text(key, false);
    if (given.empty()) return std::nullopt;
    return taken(key, read(given));
  }
  template <class Value>
  std::optional<Value> taken(std::string_view key, const units::Parsed<Value>& read) {
    if (const auto* value = std::get_if<Value>(&read)) return *value;
    refused(key, std::get<units::Refusal>(read));
    return std::nullopt;
  }
  void fault(std::string_view key, std::string what, std::string help) {
    faults_.add(place(key), std::move(what), std::move(help));
  }
  /// Every key that was not asked for, with the one it looks like.
  void refuse_the_rest();

 private:
  void refused(std::string_view key, const units::Refusal& refusal);
  void unknown_word(std::string_view key, const std::string& given,
                    const std::vector<std::string_view>& known);

  const Node& table_;
  Faults& faults_;
  std::vector<std::string_view> known_;
};

}  // namespace dampline::method::document
