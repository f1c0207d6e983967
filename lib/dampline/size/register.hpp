#pragma once

#include <array>
#include <optional>

#include <dampline/size/strain.hpp>
#include <dampline/units/quantity.hpp>

/// Whether a later plate falls on the image already there. The first image was plate-sized on the
/// sheet as it was then; by the later pull it has grown or shrunk with the sheet.
namespace dampline::size {

enum class Grain { along_long_side, along_short_side, none, unknown };

/// How the sheet is laid to the plate: what stays put when the sheet has changed size.
enum class Locate {
  corner,  ///< one corner: the whole change shows at the far corner
  edge,    ///< one long edge, centred along it
  centre,  ///< by eye to the middle, or floated to the plate mark
  pins,    ///< two pins in one long edge: as edge, the change between the pins shared
};

struct RegisterCase {
  units::Length long_side;   ///< of the image, measured along the sheet's long side
  units::Length short_side;  ///< along its short side
  Growth first;              ///< of the sheet when the first image was printed
  Growth later;              ///< when this plate is
  Grain grain = Grain::unknown;
  Locate locate = Locate::corner;
  units::Length placing;    ///< s.d. of the user's own placing, along each side
  units::Length tolerance;  ///< misfit that still passes
  /// From the corner or edge that locates the sheet to the image, both ways; 0 when the image's own
  /// corner locates.
  units::Length margin{};
};

struct Shift {
  units::Length long_way;
  units::Length short_way;
};

struct Misfit {
  std::array<Shift, 4> corner;  ///< of the old image against the plate, placing left out
  units::Length along;          ///< largest along the grain, without sign
  units::Length across;         ///< largest across it
  units::Length worst;          ///< largest distance at any corner
  units::Chance within;         ///< of staying within the tolerance at all four, placing included
  bool grain_across_long = false;  ///< which way the grain was taken to run
};

/// Misfit of a later pull. Grain unknown: worked out both ways, the worse given.
///
/// Placing errors are taken as normal, independent along the two sides, without turning the sheet:
/// `assumed`.
[[nodiscard]] Misfit misfit(const RegisterCase& c);

/// How much drier (or, `drier` false, wetter) than at the first pull an even sheet may be before
/// the worst corner is out by the tolerance, placing left out. None: it never is, within 0 to 1.5
/// g/g.
[[nodiscard]] std::optional<units::Moisture> allowed_moisture_difference(const RegisterCase& c,
                                                                         const SheetSize& sheet,
                                                                         units::Moisture first,
                                                                         bool drier);

}  // namespace dampline::size
