#include <set>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <dampline/session/document.hpp>
#include <dampline/session/keys.hpp>

#include "session/sessions.hpp"

namespace dampline::session {
namespace {

using testing::ElementsAre;
using testing::HasSubstr;

// "day.breaks[].at" with a value as one line of TOML.
std::string line_for(std::string_view path, const std::string& value) {
  const auto list = path.find("[].");
  if (list == std::string_view::npos) return std::string(path) + " = " + value + "\n";
  return std::string(path.substr(0, list)) + " = [{ " + std::string(path.substr(list + 3)) + " = " +
         value + " }]\n";
}

// No key takes a date with a time, so each that is read complains of it; one that nobody reads
// would pass in silence.
TEST(Keys, everyKeyOfTheTableIsRead) {
  for (const auto& k : keys()) {
    SCOPED_TRACE(k.path);
    const auto errors = tests::errors_in(line_for(k.path, "2026-03-14T10:00:00"));
    const auto plain = [](std::string path) {
      if (const auto list = path.find("[]"); list != std::string::npos) {
        path.replace(list, 2, "[1]");
      }
      return path;
    };
    bool complained = false;
    for (const auto& e : errors) {
      EXPECT_EQ(e.what.find("unknown key"), std::string::npos) << e.what;
      complained |=
          e.what.find(plain(std::string(k.path)) + " is a date with a time; it wants ") == 0U;
    }
    EXPECT_TRUE(complained);
  }
}

TEST(Keys, aKeyOutsideTheTableIsUnknownEverywhere) {
  for (const auto& k : keys()) {
    if (k.form != Form::table && k.form != Form::tables) continue;
    const auto inside = std::string(k.path) + (k.form == Form::tables ? "[]" : "") + ".qqqq";
    const auto errors = tests::errors_in(line_for(inside, "1"));
    EXPECT_TRUE(std::any_of(errors.begin(), errors.end(), [](const InputError& e) {
      return e.what.find("unknown key \"qqqq\"") == 0;
    })) << k.path;
  }
}

TEST(Keys, everyRowIsWhole) {
  std::set<std::string_view> seen;
  for (const auto& k : keys()) {
    SCOPED_TRACE(k.path);
    EXPECT_TRUE(seen.insert(k.path).second);
    EXPECT_FALSE(k.meaning.empty());
    EXPECT_FALSE(k.meaning.ends_with('.'));
    EXPECT_EQ(k.fallback.empty(), k.need == Need::required);
    EXPECT_EQ(k.low.empty(), k.high.empty());
    EXPECT_EQ(k.words.empty(), k.form != Form::word && k.form != Form::words);
    const auto dot = k.path.find_last_of('.');
    if (dot != std::string_view::npos) {
      auto table = k.path.substr(0, dot);
      if (table.ends_with("[]")) table.remove_suffix(2);
      EXPECT_TRUE(seen.contains(table)) << "its table comes later or never";
    }
    if (!k.example.empty()) {
      EXPECT_TRUE(std::holds_alternative<Value>(
          parse_document("x = " + std::string(k.example), "example")));
    }
  }
}

}  // namespace
}  // namespace dampline::session
