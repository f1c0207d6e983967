#include <algorithm>
#include <cmath>

#include <dampline/readiness/limits.hpp>
#include <dampline/units/text.hpp>

namespace dampline::readiness {

namespace {
constexpr const char* practice = "common practice, no published source";
constexpr double thin = 60;    // g/m2
constexpr double light = 100;  // g/m2
}  // namespace

Limit keeps(Store store, units::Temperature room) {
  if (store == Store::refrigerator) {
    return {units::hours(7 * 24), "the rim dries and damp air condenses on the pack", practice};
  }
  if (store == Store::freezer) {
    return {units::hours(180 * 24), "thaw it wrapped, 1 to 2 hours", practice};
  }
  const double celsius = units::in_celsius(room);
  const double hours = celsius < 18 ? 72 : celsius <= 24 ? 48 : 24;
  return {units::hours(hours), "mould; sooner where the sheets smell",
          "48 h over 21 degC [npsmould]; the rest common practice, no published source"};
}

std::optional<Limit> tub_limit(const material::Stock& stock) {
  using material::Sizing;
  const double grammage = units::in_grams_per_m2(stock.grammage.value);
  if (stock.sizing == Sizing::waterleaf || grammage < thin) return std::nullopt;
  switch (stock.sizing) {
    case Sizing::soft:
      return Limit{units::hours(1), "the surface lifts and the sheet weakens", practice};
    case Sizing::internal:
      return Limit{units::hours(grammage < 250 ? 4 : 12), "the sheet weakens", practice};
    case Sizing::hard:
    case Sizing::tub:
    case Sizing::waterleaf:
      break;
  }
  return Limit{units::hours(24), "the surface size softens and washes out", practice};
}

Limit uncovered(const material::Stock& stock) {
  const bool is_light = units::in_grams_per_m2(stock.grammage.value) < light;
  return {units::minutes(is_light ? 1 : 3), "edges dry first: wavy rims, pale borders, creases",
          practice};
}

std::optional<units::Duration> mould_likely_after(units::Temperature paper, double activity) {
  if (activity < 0.80) return std::nullopt;
  const double celsius = std::max(5.0, units::in_celsius(paper));
  const double damp = std::min(activity, 1.0);
  return units::hours(48 * std::pow(21 / celsius, 0.68) * std::pow(damp, -13.9));
}

std::vector<Danger> dangers_of_soaking(const material::Stock& stock, units::Duration soak,
                                       units::Temperature water) {
  std::vector<Danger> dangers;
  const auto limit = tub_limit(stock);
  if (!limit) {
    dangers.push_back({"not-for-the-tub",
                       "this paper is not for the tub: it goes slippery and tears",
                       "mist it, or lay it between damp sheets", practice});
  } else if (soak > limit->longest) {
    dangers.push_back({"tub-too-long",
                       "longer in the tub than " + units::text(limit->longest) + ": " + limit->why,
                       "take it out sooner and keep it in a covered pile", limit->basis});
  }
  const bool surface_sized =
      stock.sizing == material::Sizing::tub || stock.sizing == material::Sizing::hard;
  if (!surface_sized) return dangers;
  const double celsius = units::in_celsius(water);
  if (celsius > 40) {
    dangers.push_back({"hot-water", "water over 40 degC takes the gelatine size off",
                       "keep it under 25 degC", practice});
  } else if (celsius > 30 && units::in_minutes(soak) > 10) {
    dangers.push_back({"hot-water", "gelatine size softens above 30 degC",
                       "use cooler water or a shorter soak", practice});
  }
  if (units::in_hours(soak) > 12) {
    dangers.push_back({"size-loss",
                       "a soak this long washes out surface size: the sheet takes ink differently",
                       "soak for less, or overnight in a damp pack instead", practice});
  }
  return dangers;
}

std::vector<Danger> dangers_of_keeping(Store store, units::Temperature room, units::Duration time) {
  const auto limit = keeps(store, room);
  if (!(time > limit.longest)) return {};
  const bool cold = store != Store::covered;
  return {{"keeps-too-long",
           "damp paper kept longer than " + units::text(limit.longest) + ": " + limit.why,
           cold ? "dry it out and damp it again" : "print sooner, refrigerate it, or dry it out",
           limit.basis}};
}

}  // namespace dampline::readiness
