#include <algorithm>

#include <dampline/method/catcher.hpp>
#include <dampline/method/pile.hpp>
#include <dampline/units/out_of_range.hpp>

namespace dampline::method {

using units::in_si;

namespace {

double mean_of(const stack::Layer& layer) { return stack::water(layer) / layer.material->dry; }

void leave_it(Pile& pile, double seconds) {
  if (seconds > 0) stack::advance(pile.stack, seconds, {.moisture = 1e-4});
}

// A layer alone, one face to the room, the other on what lies behind it.
stack::Layer dried(stack::Layer layer, const Sheet& size, const air::Climate& room,
                   double seconds) {
  Sheet as_sheet = size;
  as_sheet.porous =
      std::shared_ptr<const material::Porous>(std::shared_ptr<void>(), layer.material);
  State state;
  state.moisture = layer.moisture;
  state.share = layer.share;
  state.kelvin = in_si(room.temperature);
  const Stage bench = left(Arrangement::bench, units::seconds(seconds));
  const Layout layout = layout_of(bench);
  Pile pile = pile_of(layout, bench, as_sheet, state, nullptr, room);
  face_room(pile, layout, bench, as_sheet, room, false);
  leave_it(pile, seconds);
  layer.moisture = pile.stack.layers[0].moisture;
  return layer;
}

void check(const PressHabits& h, int pulls) {
  if (pulls < 1 || pulls > 1000) throw units::OutOfRange("pulls", pulls, 1, 1000, "");
  if (h.newsprint < 0 || h.newsprint > 8) {
    throw units::OutOfRange("sheets of newsprint", h.newsprint, 0, 8, "");
  }
  if (h.newsprint_pulls < 1) {
    throw units::OutOfRange("pulls to a newsprint", h.newsprint_pulls, 1, 1000, "");
  }
  if (!(h.plate_share > 0 && h.plate_share <= 1)) {
    throw units::OutOfRange("share of the felt that is wetted", h.plate_share, 0, 1, "");
  }
  const double nip = in_si(h.nip);
  if (!(nip > 0 && nip <= 600)) throw units::OutOfRange("time in the nip", nip, 0, 600, "s");
}

}  // namespace

CatcherForecast catcher_forecast(const Sheet& sheet, const State& state, const air::Climate& room,
                                 const PressHabits& habits, int pulls,
                                 const Absorbents* absorbents) {
  check(habits, pulls);
  Layout layout{Side::plate, Side::board, {{Piece::sheet, 1, {}}, {Piece::felt, 1, {}}}, false};
  if (habits.newsprint > 0) {
    layout.layers.insert(layout.layers.begin() + 1, {Piece::newsprint, habits.newsprint, {}});
  }
  const Stage press = left(Arrangement::press, habits.nip);
  const std::size_t papers = static_cast<std::size_t>(habits.newsprint);
  const double laid = sheet.contact_scale * stack::conductance_si(stack::Contact::laid);
  const double open = std::max(0.0, in_si(habits.cycle) - in_si(habits.nip) - in_si(habits.lying));
  CatcherForecast forecast;
  std::vector<stack::Layer> kept;  // newsprint and felt from the pull before
  for (int i = 0; i < pulls; ++i) {
    Pile pile = pile_of(layout, press, sheet, state, absorbents, room);
    face_room(pile, layout, press, sheet, room, false);
    auto& layers = pile.stack.layers;
    const bool fresh = i % habits.newsprint_pulls == 0;
    for (std::size_t l = 0; l < kept.size(); ++l) {
      if (l + 1 == kept.size() || !fresh) layers[l + 1].moisture = kept[l].moisture;
    }
    const double sheet_before = water_si(state, *sheet.porous);
    const double felt_before = stack::water(layers.back());
    leave_it(pile, in_si(habits.nip));
    pile.stack.contacts.assign(pile.stack.contacts.size(), laid);
    leave_it(pile, in_si(habits.lying));
    CatcherPull pull;
    const double film = pile.stack.films[0].water + pile.stack.films[1].water;
    pull.taken = units::kilograms_per_m2(sheet_before - stack::water(layers[0]) - film);
    pull.sheet = units::Moisture(mean_of(layers[0]));
    const double gained = (stack::water(layers.back()) - felt_before) * habits.plate_share;
    pull.into_felt = units::kilograms_per_m2(gained);
    // What a smaller plate left spreads over the whole felt.
    auto& felt = layers.back();
    const double spread = (1 - habits.plate_share) * (stack::water(felt) - felt_before);
    for (double& u : felt.moisture) u = std::max(0.0, u - spread / felt.material->dry);
    pull.felt = units::Moisture(mean_of(felt));
    pull.in_felt = units::RelativeHumidity(
        std::min(1.0, felt.material->wetting->activity(pull.felt.parts_of_one()).value));
    if (!forecast.swap_after && pull.in_felt >= habits.clammy) forecast.swap_after = i + 1;
    const double wet = stack::water(felt);
    kept.assign(layers.begin() + 1, layers.end());
    for (std::size_t l = 0; l < kept.size(); ++l) {
      if (habits.aired && (l == papers || habits.newsprint_pulls > 1))
        kept[l] = dried(kept[l], sheet, room, open);
    }
    pull.dried = units::kilograms_per_m2(wet - stack::water(kept.back()));
    forecast.pulls.push_back(pull);
  }
  return forecast;
}

}  // namespace dampline::method
