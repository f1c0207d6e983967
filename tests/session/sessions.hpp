#pragma once

#include <string>

#include <gtest/gtest.h>

#include <dampline/session/read.hpp>

namespace dampline::tests {

/// The least session there can be, with its tables ready for one line more.
inline const std::string least = R"([day]
[studio]
[equipment]
[paper]
stock = "soft paper"
sheet = "38 x 56 cm"
[damping]
[[plates]]
name = "key"
size = "20 x 30 cm"
process = "etching"
[plates.times]
[edition]
prints = 10
[register]
)";

/// `least` with a line put in behind a table's header.
inline std::string with(const std::string& table, const std::string& line) {
  auto text = least;
  const auto key = line.substr(0, line.find(' '));
  const auto at = text.find(table + "\n");
  EXPECT_NE(at, std::string::npos) << table;
  // A key that is there already gives way.
  const auto end = text.find("\n[", at + 1);
  const auto old = text.find("\n" + key + " =", at);
  if (old < end) text.erase(old, text.find('\n', old + 1) - old);
  return text.insert(at + table.size() + 1, line + "\n");
}

inline session::Here here() {
  using namespace std::chrono_literals;
  return {.today = 2026y / 3 / 14, .zone = "Europe/Lisbon"};
}

inline session::InputErrors errors_in(const std::string& text) {
  const auto found = session::read(text, "marsh.toml", here());
  const auto* errors = std::get_if<session::InputErrors>(&found);
  EXPECT_NE(errors, nullptr) << "nothing wrong was found in\n" << text;
  return errors == nullptr ? session::InputErrors{} : *errors;
}

inline session::Session read_well(const std::string& text) {
  const auto found = session::read(text, "marsh.toml", here());
  if (const auto* errors = std::get_if<session::InputErrors>(&found)) {
    for (const auto& e : *errors) ADD_FAILURE() << session::rendered(e);
    return {};
  }
  return std::get<session::Session>(found);
}

}  // namespace dampline::tests
