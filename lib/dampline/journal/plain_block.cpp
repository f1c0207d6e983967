#include <algorithm>
#include <charconv>

#include <dampline/journal/blocks.hpp>
#include <dampline/journal/plain_block.hpp>
#include <dampline/session/utf8.hpp>

namespace dampline::journal {
namespace {

using session::Kind;
using session::Value;

bool digit(char c) { return c >= '0' && c <= '9'; }

// Digits where `shape` has a 0, its own characters elsewhere.
bool shaped(std::string_view text, std::string_view shape) {
  return text.size() == shape.size() &&
         std::equal(text.begin(), text.end(), shape.begin(),
                    [](char c, char s) { return s == '0' ? digit(c) : c == s; });
}

int number_at(std::string_view text, std::size_t at, std::size_t digits) {
  int value = 0;
  for (std::size_t i = at; i < at + digits; ++i) value = value * 10 + (text[i] - '0');
  return value;
}

bool read_date(std::string_view text, Value& to) {
  to.kind = Kind::date;
  to.date = std::chrono::year(number_at(text, 0, 4)) /
            std::chrono::month(static_cast<unsigned>(number_at(text, 5, 2))) /
            std::chrono::day(static_cast<unsigned>(number_at(text, 8, 2)));
  return to.date.ok();
}

bool read_date_time(std::string_view text, Value& to) {
  const int hour = number_at(text, 11, 2);
  const int minute = number_at(text, 14, 2);
  const int second = number_at(text, 17, 2);
  const int east = number_at(text, 20, 2) * 60 + number_at(text, 23, 2);
  if (!read_date(text, to) || hour > 23 || minute > 59 || second > 59) return false;
  if (number_at(text, 20, 2) > 23 || number_at(text, 23, 2) > 59) return false;
  to.kind = Kind::date_time;
  to.time = std::chrono::seconds(hour * 3600 + minute * 60 + second);
  to.offset = std::chrono::minutes(text[19] == '-' ? -east : east);
  return true;
}

// A string without escapes but those of write.cpp; `text` starts behind the quote.
bool read_string(std::string_view text, Value& to) {
  to.kind = Kind::text;
  for (std::size_t i = 0; i < text.size(); ++i) {
    const char c = text[i];
    if (c == '"') return i + 1 == text.size();
    if (static_cast<unsigned char>(c) < 0x20 || c == 0x7F) return false;
    if (c != '\\') {
      to.text += c;
      continue;
    }
    if (++i == text.size()) return false;
    constexpr std::string_view escapes = "\"\\nrt";
    constexpr std::string_view meant = "\"\\\n\r\t";
    const auto at = escapes.find(text[i]);
    if (at == std::string_view::npos) return false;
    to.text += meant[at];
  }
  return false;
}

bool read_number(std::string_view text, Value& to) {
  const auto digits = text.substr(text.starts_with('-') ? 1 : 0);
  const auto point = digits.find('.');
  const auto whole = digits.substr(0, point);
  const auto all_digits = [](std::string_view s) {
    return !s.empty() && std::all_of(s.begin(), s.end(), digit);
  };
  if (!all_digits(whole) || (whole.size() > 1 && whole[0] == '0') || whole.size() > 15) {
    return false;
  }
  const auto* end = text.data() + text.size();
  if (point == std::string_view::npos) {
    to.kind = Kind::whole;
    if (std::from_chars(text.data(), end, to.whole).ptr != end) return false;
    to.number = static_cast<double>(to.whole);
    return true;
  }
  to.kind = Kind::number;
  return all_digits(digits.substr(point + 1)) && text.size() <= 25 &&
         std::from_chars(text.data(), end, to.number).ptr == end;
}

bool read_value(std::string_view text, Value& to) {
  if (text.empty()) return false;
  if (text[0] == '"') return read_string(text.substr(1), to);
  if (shaped(text, "0000-00-00")) return read_date(text, to);
  if (shaped(text, "0000-00-00T00:00:00+00:00") || shaped(text, "0000-00-00T00:00:00-00:00")) {
    return read_date_time(text, to);
  }
  return read_number(text, to);
}

}  // namespace

std::optional<Value> read_plain_block(std::string_view block) {
  if (session::first_bad_byte(block) != std::string_view::npos) return std::nullopt;
  Value table;
  int number = 0;
  while (!block.empty()) {
    const auto newline = block.find('\n');
    if (newline == std::string_view::npos) return std::nullopt;
    const auto line = block.substr(0, newline);
    block.remove_prefix(newline + 1);
    ++number;
    if (number == 1) {
      if (line != head_line) return std::nullopt;
      table.where = {1, 1};
      continue;
    }
    if (line == closing_line) return block.empty() ? std::optional(std::move(table)) : std::nullopt;
    const auto equals = line.find(" = ");
    if (equals == std::string_view::npos || equals == 0) return std::nullopt;
    const auto key = line.substr(0, equals);
    const bool plain = std::all_of(key.begin(), key.end(),
                                   [](char c) { return (c >= 'a' && c <= 'z') || c == '_'; });
    const bool twice = std::any_of(table.members.begin(), table.members.end(),
                                   [key](const session::Member& m) { return m.key == key; });
    if (!plain || twice) return std::nullopt;
    auto& member = table.members.emplace_back();
    member.key = key;
    member.where = {number, 1};
    auto& value = member.value;
    value.where = {number, static_cast<int>(equals) + 4};
    const auto text = line == opening_line ? std::string_view("1") : line.substr(equals + 3);
    if (!read_value(text, value)) return std::nullopt;
  }
  return std::nullopt;
}

}  // namespace dampline::journal
