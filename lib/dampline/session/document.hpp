#pragma once

#include <chrono>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

#include <dampline/session/input_error.hpp>

/// A TOML text as plain values with their places, in file order: what the reader of sessions works
/// on. The TOML library stays behind document.cpp.
namespace dampline::session {

inline constexpr std::size_t largest_session = 256 * 1024;  ///< bytes

enum class Kind { text, whole, number, truth, date, time, date_time, list, table };

struct Member;

struct Value {
  Kind kind = Kind::table;
  Place where;
  std::string text;
  std::int64_t whole = 0;
  double number = 0;
  bool truth = false;
  std::chrono::year_month_day date{};
  std::chrono::seconds time{};                 ///< since midnight
  std::optional<std::chrono::minutes> offset;  ///< of a date with a time, east of UTC, when stated
  std::vector<Value> items;                    ///< of a list
  std::vector<Member> members;                 ///< of a table, in file order
};

struct Member {
  std::string key;
  Place where;  ///< of the key
  Value value;
};

/// "text", "a whole number", "a table" ...
[[nodiscard]] std::string_view named(Kind kind);

/// Refuses what cannot be a session before the TOML reader sees it: more than 256 KiB, bytes that
/// are not UTF-8, and more than 10,000 full stops (toml++ 3.3.0 overruns its stack on dotted keys
/// of 32,000 parts). A fault in the TOML is reported with its place and the remedy; only the first
/// is known.
[[nodiscard]] std::variant<Value, InputError> parse_document(std::string_view text,
                                                             std::string_view file);

}  // namespace dampline::session
