#pragma once

#include <optional>
#include <string>
#include <vector>

#include <dampline/air/climate.hpp>
#include <dampline/method/cover.hpp>
#include <dampline/method/layout.hpp>
#include <dampline/method/until.hpp>
#include <dampline/stack/face.hpp>
#include <dampline/units/quantity.hpp>

/// A method of damping or drying is data: stages, each a stack of layers between two faces left
/// alone for a time.
namespace dampline::method {

/// Names of the usual stacks (layout_of has each).
enum class Arrangement {
  tub,   ///< water · sheet · water; the lifted sheet carries a film on each face
  film,  ///< sponge or mist: `film` of water laid on `film_faces` faces, then air · sheet · table
  drain,    ///< held up by an edge: the film runs off, as off every hung sheet
  blot,     ///< board · blotter · sheet · blotter · board, `passes` times with dry blotters
  towel,    ///< towels, as blot
  covered,  ///< plastic · sheet · plastic; `pile` sheets share the cover's leak
  bench,    ///< air · sheet · table
  hang,     ///< air · sheet · air, upright
  rack,     ///< air · sheet · air, level
  boards,   ///< board · blotter · sheet · blotter · board
  press,    ///< plate · sheet · newsprint · newsprint · felt · board, in the nip
  pack,     ///< mirror · sheet · neighbours · board: a sheet at the middle of a pack
  dip,      ///< drawn through the tub
  line,     ///< hung from one edge
  taped,    ///< air · sheet · board, held flat
  forced,   ///< air · blotter · sheet · blotter · air, the air blown along the blotters
  pile,     ///< plastic · sheet · 4 like sheets · mirror: the outermost of a covered pile
  own,      ///< a stack of its own: Stage::stack
};

struct Stage {
  std::string name;
  Arrangement arrangement = Arrangement::bench;
  units::Duration duration{};                     ///< with `until`, the longest it may take
  std::optional<Until> until{};                   ///< ends the stage sooner
  std::optional<Layout> stack{};                  ///< in place of the arrangement's own
  units::Temperature water = units::celsius(18);  ///< of the tub
  int passes = 1;                                 ///< fresh absorbents in the duration
  std::vector<units::Duration> changes{};         ///< moments of fresh absorbents, rising
  units::Duration change_every{};                 ///< after the last of them; 0: no more
  units::Grammage film{};                         ///< laid on all faces together
  units::Moisture film_share{};                   ///< the same, as a share of the dry sheet
  int film_faces = 2;                             ///< 1: sponged side only, the upper
  std::optional<stack::Contact> contact{};        ///< else the arrangement's
  std::optional<units::Moisture> absorbent{};     ///< of fresh absorbents; else as in the room
  int pile = 10;                                  ///< sheets under one cover
  Cover cover{};                                  ///< of plastic faces
  std::optional<air::AirMovement> air{};          ///< in place of the room's
  std::vector<units::Moisture> neighbours{};      ///< pack: sheets of the same paper, in
                                                  ///< order away from this one
  std::optional<bool> hands{};                    ///< needs somebody; else by arrangement
};

/// How the word reads in a session file and in output: "tub", "blot", ...
[[nodiscard]] std::string word(Arrangement a);
[[nodiscard]] std::optional<Arrangement> arrangement_from(std::string_view word);

/// The stack of a stage and how closely its layers touch.
[[nodiscard]] Layout layout_of(const Stage& stage);
[[nodiscard]] stack::Contact contact_of(const Stage& stage);

[[nodiscard]] bool needs_hands(const Stage& stage);  ///< somebody's, for as long as it lasts
[[nodiscard]] bool uses_tub(const Stage& stage);
[[nodiscard]] bool open_to_air(
    const Stage& stage);  ///< a face of the sheet itself dries in the room

/// Wet, not dripping: what one pass of a sponge lays on a face, 100 g/m2, `assumed` within 75 to
/// 130 (one pass serves about 550 g/m2 of dry paper [damping2011]).
[[nodiscard]] units::Grammage wet_not_dripping();

/// The usual ways, stage by stage. `common practice, no published source` for times and order.
/// Soak, drain 30 s, blot, rest covered.
[[nodiscard]] std::vector<Stage> soak_blot_rest(units::Duration soak, int blots,
                                                units::Duration rest,
                                                units::Temperature water = units::celsius(18));
/// Sponge one face of the sheet with `film`, then keep it covered.
[[nodiscard]] std::vector<Stage> sponge_rest(units::Grammage film, units::Duration rest);
/// Mist both faces with `film` in all, then keep it covered.
[[nodiscard]] std::vector<Stage> mist_rest(units::Grammage film, units::Duration rest);
/// A dry sheet in a damp pack, next to a wet one of the same paper and `dry - 1` more dry ones.
[[nodiscard]] std::vector<Stage> damp_pack(units::Moisture wet, int dry, units::Duration rest);
/// A pass through the nip: a dwell of 3 s, 2 to 4, `assumed`.
inline constexpr double nip_seconds = 3;
[[nodiscard]] Stage nip_pass();
/// One stage left alone in the room.
[[nodiscard]] Stage left(Arrangement arrangement, units::Duration duration);
/// Blotting: `passes` with dry blotters, `each` long, under a hand roller.
[[nodiscard]] Stage blotted(int passes, units::Duration each = units::seconds(20));

}  // namespace dampline::method
