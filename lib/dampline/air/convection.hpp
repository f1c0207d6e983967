#pragma once

#include <array>

#include <dampline/air/climate.hpp>
#include <dampline/units/quantity.hpp>

/// Heat and vapour between the faces of a sheet and the air of a room: natural and forced
/// convection, radiation, and vapour by the Lewis relation.
///
/// A rate in a room is not known better than +-25 % in still air and +-20 % under a fan: published
/// formulae for still-air evaporation disagree by a factor 2.8 to 4 for one condition.
namespace dampline::air {

enum class Facing { vertical, up, down };

/// Where a sheet is while it dries, so which of its faces the air reaches.
enum class Mounting {
  hung,   ///< two vertical faces
  rack,   ///< open mesh: one face up, one down
  table,  ///< one face up, the other sealed by the table
};

struct Faces {
  std::array<Facing, 2> facing;
  int count;
};
[[nodiscard]] Faces faces(Mounting mounting);

/// Air speed past the sheet and what room turbulence adds to a laminar plate. `assumed`, within
/// published ranges of room air speeds.
struct Draught {
  double speed_m_s;
  double turbulence;
};
[[nodiscard]] Draught draught(AirMovement air);

/// Heat a table gives back to the sheet on it, W/(m2 K): wood 3, glass or metal on legs 6, foam 0.
/// `assumed`.
enum class TableTop { wood, metal, foam };
[[nodiscard]] double back_conductance_si(TableTop top);

/// One face of a sheet, for the convection kernel.
struct Face {
  Facing facing;
  double natural_length_m;  ///< height of a vertical face; area over perimeter of a level one
  double forced_length_m;   ///< path of the air along the sheet: its shorter side
  Draught draught;
};
/// A sheet hung with `height` upright; for a level sheet the order does not matter.
[[nodiscard]] Face face_of(Facing facing, AirMovement air, units::Length width,
                           units::Length height);
/// The outer strip of a face, `strip` wide: the boundary layer starts at the edge, so the mean over
/// the strip is that of a plate only `strip` long. Source: laminar plate, h falls as x^-1/2.
[[nodiscard]] Face rim_of(const Face& face, units::Length strip);

/// The two sides of a boundary layer, SI.
struct Boundary {
  double air_kelvin;
  double air_vapour_pa;
  double surface_kelvin;
  double surface_vapour_pa;
  double total_pa;
};

/// Mean convective coefficient of a face, W/(m2 K).
///
/// h = (h_natural^3 + h_forced^3)^(1/3); buoyancy from virtual temperatures, so the vapour's own
/// lightness counts. Air properties at the mean of air and surface.
/// Range   plates of 1 cm to 2 m, 0 to 5 m/s, -20 to 60 degC.
/// Error   clean plates 4-5 % [jaffer2023]; a room +-20 to 25 %.
/// Source  correlations as given in docs/model.md, Air.
[[nodiscard]] double convection_si(const Face& face, const Boundary& boundary);

/// The correlations by themselves: Nusselt numbers. Source: docs/model.md, Air.
[[nodiscard]] double nusselt_level_unstable(double rayleigh);  ///< .54 Ra^1/4; .15 Ra^1/3 over 1e7
[[nodiscard]] double nusselt_level_stable(double rayleigh);    ///< .27 Ra^1/4
[[nodiscard]] double nusselt_vertical(double rayleigh,
                                      double prandtl);                 ///< [churchill1975] laminar
[[nodiscard]] double nusselt_forced(double reynolds, double prandtl);  ///< .664 Re^1/2 Pr^1/3

/// Radiative coefficient, W/(m2 K), of a sheet of emissivity 0.95 (0.93-0.97, from memory) facing
/// room surfaces, linearised about the mean temperature. Source: Stefan-Boltzmann.
[[nodiscard]] double radiation_si(double surface_kelvin, double room_kelvin);

/// Vapour transfer coefficient, m/s, from a convective one: Lewis relation, Le^(2/3) = 0.905, with
/// a resistance inside the sheet in series (s/m; 0 for a wet face).
[[nodiscard]] double vapour_transfer_si(double convection_w_m2k, double air_density_kg_m3,
                                        double resistance_s_m = 0);

/// Evaporation from a face, kg/(m2 s), at a vapour transfer coefficient. Vapour densities e/(Rv T)
/// and the correction for the flow that vapour itself makes (1 - mean e/P).
/// Positive away from the face.
[[nodiscard]] double evaporation_si(double vapour_transfer_m_s, const Boundary& boundary);

/// The mean convective coefficient with the boundary given in quantities, W/(m2 K). Throws
/// units::OutOfRange outside the range above.
[[nodiscard]] double convection(const Face& face, const Climate& climate,
                                units::Temperature surface);

}  // namespace dampline::air
