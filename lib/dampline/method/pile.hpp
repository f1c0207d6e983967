#pragma once

#include <vector>

#include <dampline/method/sheet.hpp>
#include <dampline/method/stage.hpp>
#include <dampline/stack/stack.hpp>

/// A stage's stack made ready for the solver.
namespace dampline::method {

struct Pile {
  stack::Stack stack;
  std::vector<Piece> pieces;  ///< what each layer is
  std::size_t own = 0;        ///< the layer that is followed
};

/// The material of an absorbing piece: of `absorbents` where it has one, else the usual.
[[nodiscard]] const material::Porous& absorbent(const Absorbents* absorbents, Piece piece);

/// Layers, contacts and films of a stage that a sheet starts in a state. Faces are sealed until
/// face_room. The sheet goes on from where it stands between the branches of its isotherm; other
/// layers, whose past is not known, start on desorption where they are wetter than the stack's
/// balance, else on adsorption.
[[nodiscard]] Pile pile_of(const Layout& layout, const Stage& stage, const Sheet& sheet,
                           const State& state, const Absorbents* absorbents,
                           const air::Climate& room);

/// The faces of a pile as the room has them now. `rim`: the outer 2 cm.
void face_room(Pile& pile, const Layout& layout, const Stage& stage, const Sheet& sheet,
               const air::Climate& room, bool rim);

/// Absorbents as they are when dry in a room: put in place of those that are in the pile.
void freshen(Pile& pile, const Stage& stage, const air::Climate& room);

/// A layer of evenly damp absorbent, its cells fine towards the sheet.
[[nodiscard]] stack::Layer absorbing_layer(const material::Porous& material, double moisture,
                                           stack::Graded graded, int cells = 8);

/// Heat through sealed faces, W/(m2 K) each: boards, plates, tables, hands, `assumed`.
inline constexpr double sealed_heat = 3;

}  // namespace dampline::method
