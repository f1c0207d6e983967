#include <dampline/readiness/limits.hpp>

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

std::string size_warning(const material::Stock& stock, units::Duration soak,
                         units::Temperature water) {
  if (stock.sizing != material::Sizing::tub && stock.sizing != material::Sizing::hard) return {};
  if (units::in_celsius(water) > 40) {
    return "water over 40 degC takes the gelatine size off: keep it under 25 degC";
  }
  if (units::in_celsius(water) > 30 && units::in_minutes(soak) > 10) {
    return "gelatine size softens above 30 degC: use cooler water or a shorter soak";
  }
  if (units::in_hours(soak) > 12) {
    return "a soak this long washes out surface size: the sheet takes ink differently";
  }
  return {};
}

}  // namespace dampline::readiness
