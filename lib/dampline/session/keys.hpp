#pragma once

#include <span>
#include <string>
#include <string_view>
#include <vector>

/// The one table of keys of a session file. The reader, its complaints about unknown keys, the
/// starter file, dampline explain and the JSON Schema (held equal by a test) all come from it.
namespace dampline::session {

enum class Form {
  text,
  whole,   ///< a whole number from low to high
  number,  ///< a plain number from low to high
  truth,   ///< true or false
  word,    ///< one of `words`
  words,   ///< a list of some of `words`
  names,   ///< a list of texts
  date,    ///< 2026-03-14
  clock,   ///< "10:00"
  zone,    ///< an IANA time zone
  length,  ///< the quantities: text with a unit, from low to high
  size,
  duration,
  temperature,
  humidity,
  grammage,
  strain,  ///< a growth
  table,
  tables,     ///< a list of tables
  durations,  ///< a table of any names with durations
};

enum class Need {
  required,
  fallback,  ///< `fallback` is used and listed when the key is missing
  optional   ///< its absence means something by itself: `fallback` says what, in words
};

struct Key {
  std::string_view path;  ///< "studio.temperature"; "plates[].size" in each of a list of tables
  Form form = Form::text;
  Need need = Need::optional;
  std::string_view fallback;  ///< as it would be written in the file; see Need
  std::string_view low;       ///< quantities as text with a unit, numbers as digits; may be empty
  std::string_view high;
  std::span<const std::string_view> words;
  std::string_view example;  ///< as it would be written in the file
  std::string_view meaning;  ///< one sentence without a full stop
  bool shown = false;        ///< optional, and still not switched off in the starter file
};

/// Every key, tables before what they hold, in the order of the starter file.
[[nodiscard]] std::span<const Key> keys();

/// The key at a path ("plates[].size"), or nullptr.
[[nodiscard]] const Key* find_key(std::string_view path);

/// Last names of the keys directly inside a table ("paper" or "plates[]"; "" for the top).
[[nodiscard]] std::vector<std::string> names_inside(std::string_view table_path);

/// "a grammage, like \"300 g/m2\"": what a key expects, for messages.
[[nodiscard]] std::string expected(const Key& key);

}  // namespace dampline::session
