#include <algorithm>
#include <array>
#include <string>
#include <utility>

#include <dampline/material/catalogue.hpp>

namespace dampline::material {

namespace {

char lower(char c) { return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c; }

// Small letters, runs of spaces as one, none at the ends.
std::string plain(std::string_view name) {
  std::string out;
  for (const char c : name) {
    if (c == ' ' || c == '\t') {
      if (!out.empty() && out.back() != ' ') out += ' ';
    } else {
      out += lower(c);
    }
  }
  if (!out.empty() && out.back() == ' ') out.pop_back();
  return out;
}

std::vector<std::pair<char, char>> letter_pairs(const std::string& text) {
  std::vector<std::pair<char, char>> pairs;
  for (std::size_t i = 0; i + 1 < text.size(); ++i) pairs.emplace_back(text[i], text[i + 1]);
  std::sort(pairs.begin(), pairs.end());
  return pairs;
}

// Share of letter pairs in common: names of stocks are phrases whose words may come in any order,
// so counting edits would say little.
double likeness(const std::string& a, const std::string& b) {
  const auto x = letter_pairs(a);
  const auto y = letter_pairs(b);
  if (x.empty() || y.empty()) return a == b ? 1 : 0;
  std::vector<std::pair<char, char>> both;
  std::set_intersection(x.begin(), x.end(), y.begin(), y.end(), std::back_inserter(both));
  return 2.0 * static_cast<double>(both.size()) / static_cast<double>(x.size() + y.size());
}

}  // namespace

const Stock* find_stock(const Catalogue& catalogue, std::string_view name) {
  const std::string wanted = plain(name);
  for (const auto& s : catalogue.stocks) {
    if (plain(s.name) == wanted) return &s;
  }
  return nullptr;
}

std::vector<std::string> similar_names(const Catalogue& catalogue, std::string_view name,
                                       std::size_t most) {
  // Below a third in common two phrases of this trade are no more alike than any two.
  constexpr double alike = 1.0 / 3;
  const std::string wanted = plain(name);
  std::vector<std::pair<double, std::string>> ranked;
  for (const auto& s : catalogue.stocks) {
    const double l = likeness(plain(s.name), wanted);
    if (l > alike) ranked.emplace_back(l, s.name);
  }
  std::stable_sort(ranked.begin(), ranked.end(),
                   [](const auto& a, const auto& b) { return a.first > b.first; });
  std::vector<std::string> names;
  for (const auto& [l, n] : ranked) {
    if (names.size() == most) break;
    names.push_back(n);
  }
  return names;
}

}  // namespace dampline::material
