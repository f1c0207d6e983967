#include <algorithm>
#include <cctype>
#include <cmath>
#include <numeric>

#include <dampline/size/order.hpp>

namespace dampline::size {

using units::in_si;

namespace {

// How far the plate's corner goes, in tolerances, for a change of the sheet by one part.
double weight(const OrderedPlate& p) {
  return std::hypot(in_si(p.long_side), in_si(p.short_side)) / std::max(1e-6, in_si(p.tolerance));
}

bool has_word(const std::string& text, const std::string& word) {
  for (auto at = text.find(word); at != std::string::npos; at = text.find(word, at + 1)) {
    const auto letter = [&](std::size_t i) {
      return i < text.size() && std::isalpha(static_cast<unsigned char>(text[i])) != 0;
    };
    if (!(at > 0 && letter(at - 1)) && !letter(at + word.size())) return true;
  }
  return false;
}

}  // namespace

double strain_on(const std::vector<OrderedPlate>& plates, const std::vector<std::size_t>& order) {
  double worst = 0;
  for (std::size_t i = 0; i + 1 < order.size(); ++i) {
    worst = std::max(worst, static_cast<double>(order.size() - 1 - i) * weight(plates[order[i]]));
  }
  return worst;
}

Order best_order(const std::vector<OrderedPlate>& plates) {
  Order o;
  o.plates.resize(plates.size());
  std::iota(o.plates.begin(), o.plates.end(), std::size_t{0});
  if (plates.size() < 2) {
    o.reason = "there is one plate";
    return o;
  }
  std::stable_sort(o.plates.begin(), o.plates.end(), [&](std::size_t a, std::size_t b) {
    if (plates[a].key != plates[b].key) return plates[b].key;
    return weight(plates[a]) < weight(plates[b]);
  });
  o.least = strain_on(plates, o.plates);
  const auto& last = plates[o.plates.back()];
  const double first = weight(plates[o.plates.front()]);
  const bool alike = std::all_of(o.plates.begin(), o.plates.end(), [&](std::size_t i) {
    return std::abs(weight(plates[i]) - first) <= 1e-9 * first;
  });
  o.reason = last.key ? "the key last, so that it is laid to what is there"
                      : "the largest, or closest, last";
  if (!alike) {
    o.reason +=
        "; before it the plates that stand a change of the sheet best, for they wait longest";
  }
  return o;
}

bool is_key(const std::string& name) {
  std::string lower = name;
  std::transform(lower.begin(), lower.end(), lower.begin(),
                 [](unsigned char c) { return static_cast<char>(std::tolower(c)); });
  return has_word(lower, "key") || has_word(lower, "line") || has_word(lower, "outline");
}

}  // namespace dampline::size
