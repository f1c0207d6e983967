#pragma once

#include <algorithm>
#include <cmath>
#include <vector>

#include <dampline/air/convection.hpp>
#include <dampline/material/isotherm.hpp>
#include <dampline/stack/cobb.hpp>
#include <dampline/stack/stack.hpp>

namespace dampline::stack::tests {

/// What a sheet brings to its day, and what it has become.
struct DaySheet {
  const material::Porous* sheet = nullptr;
  air::Climate climate{};
  double air_scale = 1;
  double contact_scale = 1;
  std::vector<double> moisture{};
  std::vector<double> share{};
  double film_upper = 0;  // kg/m2
  double film_lower = 0;
  double kelvin = 293.15;
};

inline DaySheet day_sheet(const material::Porous& sheet, int cells = 24, double moisture = 0.06) {
  DaySheet s;
  s.sheet = &sheet;
  s.share = graded_cells(cells, std::min(0.008, 0.4 / cells), Graded::both);
  s.moisture.assign(s.share.size(), moisture);
  return s;
}

inline const material::Porous& day_blotter() {
  static const material::Porous blotter = [] {
    material::Stock s;
    s.kind = material::Kind::blotter;
    s.sizing = material::Sizing::waterleaf;
    s.grammage.value = units::grams_per_m2(350);
    s.thickness.value = units::millimetres(0.80);
    s.accessible.value = units::Moisture(1.6);
    s.isotherm_scale.value = 1;
    s.pore_ratio.value = 1;
    s.vapour.value = units::m2_per_s(2e-6);
    return resolve_to_cobb(s);
  }();
  return blotter;
}

/// The day of the speed table: tub 30 min, held up to drain 30 s, two dry blotters of 20 s each,
/// covered 30 min, 12 h on the bench.
enum class DayStage { tub, drain, blot, blot_again, covered, bench };
inline constexpr int day_stages = 6;
inline constexpr double day_seconds[day_stages] = {1800, 30, 20, 20, 1800, 43200};

struct DayStack {
  Stack stack;
  std::size_t own = 0;  // the sheet among the layers
};

inline DayStack begin(DayStage stage, DaySheet& s) {
  using material::Branch;
  DayStack d;
  Stack& k = d.stack;
  if (stage == DayStage::tub) s.kelvin = 291.15;
  if (stage == DayStage::tub) s.film_upper = s.film_lower = 0;
  if (stage == DayStage::drain) s.film_upper = s.film_lower = 0.0137;  // of 50, the rest runs off
  const auto branch = stage == DayStage::tub ? Branch::adsorption : Branch::desorption;
  k.layers = {{s.sheet, branch, s.moisture, s.share}};
  k.films = {{s.film_upper, false}, {s.film_lower, true}};
  k.kelvin = s.kelvin;
  k.ambient_kelvin = units::in_si(s.climate.temperature);
  const auto air = [&](air::Facing facing) {
    const auto face =
        air::face_of(facing, s.climate.air, units::centimetres(56), units::centimetres(76));
    return Face{FaceKind::air, air_side(s.climate, face, s.air_scale, k.back_heat)};
  };
  switch (stage) {
    case DayStage::tub:
      k.left.kind = k.right.kind = FaceKind::water;
      k.fixed_temperature = true;
      break;
    case DayStage::drain:
      k.left = k.right = air(air::Facing::vertical);
      break;
    case DayStage::blot:
    case DayStage::blot_again: {
      const auto blotter = [](Graded graded) {
        const auto share = graded_cells(8, 0.03, graded);
        return Layer{&day_blotter(), Branch::adsorption, std::vector<double>(8, 0.065), share};
      };
      k.layers = {blotter(Graded::right), k.layers[0], blotter(Graded::left)};
      k.contacts.assign(2, s.contact_scale * conductance_si(Contact::roller));
      k.films = {{}, k.films[0], k.films[1], {}};
      k.back_heat = 6;
      d.own = 1;
      break;
    }
    case DayStage::covered:
      k.left = k.right = {FaceKind::air, cover_side(s.climate, 8e-7 * s.air_scale)};
      break;
    case DayStage::bench:
      k.back_heat = 3;
      k.left = air(air::Facing::up);
      break;
  }
  return d;
}

inline void end(const DayStack& d, DaySheet& s) {
  s.moisture = d.stack.layers[d.own].moisture;
  s.film_upper = d.stack.films[d.own].water;
  s.film_lower = d.stack.films[d.own + 1].water;
  s.kelvin = d.stack.kelvin;
}

inline double mean(const DaySheet& s) {
  double sum = 0;
  for (std::size_t i = 0; i < s.share.size(); ++i) sum += s.share[i] * s.moisture[i];
  return sum;
}

/// Takes a sheet through its day; its means after each stage.
inline std::vector<double> through_day(DaySheet& s, double tolerance, int* steps = nullptr) {
  std::vector<double> means;
  for (int i = 0; i < day_stages; ++i) {
    DayStack d = begin(static_cast<DayStage>(i), s);
    const Outcome o = advance(d.stack, day_seconds[i], {.moisture = tolerance});
    if (steps != nullptr) *steps += o.steps + o.rejected;
    end(d, s);
    means.push_back(mean(s));
  }
  return means;
}

}  // namespace dampline::stack::tests
