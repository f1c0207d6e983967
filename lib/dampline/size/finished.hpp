#pragma once

#include <string>
#include <vector>

#include <dampline/size/follow.hpp>

/// Sizes on the dried print, and what they ask for beforehand.
namespace dampline::size {

struct Rectangle {
  units::Length long_side;
  units::Length short_side;
};

struct ImageSize {
  std::string plate;
  Rectangle plate_size;
  Rectangle dried;  ///< of the image on the finished print: it shrinks with the sheet
};

struct Finished {
  Growth growth;  ///< of the finished sheet against the sheet as bought; negative: smaller
  Rectangle sheet;
  std::vector<ImageSize> images;
  /// What must be torn or trimmed for a finished sheet of the size asked.
  Rectangle tear;
};
/// After a passage, dry in the room. The press's stretch is in it.
[[nodiscard]] Finished finished(const Printing& p, const Passage& passage, Grain grain);

/// Tissue for chine colle. It is laid damp on a damp plate-sized place and both dry together.
struct Tissue {
  Rectangle cut;          ///< dry, so that it is plate-sized when wet with paste
  Growth wet;             ///< how it grows on the way
  units::Strain with;     ///< worst difference of shrinkage to the sheet's, grains the same way
  units::Strain crossed;  ///< the same, grains crossed
};
/// The tissue is pasted all through (soaked), the sheet at the moisture of its pull.
[[nodiscard]] Tissue tissue_for(const material::Stock& tissue, const PrintedPlate& plate,
                                const AtPull& sheet, Grain grain);

}  // namespace dampline::size
