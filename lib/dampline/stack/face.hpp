#pragma once

#include <array>

#include <dampline/air/climate.hpp>
#include <dampline/air/convection.hpp>
#include <dampline/units/quantity.hpp>

/// What a stack meets at its two ends.
namespace dampline::stack {

/// A face open to the air of a room, resolved to doubles. Convection depends on how much colder
/// than the air the sheet is; it is tabled against that, with the surface vapour of a sheet in
/// balance at each temperature.
struct AirSide {
  static constexpr int intervals = 8;
  double air_kelvin = 293.15;
  double vapour_pa = 0;  ///< in the air
  double total_pa = 101325;
  double radiation = 0;                            ///< W/(m2 K)
  double depression = 5;                           ///< K: a wet sheet's, the scale of the tables
  std::array<double, 4 * intervals> convection{};  ///< cubics, W/(m2 K), over (dT/depression)^1/4
  std::array<double, 4 * intervals> transfer{};    ///< cubics, m/s
};

/// Air at the face of a sheet. `scale` multiplies vapour and heat transfer together (the uncertain
/// coefficient of a room, or what crowding takes off); `back_heat`, W/(m2 K), is what comes through
/// a table behind the sheet.
///
/// Range   climates that air::evaporation takes.  Error  1 % of air::wet_balance_si's loss.
/// Source  docs/model.md, Faces.
[[nodiscard]] AirSide air_side(const air::Climate& climate, const air::Face& face, double scale = 1,
                               double back_heat = 0);

/// A cover of plastic: vapour passes the film and leaks at the edges at `transfer` m/s; heat passes
/// at 4 W/(m2 K), `assumed`.
[[nodiscard]] AirSide cover_side(const air::Climate& climate, double transfer_m_s);

enum class FaceKind {
  sealed,  ///< plate, board, table, or the middle of a symmetric pile
  water,   ///< the tub
  air,
};
struct Face {
  FaceKind kind = FaceKind::sealed;
  AirSide air{};
};

/// How closely layers touch: kg/(m2 s) per unit of reference moisture. `assumed` values within the
/// ranges of docs/model.md; to be fitted to weighings before and after a blot.
enum class Contact {
  laid,    ///< 2e-4 (1-3e-4)
  boards,  ///< 6e-4 (3-12e-4)
  hand,    ///< 2e-3 (1-4e-3)
  roller,  ///< 8e-3 (4-15e-3)
  nip,     ///< 2e-2 (1-4e-2)
};
[[nodiscard]] double conductance_si(Contact contact);

}  // namespace dampline::stack
