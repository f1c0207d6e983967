#pragma once

#include <dampline/stack/kernel_si.hpp>

/// Keeping a state within what paper can hold, without making or losing water.
namespace dampline::stack::kernel {

/// Worst excess beyond 0 or saturation in any lane, g/g. Dew, and what a full layer has too much as
/// a whole, are no error of a step and do not count.
[[nodiscard]] double excess(const System& k, const double* y);

/// Moves what is below 0 or above saturation to the nearest cells of the layer that can take it.
/// What no cell of a full layer can hold stands as a film where it came in; what an empty one has
/// given too much of is taken from the other layers, or was never given off.
void bring_inside(System& k, double* y);

/// A film that has come to an end joins the cell it lies on. True when it did.
bool settle_film(System& k, double* y, int joint, int lane);

}  // namespace dampline::stack::kernel
