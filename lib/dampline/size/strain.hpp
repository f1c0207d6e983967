#pragma once

#include <span>

#include <dampline/material/stock.hpp>
#include <dampline/units/quantity.hpp>

/// How big a sheet is: growth along and across the grain with moisture, the growth that a new sheet
/// has had dried out of it and gives back when first wetted through, and what drying under
/// restraint puts in again. Lengths are relative to the sheet as bought, conditioned at 50 % RH.
///
/// The growth of one paper is uncertain by tens of per cent until two pencil marks on it are
/// measured; comparisons between pulls of one sheet are firmer. Laws and sources: docs/model.md,
/// Size.
namespace dampline::size {

/// Saturating measure of moisture, u/(1+(u/uf)^4)^(1/4): the water that swells the fibres.
[[nodiscard]] double swelling_water_si(double moisture, double fibre_full);
/// Dryness s: 1 at the conditioned moisture, 0 when saturated, above 1 drier than conditioned.
[[nodiscard]] double dryness_si(double moisture, double fibre_full, double conditioned);
/// Share of the dried-in set given back by a wettest moisture: 0 below 0.09, 1 above 0.40 g/g,
/// smooth between. The shape is `assumed`.
[[nodiscard]] double released_si(double wettest);
/// Stiffness over that of the dry sheet, exp(-B (min(u, 0.55) - 0.02)), B 6.7 (5.5-8, from memory).
[[nodiscard]] double stiffness_si(double moisture, double softening = 6.7);

/// One direction of one sheet. Fractions of the length, not per cent.
struct Direction {
  double free = 0;          ///< A: growth from conditioned to soaked of a sheet once dried free
  double as_bought = 0;     ///< set of the sheet as bought: fixes the length all others refer to
  double dried_in = 0;      ///< d: set now, how much longer the dry sheet is than one dried free
  double wettest = 0;       ///< moisture reached all through since the set was put in
  double fibre_full = 0.5;  ///< g/g
  double conditioned = 0.07;
};

/// Growth of one direction at an even moisture: (A - d0) - (A - d) s(u).
[[nodiscard]] double growth_si(const Direction& d, double moisture);
/// The same for a profile through the thickness, cells of equal mass: the mean weighted by
/// stiffness, since wet layers are soft and follow the stiff ones.
[[nodiscard]] double growth_si(const Direction& d, std::span<const double> moisture);
/// Wets the sheet all through (`driest` is its driest place): gives back its share of the set when
/// that is wetter than the sheet has been since the set was put in.
void wet(Direction& d, double driest);
/// Dries from one moisture to another held by `restraint` (0 free to 1 held), then lets go: 0.88
/// (0.8-0.95, assumed) of the growth that was held back stays in.
void dry_held(Direction& d, double from, double to, double restraint);

/// A sheet's two directions.
struct SheetSize {
  Direction along;   ///< along the grain
  Direction across;  ///< across it
};
/// A sheet as bought, conditioned at 50 % RH and 23 degC.
[[nodiscard]] SheetSize new_sheet(const material::Stock& stock);
void wet(SheetSize& sheet, units::Moisture driest);
void dry_held(SheetSize& sheet, units::Moisture from, units::Moisture to, double restraint);

/// Growth along and across the grain.
struct Growth {
  units::Strain along;
  units::Strain across;
};
/// Growth relative to the sheet as bought.
///
/// Range   moisture 0 to 6 g/g; else units::OutOfRange.
/// Error   +-30 % of the growth for a paper nobody has measured, +-0.2 % of length for open data.
[[nodiscard]] Growth growth(const SheetSize& sheet, units::Moisture even);
[[nodiscard]] Growth growth(const SheetSize& sheet, std::span<const double> profile_g_per_g);
/// What an image printed at `damp` has shrunk by once the sheet has dried free to the conditioned
/// moisture: positive for smaller.
[[nodiscard]] Growth shrinkage_to_dry(const SheetSize& sheet, units::Moisture damp);

/// How firmly blotters under boards hold a drying sheet: friction of both faces out to the nearest
/// free edge over the force with which a sheet of that grammage dries; 0 free, 1 held.
/// Source: friction 0.4, drying force 400-1500 N/m for 100-300 g/m2: from memory.
[[nodiscard]] double restraint_under_boards(units::Pressure weight, units::Length to_edge,
                                            units::Grammage grammage);

inline constexpr units::Strain usual_nip{0.0005};
/// Stretch in the direction of travel that a pass through the nip leaves: 0.05 % (0-0.15) at the
/// first pass, a third of it at each later one. `assumed`: no measurement was found.
[[nodiscard]] units::Strain nip_stretch(int passes, units::Strain first = usual_nip);

}  // namespace dampline::size
