#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include <dampline/units/parse.hpp>
#include <dampline/units/quantity.hpp>

/// A stack in words: "board / blotter / sheet / blotter / board", from the top down.
namespace dampline::method {

/// What closes a stack above or below.
enum class Side {
  water,    ///< of the tub
  air,      ///< of the room
  plastic,  ///< a cover, with a leak (Cover)
  table,    ///< sealed; wood gives back some heat
  board,    ///< sealed
  plate,    ///< sealed
  mirror,   ///< the pile goes on, mirrored: nothing passes
};

/// What a layer is.
enum class Piece {
  sheet,  ///< the sheet that is followed
  like,   ///< a sheet of the same paper in the same state
  wet,    ///< of the same paper, nine tenths full
  dry,    ///< of the same paper, as it lay in the room
  damp,   ///< of the same paper, at a stated moisture
  blotter,
  towel,
  newsprint,
  tissue,
  felt,
};
[[nodiscard]] bool absorbs(Piece piece);  ///< blotter, towel, newsprint, tissue, felt

struct Piled {
  Piece piece = Piece::sheet;
  int count = 1;
  units::Moisture moisture{};  ///< of damp sheets
};

struct Layout {
  Side upper = Side::air;
  Side lower = Side::table;
  std::vector<Piled> layers = {Piled{}};  ///< exactly one of them the sheet
  bool hung = false;                      ///< upright: both faces open are vertical

  [[nodiscard]] bool touches(Side side) const { return upper == side || lower == side; }
  [[nodiscard]] bool has_absorbents() const;
};

/// "air / sheet / table", "hung: air / sheet / air", "plastic / 2 dry sheets / wet sheet / sheet /
/// plastic", "mirror / sheet / damp sheet 0.40 g/g / board". At most 64 layers.
[[nodiscard]] units::Parsed<Layout> parse_layout(std::string_view text);
[[nodiscard]] std::string text(const Layout& layout);
[[nodiscard]] std::string word(Side side);
[[nodiscard]] std::string word(Piece piece);

}  // namespace dampline::method
