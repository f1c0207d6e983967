#include <algorithm>

#include <dampline/method/blotters.hpp>
#include <dampline/method/pile.hpp>
#include <dampline/method/run.hpp>
#include <dampline/units/out_of_range.hpp>

namespace dampline::method {

using units::in_si;

namespace {

std::array<std::size_t, 2> pair_of(const Blotters& blotters, Turns turns, int turn) {
  const std::size_t n = blotters.each.size();
  if (n < 2) throw units::OutOfRange("blotters", static_cast<double>(n), 2, 10000, "");
  if (turns == Turns::by_turns) {
    const auto first = 2 * static_cast<std::size_t>(turn) % n;
    return {first, (first + 1) % n};
  }
  std::vector<std::size_t> by_moisture(n);
  for (std::size_t i = 0; i < n; ++i) by_moisture[i] = i;
  std::stable_sort(by_moisture.begin(), by_moisture.end(), [&](std::size_t a, std::size_t b) {
    return blotters.each[a] < blotters.each[b];
  });
  return {by_moisture[0], by_moisture[1]};
}

struct Exchange {
  State sheet;
  std::array<double, 2> gained;  // g/g of the blotters
  double taken = 0;              // kg/m2
};

Exchange exchange(const Sheet& sheet, const State& state, const material::Porous& blotter,
                  std::array<double, 2> moisture, const air::Climate& room, const Blotting& how) {
  Stage stage = left(Arrangement::blot, how.time);
  stage.contact = how.contact;
  Absorbents own;
  // Lent for the time of the call.
  own.blotter = std::shared_ptr<const material::Porous>(std::shared_ptr<void>(), &blotter);
  const Layout layout = layout_of(stage);
  Pile pile = pile_of(layout, stage, sheet, state, &own, room);
  for (std::size_t side : {std::size_t{0}, std::size_t{1}}) {
    auto& cells = pile.stack.layers[2 * side].moisture;
    cells.assign(cells.size(), std::min(moisture[side], blotter.saturation));
  }
  face_room(pile, layout, stage, sheet, room, false);
  Exchange e;
  const double before = water_si(state, *sheet.porous);
  const std::array<double, 2> held{stack::water(pile.stack.layers[0]),
                                   stack::water(pile.stack.layers[2])};
  stack::advance(pile.stack, in_si(how.time), {.moisture = 1e-4});
  e.sheet = state;
  e.sheet.moisture = pile.stack.layers[1].moisture;
  e.sheet.film_upper = pile.stack.films[1].water;
  e.sheet.film_lower = pile.stack.films[2].water;
  e.sheet.kelvin = pile.stack.kelvin;
  e.sheet.drying = pile.stack.layers[1].drying.weight;
  e.taken = before - water_si(e.sheet, *sheet.porous);
  for (std::size_t side : {std::size_t{0}, std::size_t{1}}) {
    e.gained[side] = (stack::water(pile.stack.layers[2 * side]) - held[side]) / blotter.dry;
  }
  return e;
}

}  // namespace

Blotters dry_blotters(int count, const air::Climate& room,
                      const std::shared_ptr<const material::Porous>& material) {
  if (count < 2 || count > 10000) throw units::OutOfRange("blotters", count, 2, 10000, "");
  Blotters b{material ? material : usual_absorbents().blotter, {}};
  const double u =
      equilibrium_si(*b.material->wetting, room.humidity.parts_of_one(), in_si(room.temperature));
  b.each.assign(static_cast<std::size_t>(count), units::Moisture(u));
  return b;
}

BlotOnce blot_once(const Sheet& sheet, const State& state, const Blotters& blotters,
                   const air::Climate& room, const Blotting& how, int turn) {
  if (!(how.area_share > 0 && how.area_share <= 1)) {
    throw units::OutOfRange("sheet over blotter", how.area_share, 0, 1, "");
  }
  BlotOnce done{{}, blotters, pair_of(blotters, how.turns, turn), {}};
  const auto& m = *blotters.material;
  const std::array<double, 2> moisture{blotters.each[done.pair[0]].parts_of_one(),
                                       blotters.each[done.pair[1]].parts_of_one()};
  Exchange e = exchange(sheet, state, m, moisture, room, how);
  done.sheet = std::move(e.sheet);
  done.taken = units::kilograms_per_m2(e.taken);
  for (std::size_t side : {std::size_t{0}, std::size_t{1}}) {
    done.blotters.each[done.pair[side]] =
        units::Moisture(moisture[side] + how.area_share * e.gained[side]);
  }
  return done;
}

Blotters aired(const Blotters& blotters, units::Duration time, const air::Climate& room) {
  Blotters dried = blotters;
  Sheet hung;
  hung.porous = blotters.material;
  const Stage hang[] = {left(Arrangement::hang, time)};
  RunOptions ends;
  ends.sample_every = units::seconds(0);
  for (auto& u : dried.each) {
    const State now = evenly(hung, u, room.temperature, 12);
    u = sample_of(run(hung, now, hang, room, ends).end).mean;
  }
  return dried;
}

units::Moisture spent_at(const Sheet& sheet, const State& state, const Blotters& blotters,
                         const air::Climate& room, const Blotting& how) {
  const auto& m = *blotters.material;
  // Any blotter that is not full drinks a film: what tells is what it draws from the sheet.
  State bare = state;
  bare.film_upper = bare.film_lower = 0;
  const auto takes = [&](double u) { return exchange(sheet, bare, m, {u, u}, room, how).taken; };
  double low = dry_blotters(2, room, blotters.material).each[0].parts_of_one();
  double high = m.saturation;
  const double half = 0.5 * takes(low);
  while (high - low > 1e-3) {
    const double middle = 0.5 * (low + high);
    (takes(middle) > half ? low : high) = middle;
  }
  return units::Moisture(low);
}

Served serve(const Sheet& sheet, const State& state, const Blotters& blotters,
             const air::Climate& room, const Blotting& how, int most) {
  Served served{{}, {}, blotters, spent_at(sheet, state, blotters, room, how)};
  for (int i = 0; i < most; ++i) {
    const auto pair = pair_of(served.left, how.turns, i);
    if (served.left.each[pair[0]] > served.spent && served.left.each[pair[1]] > served.spent) break;
    BlotOnce done = blot_once(sheet, state, served.left, room, how, i);
    served.taken.push_back(done.taken);
    served.sheets.push_back(std::move(done.sheet));
    served.left = std::move(done.blotters);
    if (in_si(how.between) > 0) served.left = aired(served.left, how.between, room);
  }
  return served;
}

}  // namespace dampline::method
