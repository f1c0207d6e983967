#pragma once

#include <span>

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

}  // namespace dampline::size
