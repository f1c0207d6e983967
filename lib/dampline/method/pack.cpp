#include <algorithm>
#include <cmath>

#include <dampline/method/pack.hpp>
#include <dampline/method/pile.hpp>
#include <dampline/stack/stack.hpp>
#include <dampline/units/out_of_range.hpp>

namespace dampline::method {

using units::in_si;

namespace {

double mean_of(const State& s, const material::Porous& sheet) {
  return water_si(s, sheet) / sheet.dry;
}

// The pack as the solver has it. What two faces carry towards each other is one film, on the side
// that carries more.
stack::Stack stack_of(const Sheet& sheet, const Pack& pack) {
  stack::Stack s;
  const std::size_t n = pack.sheets.size();
  double all = 0;
  double heat = 0;
  for (const State& one : pack.sheets) all += mean_of(one, *sheet.porous);
  s.films.resize(n + 1);
  for (std::size_t i = 0; i < n; ++i) {
    const State& one = pack.sheets[i];
    s.layers.push_back({sheet.porous.get(), one.drying, one.moisture, one.share});
    s.films[i].water += one.film_upper;
    if (i > 0) s.films[i].on_left = pack.sheets[i - 1].film_lower > one.film_upper;
    s.films[i + 1].water += one.film_lower;
    heat += one.kelvin * (1 + mean_of(one, *sheet.porous));
  }
  s.kelvin = heat / (static_cast<double>(n) + all);
  s.contacts.assign(n - 1, sheet.contact_scale * stack::conductance_si(pack.contact));
  return s;
}

void put_back(const stack::Stack& s, Pack& pack) {
  for (std::size_t i = 0; i < pack.sheets.size(); ++i) {
    State& one = pack.sheets[i];
    one.moisture = s.layers[i].moisture;
    one.drying = s.layers[i].drying.weight;
    const bool first = i == 0;
    const bool last = i + 1 == pack.sheets.size();
    one.film_upper = first || !s.films[i].on_left ? s.films[i].water : 0;
    one.film_lower = last || s.films[i + 1].on_left ? s.films[i + 1].water : 0;
    one.kelvin = s.kelvin;
    const Sample now = sample_of(one);
    one.wettest_mean = std::max(one.wettest_mean, now.mean.parts_of_one());
    one.wetted_through = std::max(one.wetted_through, now.driest.parts_of_one());
  }
}

PackMoment moment_of(const Pack& pack, const material::Porous& sheet, double at) {
  PackMoment m{units::seconds(at), {}};
  for (const State& s : pack.sheets) m.mean.emplace_back(mean_of(s, sheet));
  return m;
}

}  // namespace

std::vector<Laid> order_of(int sheets, int wet, int dry, int dry_first) {
  if (sheets < 2 || sheets > 64) throw units::OutOfRange("sheets in a pack", sheets, 2, 64, "");
  if (wet < 1 || dry < 0) throw units::OutOfRange("wet sheets by turns", wet, 1, 64, "");
  std::vector<Laid> order;
  for (int i = 0; i < sheets; ++i) {
    const int turn = i - dry_first;
    order.push_back(turn >= 0 && turn % (wet + dry) < wet ? Laid::wet : Laid::dry);
  }
  return order;
}

Pack pack_of(const std::vector<Laid>& order, const State& dry, const State& wet) {
  Pack pack;
  const State dry_cells = over_cells(dry, pack_cells);
  const State wet_cells = over_cells(wet, pack_cells);
  for (const Laid laid : order) {
    pack.sheets.push_back(laid == Laid::wet ? wet_cells : dry_cells);
  }
  return pack;
}

std::vector<std::size_t> halves_turned(std::size_t sheets) {
  std::vector<std::size_t> from;
  const std::size_t half = sheets / 2;
  for (std::size_t i = half; i-- > 0;) from.push_back(i);
  for (std::size_t i = sheets; i-- > half;) from.push_back(i);
  return from;
}

Pack restacked(const Pack& pack) {
  Pack turned = pack;
  turned.sheets.clear();
  for (const std::size_t i : halves_turned(pack.sheets.size())) {
    State s = pack.sheets[i];
    std::reverse(s.moisture.begin(), s.moisture.end());
    std::reverse(s.share.begin(), s.share.end());
    std::swap(s.film_upper, s.film_lower);
    turned.sheets.push_back(std::move(s));
  }
  return turned;
}

units::Moisture PackMoment::spread() const {
  const auto [low, high] = std::minmax_element(mean.begin(), mean.end());
  return *high - *low;
}

PackHistory leave_packed(const Sheet& sheet, Pack pack, units::Duration time, const air::Room& room,
                         const PackOptions& options) {
  const auto n = static_cast<double>(pack.sheets.size());
  if (!(n >= 2 && n <= 64)) throw units::OutOfRange("sheets in a pack", n, 2, 64, "");
  if (!(in_si(time) >= 0 && in_si(time) <= 90 * 86400.0)) {
    throw units::OutOfRange("time in a pack", units::in_hours(time), 0, 2160, "h");
  }
  const material::Porous& porous = *sheet.porous;
  PackHistory history;
  const double since = in_si(options.since);
  history.moments.push_back(moment_of(pack, porous, since));
  stack::Stack s = stack_of(sheet, pack);
  Pile pile{std::move(s), std::vector<Piece>(pack.sheets.size(), Piece::like), 0};
  const Layout layout{pack.upper, pack.lower, {}, false};
  Stage under;
  under.cover = pack.cover;
  under.pile = 1;
  const double before = stack::water(pile.stack);
  double film = 0;
  double edges = 0;
  double air = 0;
  const double every = in_si(options.sample_every);
  int next = 1;
  for (const air::Spell& spell : room.spells(options.since, options.since + time)) {
    face_room(pile, layout, under, sheet, spell.climate, false);
    const double from = in_si(spell.from);
    const double seconds = in_si(spell.until) - from;
    std::vector<double> times;
    while (every > 0 && since + every * next < from + seconds - 1e-6) {
      times.push_back(since + every * next++ - from);
    }
    const auto o = stack::advance(pile.stack, seconds, {.moisture = options.tolerance}, times,
                                  [&](double t, const stack::Stack& now) {
                                    put_back(now, pack);
                                    history.moments.push_back(moment_of(pack, porous, from + t));
                                  });
    history.steps += o.steps + o.rejected;
    const Leak leak = leak_si(pack.cover, spell.climate.temperature);
    for (const auto& [side, out] : {std::pair{pack.upper, o.out_left}, {pack.lower, o.out_right}}) {
      if (side == Side::plastic) {
        film += out * leak.film / leak.whole();
        edges += out * leak.edges / leak.whole();
      } else {
        air += out;
      }
    }
  }
  put_back(pile.stack, pack);
  history.moments.push_back(moment_of(pack, porous, since + in_si(time)));
  history.through_film = units::kilograms_per_m2(film);
  history.at_edges = units::kilograms_per_m2(edges);
  history.to_air = units::kilograms_per_m2(air);
  history.balance_error = std::abs(stack::water(pile.stack) + film + edges + air - before) / before;
  history.end = std::move(pack);
  return history;
}

}  // namespace dampline::method
