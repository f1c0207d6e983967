#pragma once

#include <optional>
#include <vector>

#include <dampline/air/room.hpp>
#include <dampline/method/cover.hpp>
#include <dampline/method/layout.hpp>
#include <dampline/method/sheet.hpp>
#include <dampline/stack/face.hpp>

/// A damp pack, every sheet of it followed: wet and dry sheets of one paper, laid on each other
/// under plastic.
namespace dampline::method {

enum class Laid { dry, wet };

/// An order for a pack: first `dry_first` dry sheets, then `wet` wet and `dry` dry ones by turns.
[[nodiscard]] std::vector<Laid> order_of(int sheets, int wet, int dry, int dry_first);

struct Pack {
  std::vector<State> sheets;  ///< from the top down
  Cover cover{};
  stack::Contact contact = stack::Contact::laid;
  Side upper = Side::plastic;  ///< plastic, board, table or air
  Side lower = Side::plastic;
};
inline constexpr int pack_cells = 10;  ///< of a sheet in a pack

/// Sheets that were dry or wetted beforehand, in an order.
[[nodiscard]] Pack pack_of(const std::vector<Laid>& order, const State& dry, const State& wet);

/// How a printer turns a pack over after an hour: cut in the middle and each half turned upside
/// down, so that what lay outermost lies in the middle. The new place of each sheet is that of the
/// old one named here. Common practice, no published source.
[[nodiscard]] std::vector<std::size_t> halves_turned(std::size_t sheets);
[[nodiscard]] Pack restacked(const Pack& pack);

struct PackMoment {
  units::Duration at{};
  std::vector<units::Moisture> mean;  ///< sheet by sheet from the top, water between them counted
  [[nodiscard]] units::Moisture spread() const;  ///< wettest mean less driest
};

struct PackOptions {
  units::Duration sample_every = units::hours(1);  ///< 0: the ends only
  double tolerance = 1e-4;
  units::Duration since{};
};

struct PackHistory {
  std::vector<PackMoment> moments;  ///< the start included
  Pack end;
  units::Grammage through_film{};  ///< lost by the pack, per area of its face
  units::Grammage at_edges{};
  units::Grammage to_air{};  ///< through faces without a cover
  double balance_error = 0;
  int steps = 0;
};

/// Leaves a pack alone.
///
/// Each sheet goes on from where it stands between the branches of its isotherm.
/// Range   2 to 64 sheets, up to 90 days.  Throws units::OutOfRange.
/// Error   the cells of a sheet (10) put means off by 2e-3 g/g within the first hour, less after.
/// Source  docs/model.md, Stack.
[[nodiscard]] PackHistory leave_packed(const Sheet& sheet, Pack pack, units::Duration time,
                                       const air::Room& room, const PackOptions& options = {});

}  // namespace dampline::method
