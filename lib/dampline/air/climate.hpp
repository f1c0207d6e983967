#pragma once

#include <dampline/units/quantity.hpp>

namespace dampline::air {

/// How the air of the room moves past a sheet. The speeds behind the words are in convection.cpp.
enum class AirMovement {
  still,     ///< doors and windows shut, nobody walking about
  ordinary,  ///< people at work
  fan,       ///< a gentle fan turned on the sheet
};

/// The air a sheet stands in.
struct Climate {
  units::Temperature temperature = units::celsius(20);
  units::RelativeHumidity humidity{0.5};
  units::Pressure pressure = units::pascal(101325);
  AirMovement air = AirMovement::ordinary;
};

}  // namespace dampline::air
