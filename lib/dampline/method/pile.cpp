#include <algorithm>
#include <cmath>

#include <dampline/material/transport.hpp>
#include <dampline/method/pile.hpp>
#include <dampline/units/out_of_range.hpp>

namespace dampline::method {

using material::Branch;
using stack::FaceKind;
using units::in_si;

namespace {

constexpr double absorbent_first = 0.03;  // share of an absorbent in the cell at the sheet
constexpr int neighbour_cells = 12;
constexpr double neighbour_first = 0.02;
constexpr double wet_sheet = 0.9;   // of what it takes up
constexpr double rim_width = 0.02;  // m

double mean_of(const stack::Layer& layer) { return stack::water(layer) / layer.material->dry; }

// Layers that are not followed have no past: what is wetter than the balance of the stack gives off
// water, what is drier takes it up. Sheets in the state of the one followed share its past.
void choose_branches(Pile& pile) {
  auto& layers = pile.stack.layers;
  std::vector<double> potential;
  double whole = 0;
  double dry = 0;
  for (std::size_t l = 0; l < layers.size(); ++l) {
    const auto& m = *layers[l].material;
    double u = mean_of(layers[l]);
    if (l == pile.own) u += (pile.stack.films[l].water + pile.stack.films[l + 1].water) / m.dry;
    potential.push_back(m.drying->reference(std::min(u, m.saturation)).value);
    whole += potential.back() * m.dry;
    dry += m.dry;
  }
  for (std::size_t l = 0; l < layers.size(); ++l) {
    if (pile.pieces[l] == Piece::sheet || pile.pieces[l] == Piece::like) continue;
    layers[l].drying = potential[l] < whole / dry ? Branch::adsorption : Branch::desorption;
  }
}

double fresh_moisture(const material::Porous& material, const Stage& stage,
                      const air::Climate& room) {
  if (stage.absorbent) return stage.absorbent->parts_of_one();
  return equilibrium_si(*material.wetting, room.humidity.parts_of_one(), in_si(room.temperature));
}

stack::Layer other_sheet(const Piled& piled, const Sheet& sheet, const State& state,
                         const air::Climate& room) {
  stack::Layer layer{sheet.porous.get(), state.drying, state.moisture, state.share};
  if (piled.piece == Piece::like) return layer;
  double u = std::min(piled.moisture.parts_of_one(), sheet.porous->saturation);
  if (piled.piece == Piece::wet) u = wet_sheet * sheet.porous->saturation;
  if (piled.piece == Piece::dry) {
    u = conditioned(sheet, room, 2).moisture.front();
  }
  layer.share = stack::graded_cells(neighbour_cells, neighbour_first, stack::Graded::both);
  layer.moisture.assign(layer.share.size(), u);
  return layer;
}

}  // namespace

const material::Porous& absorbent(const Absorbents* absorbents, Piece piece) {
  const auto pick = [piece](const Absorbents& a) {
    switch (piece) {
      case Piece::towel:
        return a.towel.get();
      case Piece::newsprint:
        return a.newsprint.get();
      case Piece::tissue:
        return a.tissue.get();
      case Piece::felt:
        return a.felt.get();
      default:
        return a.blotter.get();
    }
  };
  const material::Porous* own = absorbents == nullptr ? nullptr : pick(*absorbents);
  return own != nullptr ? *own : *pick(usual_absorbents());
}

stack::Layer absorbing_layer(const material::Porous& material, double moisture,
                             stack::Graded graded, int cells) {
  const auto share = stack::graded_cells(cells, absorbent_first, graded);
  return {&material, Branch::adsorption, std::vector<double>(share.size(), moisture), share};
}

Pile pile_of(const Layout& layout, const Stage& stage, const Sheet& sheet, const State& state,
             const Absorbents* absorbents, const air::Climate& room) {
  Pile pile;
  bool above = true;
  for (const Piled& piled : layout.layers) {
    if (piled.piece == Piece::sheet) {
      pile.own = pile.stack.layers.size();
      above = false;
    }
    stack::Layer layer;
    if (absorbs(piled.piece)) {
      const auto& m = absorbent(absorbents, piled.piece);
      layer = absorbing_layer(m, fresh_moisture(m, stage, room),
                              above ? stack::Graded::right : stack::Graded::left);
    } else if (piled.piece == Piece::sheet) {
      layer = {sheet.porous.get(), state.drying, state.moisture, state.share};
    } else {
      layer = other_sheet(piled, sheet, state, room);
    }
    for (int i = 0; i < piled.count; ++i) {
      pile.stack.layers.push_back(layer);
      pile.pieces.push_back(piled.piece);
    }
  }
  pile.stack.contacts.assign(pile.stack.layers.size() - 1,
                             sheet.contact_scale * stack::conductance_si(contact_of(stage)));
  pile.stack.films.resize(pile.stack.layers.size() + 1);
  pile.stack.films[pile.own] = {state.film_upper, false};
  pile.stack.films[pile.own + 1] = {state.film_lower, true};
  pile.stack.kelvin = state.kelvin;
  choose_branches(pile);
  return pile;
}

void face_room(Pile& pile, const Layout& layout, const Stage& stage, const Sheet& sheet,
               const air::Climate& room, bool rim) {
  stack::Stack& s = pile.stack;
  s.ambient_kelvin = in_si(room.temperature);
  s.back_heat = 0;
  for (const Side side : {layout.upper, layout.lower}) {
    if (side == Side::table || side == Side::board || side == Side::plate) {
      s.back_heat += sealed_heat;
    }
  }
  if (layout.touches(Side::water)) {
    s.fixed_temperature = true;
    s.kelvin = in_si(stage.water);
  }
  const auto face = [&](Side side, air::Facing level) -> stack::Face {
    switch (side) {
      case Side::water:
        return {FaceKind::water, {}};
      case Side::air: {
        const air::Facing facing = layout.hung ? air::Facing::vertical : level;
        air::Face open = air::face_of(facing, room.air, sheet.width, sheet.height);
        if (rim) open = air::rim_of(open, units::metres(rim_width));
        return {FaceKind::air, stack::air_side(room, open, sheet.air_scale, s.back_heat)};
      }
      case Side::plastic: {
        if (stage.pile < 1)
          throw units::OutOfRange("sheets under a cover", stage.pile, 1, 1000, "");
        const double leak = leak_si(stage.cover, room.temperature).whole();
        return {FaceKind::air, stack::cover_side(room, sheet.air_scale * leak / stage.pile)};
      }
      default:
        return {};
    }
  };
  s.left = face(layout.upper, air::Facing::up);
  s.right = face(layout.lower, air::Facing::down);
}

void freshen(Pile& pile, const Stage& stage, const air::Climate& room) {
  for (std::size_t l = 0; l < pile.pieces.size(); ++l) {
    if (!absorbs(pile.pieces[l])) continue;
    auto& layer = pile.stack.layers[l];
    layer.moisture.assign(layer.moisture.size(), fresh_moisture(*layer.material, stage, room));
  }
}

}  // namespace dampline::method
