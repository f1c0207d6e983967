#include <algorithm>

#include <dampline/material/transport.hpp>
#include <dampline/method/sheet.hpp>
#include <dampline/stack/cobb.hpp>
#include <dampline/stack/stack.hpp>

namespace dampline::method {

using units::in_si;

namespace {

constexpr double first_cell = 0.010;  // share of the sheet in the cell at a face

material::Stock absorbent(material::Kind kind, double grammage, double millimetres,
                          double saturation) {
  // The numbers of data/stocks.toml, for callers who load none.
  material::Stock s;
  s.kind = kind;
  s.sizing = material::Sizing::waterleaf;
  s.furnish = material::Furnish::cotton;
  s.grammage.value = units::grams_per_m2(grammage);
  s.thickness.value = units::millimetres(millimetres);
  s.accessible.value = units::Moisture(saturation);
  s.swelling.value = 1.1;
  s.isotherm_scale.value = 1;
  s.pore_ratio.value = 1;
  s.vapour.value = units::m2_per_s(2e-6);
  return s;
}

material::Stock catcher() {
  material::Stock s = absorbent(material::Kind::felt, 650, 2.0, 2.0);
  s.furnish = material::Furnish::wool;
  s.swelling.value = 1.05;
  s.isotherm_scale.value = 1.9;
  s.pore_ratio.value = 0.5;
  s.vapour.value = units::m2_per_s(1e-5);
  return s;
}

}  // namespace

double equilibrium_si(const material::PorousTable& table, double humidity, double kelvin) {
  double low = 0;
  double high = table.saturation();
  for (int i = 0; i < 60; ++i) {
    const double u = 0.5 * (low + high);
    const double a = table.activity(u).value * material::activity_factor_si(u, kelvin);
    (a < humidity ? low : high) = u;
  }
  return low;
}

Sheet sheet_of(const material::Stock& stock, units::Length width, units::Length height) {
  Sheet s;
  s.stock = stock;
  s.porous = std::make_shared<material::Porous>(stack::resolve_to_cobb(stock));
  s.width = width;
  s.height = height;
  return s;
}

std::shared_ptr<const material::Porous> absorbent_of(const material::Stock& stock) {
  return std::make_shared<material::Porous>(stack::resolve_to_cobb(stock));
}

const Absorbents& usual_absorbents() {
  using material::Kind;
  static const Absorbents usual{absorbent_of(absorbent(Kind::blotter, 350, 0.80, 1.6)),
                                absorbent_of(absorbent(Kind::towel, 400, 2.5, 3.0)),
                                absorbent_of(absorbent(Kind::newsprint, 50, 0.09, 1.4)),
                                absorbent_of(absorbent(Kind::tissue, 18, 0.035, 1.4)),
                                absorbent_of(catcher())};
  return usual;
}

State evenly(const Sheet&, units::Moisture moisture, units::Temperature temperature, int cells) {
  State s;
  s.share = stack::graded_cells(cells, std::min(first_cell, 0.4 / cells), stack::Graded::both);
  s.moisture.assign(s.share.size(), moisture.parts_of_one());
  s.kelvin = in_si(temperature);
  s.drying = 1;  // it comes from wetter
  s.wettest_mean = moisture.parts_of_one();
  s.wetted_through = moisture.parts_of_one();
  return s;
}

State over_cells(const State& state, int cells) {
  State s = state;
  s.share = stack::graded_cells(cells, std::min(first_cell, 0.4 / cells), stack::Graded::both);
  s.moisture.assign(s.share.size(), 0.0);
  std::size_t from = 0;
  double from_end = state.share[0];
  double left = 0;
  for (std::size_t i = 0; i < s.share.size(); ++i) {
    const double right = left + s.share[i];
    double water = 0;
    for (double at = left; at < right;) {
      const bool last = from + 1 == state.share.size();
      const double end = last ? right : std::min(right, from_end);
      water += state.moisture[from] * (end - at);
      at = end;
      if (!last && at >= from_end) from_end += state.share[++from];
    }
    s.moisture[i] = water / s.share[i];
    left = right;
  }
  // Shares add up to one but for rounding: so does the water.
  double before = 0;
  double after = 0;
  for (std::size_t i = 0; i < state.share.size(); ++i) before += state.moisture[i] * state.share[i];
  for (std::size_t i = 0; i < s.share.size(); ++i) after += s.moisture[i] * s.share[i];
  for (double& u : s.moisture) u *= after > 0 ? before / after : 1;
  return s;
}

State conditioned(const Sheet& sheet, const air::Climate& climate, int cells) {
  const double kelvin = in_si(climate.temperature);
  const double humidity = climate.humidity.parts_of_one();
  const double moisture = 0.5 * (equilibrium_si(*sheet.porous->drying, humidity, kelvin) +
                                 equilibrium_si(*sheet.porous->wetting, humidity, kelvin));
  return evenly(sheet, units::Moisture(moisture), climate.temperature, cells);
}

State conditioned(const material::Stock& stock, const air::Climate& climate) {
  const auto at = [&](material::Branch branch) {
    return material::equilibrium_moisture(stock, climate.humidity, climate.temperature, branch)
        .parts_of_one();
  };
  return evenly(
      {},
      units::Moisture(0.5 * (at(material::Branch::adsorption) + at(material::Branch::desorption))),
      climate.temperature);
}

double water_si(const State& s, const material::Porous& sheet) {
  double mean = 0;
  for (std::size_t i = 0; i < s.moisture.size(); ++i) mean += s.moisture[i] * s.share[i];
  return mean * sheet.dry + s.film_upper + s.film_lower;
}

Sample sample_of(const State& state, units::Duration at) {
  Sample s;
  s.at = at;
  double mean = 0;
  for (std::size_t i = 0; i < state.moisture.size(); ++i) {
    mean += state.moisture[i] * state.share[i];
  }
  const auto [driest, wettest] = std::minmax_element(state.moisture.begin(), state.moisture.end());
  s.mean = units::Moisture(mean);
  s.surface = units::Moisture(std::max(state.moisture.front(), state.moisture.back()));
  s.driest = units::Moisture(*driest);
  s.wettest = units::Moisture(*wettest);
  s.film = units::kilograms_per_m2(state.film_upper + state.film_lower);
  s.temperature = units::kelvin(state.kelvin);
  return s;
}

std::vector<double> equal_cells(const std::vector<double>& moisture,
                                const std::vector<double>& share, int count) {
  std::vector<double> cells(static_cast<std::size_t>(count), 0.0);
  const double width = 1.0 / count;
  double left = 0;
  for (std::size_t i = 0; i < moisture.size(); ++i) {
    const double right = i + 1 == moisture.size() ? 1.0 : left + share[i];
    auto k = static_cast<std::size_t>(std::min(left / width, count - 1.0));
    for (double at = left; at < right && k < cells.size(); ++k) {
      const double end =
          k + 1 == cells.size() ? right : std::min(right, width * static_cast<double>(k + 1));
      cells[k] += moisture[i] * (end - at) / width;
      at = end;
      if (end < width * static_cast<double>(k + 1)) break;
    }
    left = right;
  }
  return cells;
}

}  // namespace dampline::method
