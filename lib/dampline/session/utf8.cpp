#include <array>

#include <dampline/session/utf8.hpp>

namespace dampline::session {
namespace {

struct Block {
  char32_t first;
  char32_t last;
};

constexpr std::array<Block, 9> wide{{{0x1100, 0x115F},
                                     {0x2E80, 0xA4CF},
                                     {0xAC00, 0xD7A3},
                                     {0xF900, 0xFAFF},
                                     {0xFE30, 0xFE6F},
                                     {0xFF00, 0xFF60},
                                     {0xFFE0, 0xFFE6},
                                     {0x1F300, 0x1FAFF},
                                     {0x20000, 0x3FFFD}}};
constexpr std::array<Block, 4> combining{
    {{0x0300, 0x036F}, {0x200B, 0x200F}, {0x20D0, 0x20FF}, {0xFE00, 0xFE0F}}};

template <std::size_t n>
bool lies_in(char32_t c, const std::array<Block, n>& blocks) {
  for (const auto& b : blocks) {
    if (c >= b.first && c <= b.last) return true;
  }
  return false;
}

char32_t decoded(std::string_view sequence) {
  const auto first = static_cast<unsigned char>(sequence[0]);
  if (sequence.size() == 1) return first;
  char32_t c = first & (0xFFU >> (sequence.size() + 1));
  for (const char next : sequence.substr(1)) {
    c = (c << 6U) | (static_cast<unsigned char>(next) & 0x3FU);
  }
  return c;
}

}  // namespace

std::size_t sequence_length(std::string_view text, std::size_t at) {
  const auto byte = [&](std::size_t i) {
    return at + i < text.size() ? static_cast<unsigned char>(text[at + i]) : 0U;
  };
  const unsigned first = byte(0);
  if (first < 0x80) return at < text.size() ? 1 : 0;
  const std::size_t length = first >= 0xC2 && first < 0xE0   ? 2
                             : first >= 0xE0 && first < 0xF0 ? 3
                             : first >= 0xF0 && first < 0xF5 ? 4
                                                             : 0;
  for (std::size_t i = 1; i < length; ++i) {
    if ((byte(i) & 0xC0U) != 0x80U) return 0;
  }
  // Overlong forms, surrogates, and code points past U+10FFFF.
  if (first == 0xE0 && byte(1) < 0xA0) return 0;
  if (first == 0xED && byte(1) >= 0xA0) return 0;
  if (first == 0xF0 && byte(1) < 0x90) return 0;
  if (first == 0xF4 && byte(1) >= 0x90) return 0;
  return length;
}

std::size_t first_bad_byte(std::string_view text) {
  for (std::size_t at = 0; at < text.size();) {
    const auto length = sequence_length(text, at);
    if (length == 0) return at;
    at += length;
  }
  return std::string_view::npos;
}

std::size_t code_points(std::string_view text) {
  std::size_t n = 0;
  for (const char c : text) {
    if ((static_cast<unsigned char>(c) & 0xC0U) != 0x80U) ++n;
  }
  return n;
}

std::size_t columns(std::string_view text) {
  std::size_t n = 0;
  for (std::size_t at = 0; at < text.size();) {
    const auto length = sequence_length(text, at);
    if (length == 0) {
      ++n;
      ++at;
      continue;
    }
    const auto c = decoded(text.substr(at, length));
    n += lies_in(c, combining) ? 0U : (lies_in(c, wide) ? 2U : 1U);
    at += length;
  }
  return n;
}

std::string without_controls(std::string_view text) {
  std::string out;
  for (std::size_t at = 0; at < text.size();) {
    const auto length = sequence_length(text, at);
    const auto c = length == 0 ? U'\0' : decoded(text.substr(at, length));
    const bool control = (c < 0x20 && c != U'\t') || (c >= 0x7F && c < 0xA0);
    if (control) {
      out += '?';
    } else {
      out += text.substr(at, length);
    }
    at += length == 0 ? 1 : length;
  }
  return out;
}

}  // namespace dampline::session
