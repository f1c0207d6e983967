#pragma once

#include <dampline/material/stock.hpp>

namespace dampline::material {

/// Calls `f(key, ranged)` for every number of a stock, by the key it has in data/stocks.toml and in
/// the JSON of `dampline papers`.
template <class AStock, class Function>
void each_number(AStock& s, Function&& f) {
  f("grammage", s.grammage);
  f("thickness", s.thickness);
  f("cobb60", s.cobb60);
  f("accessible", s.accessible);
  f("swelling", s.swelling);
  f("isotherm_scale", s.isotherm_scale);
  f("pore_ratio", s.pore_ratio);
  f("vapour", s.vapour);
  f("wetting_delay", s.wetting_delay);
  f("fibre_full", s.fibre_full);
  f("free_along", s.along.free);
  f("dried_in_along", s.along.dried_in);
  f("free_across", s.across.free);
  f("dried_in_across", s.across.dried_in);
}

}  // namespace dampline::material
