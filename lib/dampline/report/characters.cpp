#include <algorithm>
#include <array>

#include <dampline/report/characters.hpp>
#include <dampline/session/utf8.hpp>

namespace dampline::report {

namespace {

struct Character {
  char32_t code;
  std::string_view bytes;
};

constexpr char32_t replacement = 0xFFFD;

/// The first character of a text that is not empty; one ill-formed byte gives U+FFFD.
Character first(std::string_view text) {
  const std::size_t size = session::sequence_length(text, 0);
  if (size == 0) return {replacement, text.substr(0, 1)};
  const auto lead = static_cast<unsigned char>(text[0]);
  char32_t code = size == 1 ? lead : lead & (0xFFU >> (size + 1));
  for (std::size_t i = 1; i < size; ++i) {
    code = (code << 6) | (static_cast<unsigned char>(text[i]) & 0x3FU);
  }
  return {code, text.substr(0, size)};
}

template <class Visit>
void each(std::string_view text, Visit visit) {
  while (!text.empty()) {
    const Character c = first(text);
    visit(c);
    text.remove_prefix(c.bytes.size());
  }
}

struct Range {
  char32_t low, high;
};

// Blocks of combining marks and of wide characters, coarser than the Unicode tables: a character
// counted too wide only costs a space. Source: from memory (Unicode 15 block names).
constexpr std::array<Range, 11> no_width = {{{0x0300, 0x036F},
                                             {0x0483, 0x0489},
                                             {0x0591, 0x05BD},
                                             {0x064B, 0x065F},
                                             {0x1AB0, 0x1AFF},
                                             {0x1DC0, 0x1DFF},
                                             {0x200B, 0x200F},
                                             {0x20D0, 0x20FF},
                                             {0xFE00, 0xFE0F},
                                             {0xFE20, 0xFE2F},
                                             {0xE0100, 0xE01EF}}};
constexpr std::array<Range, 9> two_wide = {{{0x1100, 0x115F},
                                            {0x231A, 0x231B},
                                            {0x2600, 0x27BF},
                                            {0x2E80, 0xA4CF},
                                            {0xAC00, 0xD7A3},
                                            {0xF900, 0xFAFF},
                                            {0xFE30, 0xFE6F},
                                            {0xFF00, 0xFF60},
                                            {0x1F000, 0x3FFFD}}};

template <std::size_t N>
bool among(const std::array<Range, N>& ranges, char32_t code) {
  return std::any_of(ranges.begin(), ranges.end(),
                     [code](Range r) { return code >= r.low && code <= r.high; });
}

int width_of(char32_t code) {
  if (among(no_width, code)) return 0;
  return among(two_wide, code) ? 2 : 1;
}

bool turns_direction(char32_t code) {
  return code == 0x061C || code == 0x200E || code == 0x200F || (code >= 0x202A && code <= 0x202E) ||
         (code >= 0x2066 && code <= 0x2069);
}

// U+00C0 to U+017F without their accents, two characters each; a space in second place is left out.
constexpr std::string_view plain_latin =
    "A A A A A A AEC E E E E I I I I D N O O O O O x O U U U U Y Thss"
    "a a a a a a aec e e e e i i i i d n o o o o o / o u u u u y thy "
    "A a A a A a C c C c C c C c D d D d E e E e E e E e E e G g G g "
    "G g G g H h H h I i I i I i I i I i IJijJ j K k k L l L l L l L "
    "l L l N n N n N n n N n O o O o O o OEoeR r R r R r S s S s S s "
    "S s T t T t T t U u U u U u U u U u U u W w Y y Y Z z Z z Z z s ";
static_assert(plain_latin.size() == 2 * (0x180 - 0xC0));

std::string ascii_of(char32_t code) {
  if (code < 0x80) return std::string(1, static_cast<char>(code));
  if (width_of(code) == 0) return "";
  if (code >= 0xC0 && code < 0x180) {
    std::string pair(plain_latin.substr(2 * (code - 0xC0), 2));
    if (pair[1] == ' ') pair.pop_back();
    return pair;
  }
  switch (code) {
    case 0x00A0:
    case 0x202F:
      return " ";
    case 0x00B0:
      return "deg";
    case 0x00B2:
      return "2";
    case 0x00B7:
      return "-";
    case 0x00D7:
      return "x";
    case 0x2010:
    case 0x2011:
    case 0x2012:
    case 0x2013:
    case 0x2014:
    case 0x2212:
      return "-";
    case 0x2018:
    case 0x2019:
      return "'";
    case 0x201C:
    case 0x201D:
      return "\"";
    case 0x2026:
      return "...";
    default:
      return "?";
  }
}

/// The longest head of `text` that takes at most `width` columns.
std::string_view head(std::string_view text, int width) {
  std::size_t bytes = 0;
  int taken = 0;
  bool full = false;
  each(text, [&](Character c) {
    const int w = width_of(c.code);
    full = full || taken + w > width;
    if (full) return;
    taken += w;
    bytes += c.bytes.size();
  });
  return text.substr(0, bytes);
}

}  // namespace

std::string clean(std::string_view text) {
  std::string out;
  each(text, [&](Character c) {
    const bool control = c.code < 0x20 || (c.code >= 0x7F && c.code < 0xA0) || c.code == 0x2028 ||
                         c.code == 0x2029 || (c.code & 0xFFFE) == 0xFFFE;
    if (turns_direction(c.code)) return;
    if (control) {
      out += ' ';
    } else if (c.code == replacement) {
      out += "\xEF\xBF\xBD";
    } else {
      out += c.bytes;
    }
  });
  return out;
}

int display_width(std::string_view text) {
  int width = 0;
  each(text, [&](Character c) { width += width_of(c.code); });
  return width;
}

std::string ascii(std::string_view text) {
  std::string out;
  each(text, [&](Character c) { out += ascii_of(c.code); });
  return out;
}

std::vector<std::string> wrap(std::string_view text, int width) {
  width = std::max(width, 2);
  std::vector<std::string> lines;
  std::string line;
  int taken = 0;
  const auto put = [&](std::string_view word) {
    int needed = display_width(word);
    if (taken > 0 && taken + 1 + needed > width) {
      lines.push_back(std::move(line));
      line.clear();
      taken = 0;
    }
    while (needed > width) {
      const auto part = head(word, width);
      lines.emplace_back(part);
      word.remove_prefix(part.size());
      needed = display_width(word);
    }
    if (taken > 0) line += ' ', ++taken;
    line += word;
    taken += needed;
  };
  while (!text.empty()) {
    auto space = std::min(text.find(' '), text.size());
    if (text.substr(space).starts_with(" %"))
      space = std::min(text.find(' ', space + 1), text.size());
    if (space > 0) put(text.substr(0, space));
    text.remove_prefix(std::min(space + 1, text.size()));
  }
  if (!line.empty() || lines.empty()) lines.push_back(std::move(line));
  return lines;
}

std::string shortened(std::string_view text, int width) {
  if (display_width(text) <= width) return std::string(text);
  if (width < 1) return "";
  return std::string(head(text, width - 1)) + ".";
}

std::string padded(std::string_view text, int width, Align align) {
  const int missing = width - display_width(text);
  const std::string space(static_cast<std::size_t>(std::max(0, missing)), ' ');
  return align == Align::left ? std::string(text) + space : space + std::string(text);
}

}  // namespace dampline::report
