#include <algorithm>
#include <cmath>

#include <dampline/stack/cobb.hpp>
#include <dampline/stack/stack.hpp>

namespace dampline::stack {

using units::in_si;

namespace {

constexpr double test_kelvin = 296.15;
constexpr double seconds = 60;
constexpr int cells = 24;
constexpr double first_cell = 0.004;
constexpr double fullest = 0.85;  // of capacity: `assumed` aim where the sheet is too thin

double conditioned(const material::Porous& sheet) {
  // Moisture at activity 0.5 on the branch that rises from dry.
  double low = 0;
  double high = sheet.saturation;
  for (int i = 0; i < 60; ++i) {
    const double u = 0.5 * (low + high);
    (sheet.wetting->activity(u).value < 0.5 ? low : high) = u;
  }
  return low;
}

double uptake(const material::Porous& sheet, double time) {
  const double wet = time - sheet.delay;
  if (!(wet > 0)) return 0;
  Stack s;
  const auto share = graded_cells(cells, first_cell, Graded::left);
  s.layers = {{&sheet, material::Branch::adsorption,
               std::vector<double>(share.size(), conditioned(sheet)), share}};
  s.left.kind = FaceKind::water;
  s.films = {{}, {}};
  s.kelvin = test_kelvin;
  s.fixed_temperature = true;
  return -advance(s, wet, {.moisture = 5e-5}).out_left;
}

}  // namespace

units::Grammage one_sided_uptake(const material::Porous& sheet, units::Duration time) {
  return units::kilograms_per_m2(uptake(sheet, in_si(time)));
}

material::Porous resolve_to_cobb(const material::Stock& stock) {
  using material::Sizing;
  if (stock.sizing == Sizing::waterleaf) {
    const bool open = stock.kind != material::Kind::paper && stock.kind != material::Kind::tissue;
    return material::resolve(
        stock, units::m2_per_s(material::waterleaf_diffusivity_si(
                   open ? material::blotter_sorptivity : material::waterleaf_sorptivity)));
  }
  material::Porous sheet = material::resolve(stock, units::m2_per_s(1e-10));
  const double capacity = (sheet.saturation - conditioned(sheet)) * sheet.dry;
  const double aim = std::min(in_si(stock.cobb60.value), fullest * capacity);

  // Vapour by itself must leave room for liquid.
  sheet.liquid = 1e-13;
  for (int i = 0; i < 30; ++i) {
    const double by_vapour = uptake(sheet, seconds);
    if (by_vapour < 0.7 * aim) break;
    sheet.vapour *= std::pow(0.5 * aim / by_vapour, 2);
  }
  // Uptake goes nearly as the square root of the diffusivity: secant in log-log, kept in a bracket.
  double low = 1e-13;
  double high = 1e-3;
  const double density = sheet.dry / sheet.thickness;
  const double step = density * sheet.saturation;
  double at = std::clamp(0.8 * std::pow(aim / step, 2) / seconds * 2, 1e-12, 1e-4);
  for (int i = 0; i < 60; ++i) {
    sheet.liquid = at;
    const double got = uptake(sheet, seconds);
    if (std::abs(got - aim) < 1e-3 * aim) break;
    (got < aim ? low : high) = at;
    double next = at * std::pow(aim / got, 2.2);
    if (!(next > low && next < high)) next = std::sqrt(low * high);
    at = next;
  }
  return sheet;
}

}  // namespace dampline::stack
