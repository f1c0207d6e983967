#pragma once

#include <string>
#include <vector>

#include <dampline/stack/face.hpp>
#include <dampline/units/quantity.hpp>

/// A method of damping or drying is data: stages, each an arrangement of layers and faces left
/// alone for a time.
namespace dampline::method {

enum class Arrangement {
  tub,   ///< water · sheet · water; the lifted sheet carries a film on each face
  film,  ///< sponge or mist: `film` of water laid on `film_faces` faces, then air · sheet · table
  drain,    ///< held up by an edge: the film runs off
  blot,     ///< blotter · sheet · blotter under `contact`, `passes` times with dry blotters
  towel,    ///< towel · sheet · towel, as blot
  covered,  ///< plastic · sheet · plastic; `pile` sheets share the cover's leak
  bench,    ///< air · sheet · table
  hang,     ///< air · sheet · air, upright
  rack,     ///< air · sheet · air, level
  boards,   ///< board · blotter · sheet · blotter · board, dry blotters `passes` times
  press,    ///< plate · sheet · newsprint · newsprint · blanket, in the nip
  pack,     ///< plastic · sheet · neighbours · plastic, the other half mirrored
};

struct Stage {
  std::string name;
  Arrangement arrangement = Arrangement::bench;
  units::Duration duration{};
  units::Temperature water = units::celsius(18);  ///< of the tub
  int passes = 1;                                 ///< fresh absorbents in the duration
  units::Grammage film{};                         ///< laid on all faces together
  int film_faces = 2;                             ///< 1: sponged side only, the upper
  stack::Contact contact = stack::Contact::hand;  ///< blot, towel
  units::Moisture absorbent{0.065};               ///< of blotters, towels, newsprint
  int pile = 10;                                  ///< sheets under one cover
  std::vector<units::Moisture> neighbours;        ///< pack: sheets of the same paper, in
                                                  ///< order away from this one
};

/// How the word reads in a session file and in output: "tub", "blot", ...
[[nodiscard]] std::string word(Arrangement a);

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
/// One stage left alone in the room.
[[nodiscard]] Stage left(Arrangement arrangement, units::Duration duration);
/// Blotting: `passes` with dry blotters, `each` long, under a hand roller.
[[nodiscard]] Stage blotted(int passes, units::Duration each = units::seconds(20));

}  // namespace dampline::method
