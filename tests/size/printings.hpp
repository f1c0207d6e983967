#pragma once

#include <dampline/size/printing.hpp>

#include "size/papers.hpp"

namespace dampline::tests {

/// Two plates of 20 x 30 cm on the demo's sheet, soaked, blotted twice and rested.
inline size::Printing two_plates(
    const std::string& paper = "mould-made cotton, internal size, 300 g/m2") {
  size::Printing p;
  p.stock = stock(paper);
  p.sheet_long = units::centimetres(56);
  p.sheet_short = units::centimetres(38);
  p.room.temperature = units::celsius(20);
  p.room.humidity = units::RelativeHumidity(0.5);
  p.room.air = air::AirMovement::still;
  p.grain = size::Grain::along_long_side;
  p.placing = units::millimetres(0.2);
  p.tolerance = units::millimetres(0.4);
  for (const char* name : {"tone", "key"}) {
    p.plates.push_back({name, units::centimetres(30), units::centimetres(20), units::minutes(20)});
  }
  p.damping = method::soak_blot_rest(units::minutes(30), 2, units::minutes(30));
  p.samples = 16;
  return p;
}

}  // namespace dampline::tests
