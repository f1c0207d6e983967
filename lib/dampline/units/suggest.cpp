#include <algorithm>

#include <dampline/units/suggest.hpp>

namespace dampline::units {
namespace {

char lower(char c) { return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c; }

// Words longer than this are not slips of the finger; the bound keeps the table small.
constexpr std::size_t longest_word = 200;

}  // namespace

std::size_t edit_distance(std::string_view a, std::string_view b) {
  const std::size_t width = b.size() + 1;
  std::vector<std::size_t> before(width);
  std::vector<std::size_t> last(width);
  std::vector<std::size_t> row(width);
  for (std::size_t j = 0; j < width; ++j) last[j] = j;
  for (std::size_t i = 1; i <= a.size(); ++i) {
    row[0] = i;
    for (std::size_t j = 1; j <= b.size(); ++j) {
      const bool same = lower(a[i - 1]) == lower(b[j - 1]);
      row[j] = std::min({last[j] + 1, row[j - 1] + 1, last[j - 1] + (same ? 0U : 1U)});
      const bool swapped = i > 1 && j > 1 && lower(a[i - 1]) == lower(b[j - 2]) &&
                           lower(a[i - 2]) == lower(b[j - 1]);
      if (swapped) row[j] = std::min(row[j], before[j - 2] + 1);
    }
    std::swap(before, last);
    std::swap(last, row);
  }
  return last[b.size()];
}

std::optional<std::string> nearest(std::string_view word, std::span<const std::string> candidates) {
  if (word.empty() || word.size() > longest_word) return std::nullopt;
  const std::string* best = nullptr;
  std::size_t best_distance = std::min(std::max<std::size_t>(1, word.size() / 3) + 1, word.size());
  for (const auto& candidate : candidates) {
    const auto distance = edit_distance(word, candidate);
    if (distance < best_distance) {
      best = &candidate;
      best_distance = distance;
    }
  }
  return best == nullptr ? std::nullopt : std::optional(*best);
}

std::string listed(std::span<const std::string> words, std::string_view quote,
                   std::string_view last) {
  std::string out;
  for (std::size_t i = 0; i < words.size(); ++i) {
    if (i > 0) out += i + 1 == words.size() ? " " + std::string(last) + " " : ", ";
    out += std::string(quote) + words[i] + std::string(quote);
  }
  return out;
}

}  // namespace dampline::units
