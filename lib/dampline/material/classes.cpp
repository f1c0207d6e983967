#include <algorithm>

#include <dampline/material/classes.hpp>
#include <dampline/units/text.hpp>

namespace dampline::material {

using units::in_si;

namespace {

template <class Class, class Is>
const Class* first(const std::vector<Class>& all, Is is) {
  const auto found = std::find_if(all.begin(), all.end(), is);
  return found == all.end() ? nullptr : &*found;
}

template <class Thing>
bool has(const std::vector<Thing>& all, Thing one) {
  return std::find(all.begin(), all.end(), one) != all.end();
}

}  // namespace

bool take_sizing(Stock& s, const Classes& classes) {
  const auto* c = first(classes.sizings, [&](const auto& k) { return k.sizing == s.sizing; });
  if (c == nullptr) return false;
  s.cobb60 = c->cobb60;
  s.accessible = c->accessible;
  s.swelling = c->swelling;
  s.vapour = c->vapour;
  s.wetting_delay = c->wetting_delay;
  return true;
}

bool take_making(Stock& s, const Classes& classes) {
  const auto* c = first(classes.makings, [&](const auto& k) { return k.making == s.making; });
  if (c == nullptr) return false;
  s.pore_ratio = c->pore_ratio;
  return true;
}

bool take_furnish(Stock& s, const Classes& classes) {
  const auto* c = first(classes.furnishes, [&](const auto& k) { return k.furnish == s.furnish; });
  if (c == nullptr) return false;
  s.isotherm_scale = c->isotherm_scale;
  s.fibre_full = c->fibre_full;
  return true;
}

const GrowthClass* growth_of(const Stock& s, const Classes& classes) {
  return first(classes.growths, [&](const auto& k) {
    return has(k.makings, s.making) && has(k.furnishes, s.furnish);
  });
}

bool take_growth(Stock& s, const Classes& classes) {
  const auto* c = growth_of(s, classes);
  if (c == nullptr) return false;
  s.along = c->along;
  s.across = c->across;
  return true;
}

bool take_thickness(Stock& s, const Classes& classes) {
  const auto* c = first(classes.makings, [&](const auto& k) { return k.making == s.making; });
  if (c == nullptr || !(in_si(c->density.low) > 0)) return false;
  s.thickness = {s.grammage.value / c->density.value, s.grammage.value / c->density.high,
                 s.grammage.value / c->density.low,
                 "grammage over density; density " + c->density.basis};
  return true;
}

std::string impossible(const Stock& s) {
  const auto outside = [](double v, double low, double high) { return !(v >= low && v <= high); };
  const double grammage = units::in_grams_per_m2(s.grammage.value);
  const double thickness = units::in_millimetres(s.thickness.value);
  const double density = in_si(s.grammage.value) / in_si(s.thickness.value) / 1e3;
  const double cobb = units::in_grams_per_m2(s.cobb60.value);
  if (outside(grammage, 5, 2000)) {
    return "grammage " + units::shortest(grammage) + " g/m2 is outside 5 to 2000 g/m2";
  }
  if (outside(thickness, 0.01, 10)) {
    return "thickness " + units::shortest(thickness) + " mm is outside 0.01 to 10 mm";
  }
  if (outside(density, 0.05, 1.4)) {
    return "grammage over thickness is " + units::fixed(density, 2) +
           " g/cm3; paper lies between 0.05 and 1.4 g/cm3";
  }
  if (s.sizing != Sizing::waterleaf && outside(cobb, 5, 1000)) {
    return "Cobb value " + units::shortest(cobb) + " g/m2 is outside 5 to 1000 g/m2";
  }
  return {};
}

}  // namespace dampline::material
