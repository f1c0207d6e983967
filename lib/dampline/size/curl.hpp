#pragma once

#include <span>
#include <string>

#include <dampline/size/strain.hpp>
#include <dampline/units/quantity.hpp>

/// Curl of a sheet wetted from one side: rough, and transient. It rises to a most as the wet front
/// passes and goes again when the sheet is even.
namespace dampline::size {

/// Curvature times thickness over the difference of growth, for a wet layer that is `wet_share` of
/// the thickness and `softness` = E_wet/E_dry as stiff. Source: two bonded layers, elastic bending.
[[nodiscard]] double two_layer_curl(double wet_share, double softness);

/// Curvature (1/m) across the grain of a moisture profile through the thickness, cells of equal
/// mass from the lower face to the upper. Positive: the edges lift (the upper face is the shorter).
[[nodiscard]] double curl_si(const Direction& d, std::span<const double> moisture,
                             double thickness_m);

enum class Edges { flat, lift, droop };

/// How a sheet lying face up bends, about an axis along its grain (across it the growth is more).
struct Curl {
  Edges edges = Edges::flat;
  units::Length radius{};  ///< rough: of the bend, were the sheet free; when flat, nothing
};
/// Curl of a moisture profile over cells of equal mass, from the upper face down. The wetter face
/// is the longer one: sponged from above, the edges droop; from below, they lift. Bends wider than
/// 3 m count as flat: a sheet's own weight takes them out, `assumed`.
///
/// Error   the direction is firm, the radius is within a factor of two at best (growth of an
///         unmeasured paper, stiffness of a wet one).
[[nodiscard]] Curl curl(const SheetSize& sheet, std::span<const double> from_above,
                        units::Length thickness);
/// "flat", "lift", "droop".
[[nodiscard]] std::string word(Edges edges);
/// "flat", "edges lift, radius 12 cm", "edges droop, radius 1.5 m".
[[nodiscard]] std::string text(const Curl& curl);

}  // namespace dampline::size
