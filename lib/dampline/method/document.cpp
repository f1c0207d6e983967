#include <algorithm>

#include <dampline/method/document.hpp>
#include <dampline/units/suggest.hpp>

namespace dampline::method::document {

namespace {

// "did you mean x?" where one is near, else "one of: ...".
std::string advice(std::string_view given, const std::vector<std::string_view>& known) {
  const std::vector<std::string> words(known.begin(), known.end());
  if (const auto near = units::nearest(given, words)) return "did you mean \"" + *near + "\"?";
  return "one of: " + units::listed(words, "");
}

}  // namespace

const Node* Keys::find(std::string_view key) {
  if (std::find(known_.begin(), known_.end(), key) == known_.end()) known_.push_back(key);
  for (const Entry& e : table_.entries) {
    if (e.key == key) return &e.value;
  }
  return nullptr;
}

Place Keys::place(std::string_view key) {
  const Node* node = find(key);
  return node == nullptr ? place() : node->where;
}

std::string Keys::text(std::string_view key, bool needed) {
  const Node* node = find(key);
  if (node == nullptr) {
    if (needed) {
      faults_.add(place(), "no " + std::string(key), "add " + std::string(key) + " = \"...\"");
    }
    return {};
  }
  if (node->kind != Node::Kind::text || node->text.empty()) {
    fault(key, std::string(key) + " is not a text",
          "write it in double quotes, a number with its unit");
    return {};
  }
  return node->text;
}

std::optional<bool> Keys::truth(std::string_view key) {
  const Node* node = find(key);
  if (node == nullptr) return std::nullopt;
  if (node->kind == Node::Kind::truth) return node->truth;
  fault(key, std::string(key) + " is neither true nor false", "write true or false");
  return std::nullopt;
}

std::optional<int> Keys::whole(std::string_view key, int low, int high) {
  const Node* node = find(key);
  if (node == nullptr) return std::nullopt;
  if (node->kind == Node::Kind::whole && node->whole >= low && node->whole <= high) {
    return static_cast<int>(node->whole);
  }
  fault(key,
        std::string(key) + " is not a whole number from " + std::to_string(low) + " to " +
            std::to_string(high),
        "write it without quotes");
  return std::nullopt;
}

std::vector<std::string> Keys::texts(std::string_view key) {
  std::vector<std::string> all;
  const Node* node = find(key);
  if (node == nullptr) return all;
  if (node->kind != Node::Kind::list) {
    fault(key, std::string(key) + " is not a list", "write " + std::string(key) + " = [\"...\"]");
    return all;
  }
  for (const Node& one : node->items) {
    if (one.kind == Node::Kind::text && !one.text.empty()) {
      all.push_back(one.text);
    } else {
      faults_.add(one.where, std::string(key) + " holds something that is not a text",
                  "write each in double quotes");
    }
  }
  return all;
}

void Keys::refused(std::string_view key, const units::Refusal& refusal) {
  Place where = place(key);
  where.column += static_cast<int>(refusal.column) + 1;  // past the quote
  faults_.add(where, std::string(key) + ": " + refusal.what, refusal.help);
}

void Keys::unknown_word(std::string_view key, const std::string& given,
                        const std::vector<std::string_view>& known) {
  fault(key, "unknown " + std::string(key) + " \"" + given + "\"", advice(given, known));
}

void Keys::refuse_the_rest() {
  for (const Entry& e : table_.entries) {
    if (std::find(known_.begin(), known_.end(), e.key) != known_.end()) continue;
    faults_.add(e.where, "unknown key \"" + e.key + "\"", advice(e.key, known_));
  }
}

}  // namespace dampline::method::document
