#pragma once

#include <array>
#include <optional>

#include <dampline/size/strain.hpp>
#include <dampline/units/quantity.hpp>

/// Whether a later plate falls on the image already there. The first image was plate-sized on the
/// sheet as it was then; by the later pull it has grown or shrunk with the sheet.
namespace dampline::size {

enum class Grain { along_long_side, along_short_side, none, unknown };

/// What is laid to what, and so what stays put when the sheet has changed size.
enum class Locate {
  corner,   ///< one corner: the whole change shows at the far corner
  edge,     ///< one long edge, centred along it
  centre,   ///< by eye to the middle, or floated to the plate mark
  pins,     ///< two pins in one long edge: as edge, the change between the pins shared
  trapped,  ///< a short edge still held by the roller: as a short edge, the change along it shared
};

struct RegisterCase {
  units::Length long_side;   ///< of the image, measured along the sheet's long side
  units::Length short_side;  ///< along its short side
  Growth first{};            ///< of the sheet when the first image was printed
  Growth later{};            ///< when this plate is
  Grain grain = Grain::unknown;
  Locate locate = Locate::corner;
  units::Length placing{};    ///< s.d. of the user's own placing, along each side
  units::Length tolerance{};  ///< misfit that still passes
  /// From what locates the sheet (its corner, edge or pins) to the image: the sheet's margin when
  /// the sheet is laid to marks, 0 when the plate is laid to the image's own corner.
  units::Length margin_long{};   ///< along the sheet's long side
  units::Length margin_short{};  ///< along its short side
  /// Stretch by the nip between the two pulls, along each side of the sheet.
  units::Strain nip_long{};
  units::Strain nip_short{};
};

struct Shift {
  units::Length long_way;
  units::Length short_way;
};

struct Misfit {
  std::array<Shift, 4> corner;  ///< of the old image against the plate, placing left out
  std::array<Shift, 4> edge;    ///< at the middles of its sides: near and far short side, then long
  units::Length along;          ///< largest along the grain, without sign
  units::Length across;         ///< largest across it
  units::Length worst;          ///< largest distance at any corner
  units::Chance within;         ///< of staying within the tolerance at all four, placing included
  bool grain_across_long = false;  ///< which way the grain was taken to run
};

/// Change of the image since it was printed, over its size then, along the sheet's sides.
struct Sides {
  units::Strain long_way;
  units::Strain short_way;
};
/// Grain none: the mean of both directions on both sides. Grain unknown throws
/// std::invalid_argument: ask for both.
[[nodiscard]] Sides sides(const Growth& growth, Grain grain);
[[nodiscard]] Sides change(const RegisterCase& c, Grain grain);

/// Misfit of a later pull. Grain unknown: worked out both ways, the worse given.
///
/// Placing errors are taken as normal, independent along the two sides, without turning the sheet:
/// `assumed`.
/// Range   image sides 1 mm to 3 m, placing and tolerance to 100 mm; else units::OutOfRange.
[[nodiscard]] Misfit misfit(const RegisterCase& c);
/// Its worst corner alone: for following many moments.
[[nodiscard]] units::Length worst_corner(const RegisterCase& c);

/// What the tolerance leaves for the sheet's own change once the usual placing error is taken off;
/// 0 when placing takes it all.
[[nodiscard]] units::Length room_for_drift(units::Length tolerance, units::Length placing);

/// Moistures at which an even sheet keeps a later plate within the tolerance at every corner,
/// placing left out.
struct MoistureRange {
  std::optional<units::Moisture> driest;   ///< none: however dry
  std::optional<units::Moisture> wettest;  ///< none: however wet, to 1.5 g/g
};
/// None: no moisture does. `later` is the sheet by then, c.first what it had grown to at the first
/// pull; c.later is not read.
[[nodiscard]] std::optional<MoistureRange> allowed_moisture(const RegisterCase& c,
                                                            const SheetSize& later);

/// How much drier (or, `drier` false, wetter) than at the first pull an even sheet may be before
/// the worst corner is out by the tolerance, placing left out. None: it never is, within 0 to 1.5
/// g/g.
[[nodiscard]] std::optional<units::Moisture> allowed_moisture_difference(const RegisterCase& c,
                                                                         const SheetSize& sheet,
                                                                         units::Moisture first,
                                                                         bool drier);

}  // namespace dampline::size
