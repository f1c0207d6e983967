#include <array>
#include <utility>

#include <dampline/session/log_header.hpp>
#include <dampline/session/utf8.hpp>

namespace dampline::session {
namespace {

// Latin letters of U+00C0 to U+017F without their accents; '.' where there is none to give.
constexpr std::string_view latin1 =
    "aaaaaaaceeeeiiiidnooooo.ouuuuy.saaaaaaaceeeeiiiidnooooo.ouuuuy.y";
constexpr std::string_view extended =
    "aaaaaaccccccccddddeeeeeeeeeegggggggghhhhiiiiiiiiiiiijjkkkllllllllllnnnnnnnnnoooooooorrrrrr"
    "ssssssssttttttuuuuuuuuuuuuwwyyyzzzzzzs";
static_assert(latin1.size() == 64 && extended.size() == 128);

unsigned code_point(std::string_view sequence) {
  const auto byte = [&](std::size_t i) { return static_cast<unsigned char>(sequence[i]); };
  if (sequence.size() == 2) return (byte(0) & 0x1FU) << 6U | (byte(1) & 0x3FU);
  if (sequence.size() == 3) {
    return (byte(0) & 0x0FU) << 12U | (byte(1) & 0x3FU) << 6U | (byte(2) & 0x3FU);
  }
  return 0;
}

std::string unaccented(std::string_view sequence) {
  const unsigned c = code_point(sequence);
  if (c == 0xB0 || c == 0xBA) return " deg";  // the degree sign, and the ordinal taken for it
  if (c == 0x2103) return " degc";
  if (c == 0x2109) return " degf";
  if (c >= 0xC0 && c < 0x100) return std::string(1, latin1[c - 0xC0]);
  if (c >= 0x100 && c < 0x180) return std::string(1, extended[c - 0x100]);
  return " ";
}

enum class Sort { gap, lower, upper, digit, sign };

Sort sort_of(char c) {
  if (c >= 'a' && c <= 'z') return Sort::lower;
  if (c >= 'A' && c <= 'Z') return Sort::upper;
  if (c >= '0' && c <= '9') return Sort::digit;
  return c == '%' ? Sort::sign : Sort::gap;
}

// A word ends at anything but letters, before a capital behind a small letter, and between letters
// and digits: "TempC", "temp1".
bool ends_between(Sort before, Sort after) {
  const bool letters = (before == Sort::lower || before == Sort::upper) &&
                       (after == Sort::lower || after == Sort::upper);
  if (letters) return before == Sort::lower && after == Sort::upper;
  return before != after || before == Sort::sign;
}

}  // namespace

std::vector<std::string> plain_words(std::string_view name) {
  std::string text;
  for (std::size_t at = 0; at < name.size();) {
    const auto length = sequence_length(name, at);
    if (length > 1) text += unaccented(name.substr(at, length));
    if (length == 1) text += name[at];
    at += length == 0 ? 1 : length;
  }
  std::vector<std::string> words;
  Sort before = Sort::gap;
  for (const char c : text) {
    const auto sort = sort_of(c);
    if (sort != Sort::gap) {
      if (ends_between(before, sort)) words.emplace_back();
      words.back() += sort == Sort::upper ? static_cast<char>(c - 'A' + 'a') : c;
    }
    before = sort;
  }
  // "deg C" is one unit.
  for (std::size_t i = 0; i + 1 < words.size(); ++i) {
    if (words[i] == "deg" && (words[i + 1] == "c" || words[i + 1] == "f")) {
      words[i] += words[i + 1];
      words.erase(words.begin() + static_cast<std::ptrdiff_t>(i) + 1);
    }
  }
  return words;
}

}  // namespace dampline::session
