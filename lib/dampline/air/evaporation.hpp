#pragma once

#include <array>
#include <optional>

#include <dampline/air/climate.hpp>
#include <dampline/air/convection.hpp>
#include <dampline/units/quantity.hpp>

/// What a sheet wet at its faces loses to a room: the balance of heat in (air, room surfaces,
/// table) against heat out (evaporation) at one sheet temperature. Free water: activity 1.
namespace dampline::air {

/// A wet sheet's surroundings, SI. Faces that the air does not reach are left out.
struct WetSheet {
  std::array<Face, 2> face;
  int face_count = 2;
  double air_kelvin = 293.15;
  double air_vapour_pa = 0;
  double total_pa = 101325;
  double room_kelvin = 293.15;               ///< walls, lamps, stove: what the sheet sees
  double back_conductance = 0;               ///< W/(m2 K), from a table at air temperature
  double water_activity = 1;                 ///< of the faces
  std::optional<double> fixed_convection{};  ///< W/(m2 K) for every face; computed when absent
};

struct WetBalance {
  double surface_kelvin;
  std::array<double, 2> convection;   ///< W/(m2 K) by face
  std::array<double, 2> evaporation;  ///< kg/(m2 s) by face
  double total;                       ///< kg/(m2 s), faces added: per m2 of sheet
};
[[nodiscard]] WetBalance wet_balance_si(const WetSheet& sheet);

/// The same in quantities.
struct Evaporation {
  units::Temperature surface;
  units::Flux loss;  ///< per area of sheet, all its faces together
};

/// Loss of a wet sheet hung, on a rack or on a table.
///
/// Range   air 0 to 45 degC, sheets of 5 cm to 2 m.
/// Error   +-25 % still, +-20 % with a fan: the air speed of a room is not better known.
/// Source  balance and constants in docs/model.md, Air.
[[nodiscard]] Evaporation evaporation(const Climate& climate, Mounting mounting,
                                      units::Length width, units::Length height,
                                      TableTop top = TableTop::wood);

}  // namespace dampline::air
