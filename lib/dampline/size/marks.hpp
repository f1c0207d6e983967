#pragma once

#include <optional>
#include <string_view>

#include <dampline/size/spread.hpp>
#include <dampline/units/parse.hpp>

/// Two pencil marks on a sheet, a ruler's length apart, read as the day goes: what replaces the
/// growth of a paper's class by that of this paper.
namespace dampline::size {

/// Distance of two marks in one direction.
struct Marks {
  units::Length dry{};                  ///< before damping, in the room
  std::optional<units::Length> damp;    ///< when first laid to the plate
  std::optional<units::Length> pulled;  ///< after the first pull
  std::optional<units::Length> waited;  ///< after lying open for `wait` since that pull
  units::Duration wait{};
  std::optional<units::Length> dried;  ///< dry again in the room, dried free
};

/// "dry 200 mm, damp 202.5 mm, pulled 202.4 mm, 20 min 201.6 mm, dried 199.5 mm": dry and one more
/// at least.
/// Range   40 mm to 2 m; growth -3 to 12 %; a wait to 24 h.
[[nodiscard]] units::Parsed<Marks> parse_marks(std::string_view text);

/// Moistures of an even sheet at the readings, as simulated, g/g.
struct MarkMoistures {
  double dry = 0;
  double damp = 0;
  double pulled = 0;
  double waited = 0;
  double dried = 0;
  double wettest = 0;  ///< what the driest place of the sheet had reached by the first reading
};

/// +-0.25 mm a reading, taken as eight readings of ten: a ruler in half millimetres, `assumed`.
inline constexpr double ruler_si = 0.25e-3;

/// A and d0 of one direction from its marks. The class serves to part A from d0 where the readings
/// do not: three times as wide as it stands, so that what was measured decides. Linear least
/// squares.
///
/// Error   from the ruler, in Belief; that of the simulated moistures is not in it.
[[nodiscard]] Belief believed(const material::Growth& of_class, const Direction& direction,
                              const Marks& marks, const MarkMoistures& at);

}  // namespace dampline::size
