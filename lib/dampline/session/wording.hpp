#pragma once

#include <string>
#include <string_view>
#include <vector>

#include <dampline/session/document.hpp>
#include <dampline/session/keys.hpp>

/// Words that the readers of values share.
namespace dampline::session {

[[nodiscard]] std::string quoted(std::string_view text);
[[nodiscard]] std::string unquoted(std::string_view text);
/// "grammage = \"300 g/m2\"", for help lines.
[[nodiscard]] std::string example_line(std::string_view name, const Key& key);
/// Where the character at byte `column` of a text value stands in the file.
[[nodiscard]] Place inside_text(const Value& v, std::string_view file_text, std::size_t column);
[[nodiscard]] std::string number_text(const Value& v);
[[nodiscard]] bool is_number(const Value& v);
/// A bound of the key table as a number.
[[nodiscard]] double read_plain(std::string_view digits);

}  // namespace dampline::session
