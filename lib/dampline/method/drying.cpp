#include <algorithm>

#include <dampline/method/drying.hpp>
#include <dampline/method/pile.hpp>
#include <dampline/method/run.hpp>
#include <dampline/units/out_of_range.hpp>

namespace dampline::method {

using units::in_si;

namespace {

constexpr int print_cells = 12;
constexpr int blotter_cells = 6;
constexpr std::size_t most_changes = 200;

double mean_of(const stack::Layer& layer) { return stack::water(layer) / layer.material->dry; }

// Prints and what lies between them, from the top down; which layers are prints.
struct Stacked {
  stack::Stack stack;
  std::vector<std::size_t> prints;
  std::vector<double> fresh;  // moisture that each layer has when fresh; 0 for prints
};

Stacked stacked(const Sheet& sheet, const State& print, const BoardsSchedule& schedule,
                const air::Climate& room, const Absorbents* absorbents) {
  Stacked s;
  const auto fresh = [&](const material::Porous& m) {
    return equilibrium_si(*m.wetting, room.humidity.parts_of_one(), in_si(room.temperature));
  };
  const auto add = [&](stack::Layer layer, double moisture_when_fresh) {
    s.stack.layers.push_back(std::move(layer));
    s.fresh.push_back(moisture_when_fresh);
  };
  const auto add_absorbent = [&](Piece piece) {
    const auto& m = absorbent(absorbents, piece);
    add(absorbing_layer(m, fresh(m), stack::Graded::both, blotter_cells), fresh(m));
  };
  const State cells = over_cells(print, print_cells);
  for (int i = 0; i <= schedule.prints; ++i) {
    for (int b = 0; b < schedule.blotters; ++b) add_absorbent(Piece::blotter);
    if (i == schedule.prints) break;
    if (schedule.tissue) add_absorbent(Piece::tissue);
    s.prints.push_back(s.stack.layers.size());
    add({sheet.porous.get(), cells.drying, cells.moisture, cells.share}, 0);
  }
  s.stack.films.resize(s.stack.layers.size() + 1);
  for (const std::size_t p : s.prints) {
    s.stack.films[p] = {print.film_upper, false};
    s.stack.films[p + 1] = {print.film_lower, true};
  }
  s.stack.contacts.assign(s.stack.layers.size() - 1,
                          sheet.contact_scale * stack::conductance_si(stack::Contact::boards));
  s.stack.kelvin = print.kelvin;
  s.stack.ambient_kelvin = in_si(room.temperature);
  s.stack.back_heat = 2 * sealed_heat;
  return s;
}

double wettest(const Stacked& s, const stack::Stack& now) {
  double most = 0;
  for (const std::size_t p : s.prints) {
    const double film = now.films[p].water + now.films[p + 1].water;
    most = std::max(most, mean_of(now.layers[p]) + film / now.layers[p].material->dry);
  }
  return most;
}

BlotterChange change_of(const Stacked& s, double at) {
  BlotterChange c{units::seconds(at), units::Moisture(wettest(s, s.stack)), units::Moisture(1e9),
                  units::Moisture(0)};
  for (const std::size_t p : s.prints) {
    c.driest = std::min(c.driest, units::Moisture(mean_of(s.stack.layers[p])));
  }
  for (std::size_t l = 0; l < s.fresh.size(); ++l) {
    if (s.fresh[l] > 0)
      c.blotter = std::max(c.blotter, units::Moisture(mean_of(s.stack.layers[l])));
  }
  return c;
}

std::vector<double> moments(const BoardsSchedule& schedule) {
  const double most = in_si(schedule.most);
  std::vector<double> at;
  for (const auto& t : schedule.changes) {
    if (in_si(t) > 0 && in_si(t) < most) at.push_back(in_si(t));
  }
  std::sort(at.begin(), at.end());
  const double every = in_si(schedule.then_every);
  double next = (at.empty() ? 0 : at.back()) + every;
  while (every > 0 && next < most && at.size() < most_changes) {
    at.push_back(next);
    next += every;
  }
  at.push_back(most);
  return at;
}

}  // namespace

DryingForecast dry_in_boards(const Sheet& sheet, const State& print, const BoardsSchedule& schedule,
                             const air::Climate& room, const Absorbents* absorbents) {
  if (schedule.prints < 1 || schedule.prints > 20) {
    throw units::OutOfRange("prints in a stack", schedule.prints, 1, 20, "");
  }
  if (schedule.blotters < 1 || schedule.blotters > 4) {
    throw units::OutOfRange("blotters to a face", schedule.blotters, 1, 4, "");
  }
  Stacked s = stacked(sheet, print, schedule, room, absorbents);
  DryingForecast forecast;
  const double kept = dried_moisture_si(*sheet.porous, room);
  forecast.room = units::Moisture(kept);
  const auto to_go = [&](const stack::Stack& now) { return wettest(s, now) - kept - one_point; };
  double clock = 0;
  for (const double end : moments(schedule)) {
    if (clock > 0) {
      forecast.changes.push_back(change_of(s, clock));
      for (std::size_t l = 0; l < s.fresh.size(); ++l) {
        auto& cells = s.stack.layers[l].moisture;
        if (s.fresh[l] > 0) cells.assign(cells.size(), s.fresh[l]);
      }
    }
    const auto o = stack::advance(s.stack, end - clock, {.moisture = 1e-4}, {}, {}, to_go);
    clock += o.seconds;
    if (o.stopped) {
      forecast.dry = units::seconds(clock);
      break;
    }
    clock = end;
  }
  forecast.at_end = units::Moisture(wettest(s, s.stack));
  return forecast;
}

DryingForecast dry_left(const Sheet& sheet, const State& print, const Stage& stage,
                        const air::Climate& room, const Absorbents* absorbents) {
  Stage until_dry = stage;
  until_dry.until = Until{Goal::dry, {}};
  RunOptions ends;
  ends.sample_every = units::seconds(0);
  ends.absorbents = absorbents;
  const History h = run(sheet, print, std::span(&until_dry, 1), room, ends);
  DryingForecast forecast;
  if (h.ends.front().reached) forecast.dry = h.ends.front().at;
  forecast.room = units::Moisture(dried_moisture_si(*sheet.porous, room));
  forecast.at_end = sample_of(h.end).mean;
  return forecast;
}

}  // namespace dampline::method
