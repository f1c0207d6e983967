#include <algorithm>
#include <cmath>

#include <dampline/journal/compare.hpp>
#include <dampline/units/text.hpp>

namespace dampline::journal {
namespace {

const Fact* find(const std::vector<Fact>& facts, const std::string& what) {
  const auto it =
      std::find_if(facts.begin(), facts.end(), [&](const Fact& f) { return f.what == what; });
  return it == facts.end() ? nullptr : &*it;
}

std::string with_sign(double value, int decimals) {
  const auto out = units::fixed(value, decimals);
  return out.starts_with('-') ? out : "+" + out;
}

Difference difference(const Fact& a, const Fact& b) {
  Difference d{a.what, text(a), text(b), "", a.yardstick.one};
  if (!a.number || !b.number) return d;
  const double more = *b.number - *a.number;
  if (a.yardstick.ratio && *a.number > 0 && *b.number > 0) {
    const double ratio = *b.number / *a.number;
    d.change = with_sign((ratio - 1) * 100, 0) + " %";
    d.size = std::abs(std::log(ratio)) / std::log1p(a.yardstick.one);
  } else {
    const auto unit = a.unit == "%" ? " points" : (a.unit.empty() ? "" : " " + a.unit);
    d.change = with_sign(more, a.decimals) + unit;
    // A scale that passes through nothing has no quotient: a share of the larger reading.
    const double one = a.yardstick.ratio
                           ? a.yardstick.one * std::max(std::abs(*a.number), std::abs(*b.number))
                           : a.yardstick.one;
    d.size = std::abs(more) / one;
  }
  return d;
}

}  // namespace

Comparison compare(const Held& first, const Held& second) {
  Comparison out;
  const auto a = facts(first);
  const auto b = facts(second);
  for (const auto& fact : a) {
    const auto* other = find(b, fact.what);
    if (other == nullptr) {
      if (fact.outcome) {
        out.outcome.push_back({fact.what, text(fact), "", "", 0});
      } else {
        out.first_only.push_back(fact);
      }
      continue;
    }
    auto d = difference(fact, *other);
    if (fact.outcome) {
      out.outcome.push_back(std::move(d));
    } else if (d.first == d.second) {
      ++out.alike;
    } else {
      out.differ.push_back(std::move(d));
    }
  }
  for (const auto& fact : b) {
    if (find(a, fact.what) != nullptr) continue;
    if (fact.outcome) {
      out.outcome.push_back({fact.what, "", text(fact), "", 0});
    } else {
      out.second_only.push_back(fact);
    }
  }
  std::stable_sort(out.differ.begin(), out.differ.end(),
                   [](const Difference& x, const Difference& y) { return x.size > y.size; });
  return out;
}

}  // namespace dampline::journal
