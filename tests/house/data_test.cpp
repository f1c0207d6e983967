#include <algorithm>
#include <cctype>
#include <charconv>
#include <optional>
#include <set>

#include <gtest/gtest.h>
#include <toml++/toml.h>

#include "house/source_text.hpp"
#include "support/reference_table.hpp"

namespace dampline::tests {
namespace {

const std::vector<std::string> marks{"common practice, no published source", "assumed",
                                     "from memory"};

// "basis" may join several marks and citations by ";" and say more in words after each.
bool is_basis(const std::string& text, const std::set<std::string>& keys) {
  for (const auto& mark : marks) {
    if (text.find(mark) != std::string::npos) return true;
  }
  const auto words = bracketed_words(text);
  return !words.empty() && std::all_of(words.begin(), words.end(),
                                       [&](const auto& word) { return keys.contains(word); });
}

struct Measure {
  double number = 0;
  std::string unit;
};

// A number, or a text that starts with one.
std::optional<Measure> measure(const toml::node& node) {
  if (const auto number = node.value<double>()) return Measure{*number, ""};
  const auto* string = node.as_string();
  if (string == nullptr || node.is_date() || node.is_time()) return std::nullopt;
  const auto& text = string->get();
  Measure found;
  const auto got = std::from_chars(text.data(), text.data() + text.size(), found.number);
  if (got.ec != std::errc()) return std::nullopt;
  found.unit = std::string(got.ptr, text.data() + text.size());
  return found;
}

struct Audit {
  std::string file;
  std::set<std::string> keys;
  int numbers = 0;
  int bases = 0;

  // The pages' own counting numbers, which claim nothing about paper.
  static bool is_a_label(std::string_view key) {
    return key == "version" || key == "level" || key == "schema" || key == "name" ||
           key == "text" || key == "note" || key == "cue" || key == "what" || key == "code" ||
           key == "also" || key == "remark" || key == "title";
  }

  void table(const toml::table& node, bool based) {
    if (const auto* basis = node.get_as<std::string>("basis")) {
      based = true;
      ++bases;
      EXPECT_TRUE(is_basis(basis->get(), keys))
          << file << ":" << basis->source().begin.line << ": \"" << basis->get()
          << "\" is neither a mark nor a key of docs/sources.bib";
    }
    range(node);
    for (const auto& [key, value] : node) {
      if (is_a_label(key.str()) || key.str() == "basis") continue;
      leaf(value, based);
    }
  }

  void leaf(const toml::node& node, bool based) {
    if (const auto* inner = node.as_table()) return table(*inner, based);
    if (const auto* list = node.as_array()) {
      for (const auto& element : *list) leaf(element, based);
      return;
    }
    if (!measure(node)) return;
    ++numbers;
    EXPECT_TRUE(based) << file << ":" << node.source().begin.line << ": a number without a basis";
  }

  void range(const toml::table& node) {
    const auto* value = node.get("value");
    const auto* low = node.get("low");
    const auto* high = node.get("high");
    if (value == nullptr || low == nullptr || high == nullptr) return;
    const auto v = measure(*value);
    const auto l = measure(*low);
    const auto h = measure(*high);
    if (!v || !l || !h || v->unit != l->unit || v->unit != h->unit) return;
    const auto line = node.source().begin.line;
    EXPECT_LE(l->number, v->number) << file << ":" << line;
    EXPECT_LE(v->number, h->number) << file << ":" << line;
  }
};

TEST(Data, everyNumberHasABasisAndLiesInItsRange) {
  const auto keys = source_keys();
  int files = 0;
  for (const auto& file : files_below("data", {".toml"})) {
    if (file.path.starts_with("data/sessions/")) continue;  // the users' own numbers
    ++files;
    Audit audit{file.path, keys};
    const auto document = toml::parse(file.text, file.path);
    audit.table(document, false);
    EXPECT_GT(audit.bases, 0) << file.path;
  }
  EXPECT_GE(files, 3);
}

TEST(Data, stocksAndProcessesAreThere) {
  for (const std::string name : {"data/stocks.toml", "data/processes.toml"}) {
    Audit audit{name, source_keys()};
    audit.table(toml::parse(repository_file(name), name), false);
    EXPECT_GT(audit.numbers, 50) << name;
  }
}

TEST(Data, cautionsHaveACodeATextAndKnownTags) {
  const std::set<std::string> tags{"always",  "press", "lifting", "tub",    "hot_plate",
                                   "solvent", "mould", "oil_ink", "blades", "rest"};
  const auto document = toml::parse(repository_file("data/cautions.toml"));
  const auto* cautions = document.get_as<toml::array>("caution");
  ASSERT_NE(cautions, nullptr);
  std::set<std::string> codes;
  std::set<std::string> used;
  for (const auto& node : *cautions) {
    const auto& caution = *node.as_table();
    const auto code = caution["code"].value_or(std::string());
    EXPECT_TRUE(codes.insert(code).second) << code << " twice";
    EXPECT_GT(caution["text"].value_or(std::string()).size(), 20U) << code;
    const auto* when = caution["when"].as_array();
    ASSERT_NE(when, nullptr) << code;
    EXPECT_FALSE(when->empty()) << code;
    for (const auto& tag : *when) {
      const auto word = tag.value_or(std::string());
      EXPECT_TRUE(tags.contains(word)) << code << ": " << word;
      used.insert(word);
    }
  }
  EXPECT_EQ(used, tags) << "a tag that no caution uses";
  // The first thing said is whose rules come first.
  EXPECT_EQ((*cautions->get_as<toml::table>(0))["code"].value_or(std::string()), "local-rules");
}

}  // namespace
}  // namespace dampline::tests
