#pragma once

#include <string>
#include <vector>

#include <dampline/size/advice.hpp>

/// Where the image on the sheet lies against a later plate, drawn.
namespace dampline::report {

/// A map for each way: sheet and plate to scale, the old image's corners and sides moved, arrows
/// from where the plate's corner falls to where the image's is, the tolerance as a circle. Moves
/// are exaggerated alike by a round number that the drawing states; a way too far off for it has a
/// smaller one of its own, stated too.
///
/// A file of its own: styles itself for light and dark, fetches nothing, and says in words (title
/// and desc) what it shows. Empty when there is one plate.
[[nodiscard]] std::string register_map(const size::Printing& printing, const size::Answer& answer);

/// The exaggeration: the largest of 1, 2, 5, 10, 20 ... that keeps arrows within the margin drawn.
[[nodiscard]] double exaggeration(double largest_move_mm, double room_mm);

}  // namespace dampline::report
