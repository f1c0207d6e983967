#include <algorithm>
#include <cmath>
#include <stdexcept>

#include <dampline/method/film.hpp>
#include <dampline/method/pile.hpp>
#include <dampline/method/run.hpp>
#include <dampline/units/out_of_range.hpp>

namespace dampline::method {

using units::in_si;

namespace {

constexpr double dry_enough = 0.20;  // g/g: size delays water only in a sheet drier than this
// Sheets this light (kg/m2 dry) change so fast that the same step error adds up to several times as
// much: they are followed more closely.
constexpr double light_sheet = 0.070;
constexpr double closer = 0.2;
constexpr std::size_t most_changes = 1000;
// s: after that a film dries, at 50 g/m2 h, faster than it runs: it halves in four times the time.
constexpr double running_off = 360;

struct Account {
  double in = 0;  // kg/m2 handed to the sheet from outside, less what was taken away
  double handled = 0;
  void move(double water) {
    in += water;
    handled += std::abs(water);
  }
};

// Water of a stage by where it went, kg/m2.
struct Tally {
  double air = 0;
  double plastic = 0;
  double absorbents = 0;
  double sheets = 0;
  double water = 0;
};

Gone gone_of(const Tally& t) {
  const auto as = [](double water) { return units::kilograms_per_m2(water); };
  return {as(t.air), as(t.plastic), as(t.absorbents), as(t.sheets), as(t.water)};
}

// What a pile holds outside the sheet that is followed.
struct Others {
  double absorbents = 0;
  double sheets = 0;
};

Others others_of(const Pile& pile) {
  Others o;
  bool any_absorbs = false;
  for (std::size_t l = 0; l < pile.pieces.size(); ++l) {
    if (l == pile.own) continue;
    const bool absorbing = absorbs(pile.pieces[l]);
    any_absorbs = any_absorbs || absorbing;
    (absorbing ? o.absorbents : o.sheets) += stack::water(pile.stack.layers[l]);
  }
  for (std::size_t j = 0; j < pile.stack.films.size(); ++j) {
    if (j == pile.own || j == pile.own + 1) continue;
    (any_absorbs ? o.absorbents : o.sheets) += pile.stack.films[j].water;
  }
  return o;
}

class Runner {
 public:
  Runner(const Sheet& sheet, State state, const air::Room& room, const RunOptions& options)
      : sheet_(sheet), room_(room), options_(options) {
    if (state.moisture.size() < 2 || state.moisture.size() != state.share.size()) {
      throw std::invalid_argument("a sheet's state needs two cells or more");
    }
    history_.end = std::move(state);
    account_.handled = std::max(1e-6, water_si(history_.end, *sheet.porous));
    before_ = water_si(history_.end, *sheet.porous);
    clock_ = in_si(options.since);
    record(0);
  }

  void stage(const Stage& s, int index) {
    const double seconds = in_si(s.duration);
    if (!(seconds >= 0 && seconds <= 90 * 86400.0)) {
      throw units::OutOfRange("duration of stage '" + s.name + "'", seconds / 3600, 0, 2160, "h");
    }
    if (s.arrangement == Arrangement::pack && !s.stack && s.neighbours.empty()) {
      throw std::invalid_argument("a pack needs a neighbouring sheet");
    }
    if (s.neighbours.size() > 64) {
      throw units::OutOfRange("sheets in a pack", static_cast<double>(s.neighbours.size()), 1, 64,
                              "");
    }
    index_ = index;
    stage_start_ = clock_;
    stage_length_ = seconds;
    tally_ = {};
    stopped_ = false;
    const Layout layout = layout_of(s);
    lay_film(s);
    if (layout.hung) run_off(seconds);
    const bool wet = layout.touches(Side::water);
    double delay = 0;
    if (wet && seconds > 0) {
      delay = immerse(s, layout, seconds);
      if (delay > 0) pass(delay);
    }
    if (seconds - delay > 0) leave(s, layout, seconds - delay);
    if (wet && seconds > 0) lift(layout);
    record(index);
    history_.ends.push_back(
        {units::seconds(clock_), history_.end, gone_of(tally_), !s.until || stopped_});
  }

  History finish() {
    const double after = water_si(history_.end, *sheet_.porous);
    history_.balance_error = std::abs(after - before_ - account_.in) / account_.handled;
    return std::move(history_);
  }

 private:
  State& state() { return history_.end; }

  void record(int index) {
    Sample s = sample_of(state(), units::seconds(clock_));
    s.stage = index;
    if (options_.profile) s.profile = state().moisture;
    state().wettest_mean = std::max(state().wettest_mean, s.mean.parts_of_one());
    state().wetted_through = std::max(state().wetted_through, s.driest.parts_of_one());
    if (!history_.curve.empty() && in_si(history_.curve.back().at) == clock_) {
      history_.curve.back() = std::move(s);
    } else {
      history_.curve.push_back(std::move(s));
    }
  }

  void take(const stack::Stack& from, std::size_t own) {
    state().moisture = from.layers[own].moisture;
    state().film_upper = from.films[own].water;
    state().film_lower = from.films[own + 1].water;
    state().kelvin = from.kelvin;
    state().drying = from.layers[own].drying.weight;
  }

  // Moments of the stage to be sampled within the next `seconds`, counted from now.
  [[nodiscard]] std::vector<double> sample_times(double seconds) const {
    std::vector<double> times;
    if (!(in_si(options_.sample_every) > 0)) return times;
    const double every = std::min(in_si(options_.sample_every), stage_length_ / 6);
    const double gone = clock_ - stage_start_;
    const auto first = static_cast<int>(std::floor(gone / every + 1e-6)) + 1;
    for (int i = first; every * i < gone + seconds - 1e-6 * every; ++i) {
      times.push_back(every * i - gone);
    }
    return times;
  }

  [[nodiscard]] double tolerance() const {
    return options_.tolerance * (sheet_.porous->dry < light_sheet ? closer : 1);
  }

  void pass(double seconds) {
    clock_ += seconds;
    record(index_);
  }

  [[nodiscard]] air::Climate as_in(const Stage& s, air::Climate climate) const {
    climate.air = s.air.value_or(climate.air);
    return climate;
  }

  void hand(double water) {  // laid on, or taken off when negative
    account_.move(water);
    tally_.water -= water;
  }

  void lay_film(const Stage& s) {
    const double film = in_si(s.film) + s.film_share.parts_of_one() * sheet_.porous->dry;
    if (!(film >= 0 && film <= 2)) {
      throw units::OutOfRange("film of stage '" + s.name + "'", film * 1e3, 0, 2000, "g/m2");
    }
    hand(film);
    const double upper = s.film_faces == 1 ? film : 0.5 * film;
    state().film_upper += upper;
    state().film_lower += film - upper;
  }

  void run_off(double seconds) {
    const double running = std::min(seconds, running_off);
    const double kept = drained_film_si(in_si(sheet_.height), running, state().kelvin);
    for (double* film : {&state().film_upper, &state().film_lower}) {
      hand(std::min(0.0, kept - *film));
      *film = std::min(*film, kept);
    }
  }

  // Puts the sheet to the water; returns the time that its size keeps the water out.
  double immerse(const Stage& s, const Layout& layout, double seconds) {
    const double celsius = units::in_celsius(s.water);
    if (!(celsius >= 0 && celsius <= 60)) {
      throw units::OutOfRange("water temperature", celsius, 0, 60, "degC");
    }
    for (auto [side, film] :
         {std::pair{layout.upper, &state().film_upper}, {layout.lower, &state().film_lower}}) {
      if (side != Side::water) continue;
      hand(-*film);
      *film = 0;
    }
    state().kelvin = in_si(s.water);
    const double face = std::min(state().moisture.front(), state().moisture.back());
    return face < dry_enough ? std::min(seconds, sheet_.porous->delay) : 0;
  }

  // What a swollen sheet gave back under water is part of the tub.
  void lift(const Layout& layout) {
    for (auto [side, film] :
         {std::pair{layout.upper, &state().film_upper}, {layout.lower, &state().film_lower}}) {
      if (side != Side::water) continue;
      hand(lifted_film_si - *film);
      *film = lifted_film_si;
    }
  }

  // Moments within the stage, counted from its start, at which absorbents are changed.
  [[nodiscard]] std::vector<double> changes(const Stage& s, const Layout& layout) const {
    std::vector<double> at;
    if (!layout.has_absorbents()) return at;
    if (s.passes < 1 || s.passes > 1000) throw units::OutOfRange("passes", s.passes, 1, 1000, "");
    if (s.changes.empty() && !(in_si(s.change_every) > 0)) {
      for (int i = 1; i < s.passes; ++i) at.push_back(stage_length_ * i / s.passes);
      return at;
    }
    for (const auto& t : s.changes) at.push_back(in_si(t));
    const double every = in_si(s.change_every);
    double next = (at.empty() ? 0 : at.back()) + every;
    while (every > 0 && next < stage_length_ && at.size() < most_changes) {
      at.push_back(next);
      next += every;
    }
    if (at.size() >= most_changes || !std::is_sorted(at.begin(), at.end())) {
      throw std::invalid_argument("changes of absorbents must rise and be fewer than 1000");
    }
    return at;
  }

  void leave(const Stage& s, const Layout& layout, double seconds) {
    const double until = clock_ + seconds;
    climate_ = as_in(s, room_.at(units::seconds(clock_)));
    Pile pile = pile_of(layout, s, sheet_, state(), options_.absorbents, climate_);
    std::vector<double> ends = changes(s, layout);
    for (double& end : ends) end += stage_start_;
    const auto beyond = [&](double t) { return t >= until; };
    ends.erase(std::find_if(ends.begin(), ends.end(), beyond), ends.end());
    ends.push_back(until);
    bool first = true;
    for (const double end : ends) {
      if (!first) freshen(pile, s, climate_);
      first = false;
      through_spells(s, layout, pile, end);
      if (stopped_) return;
    }
  }

  // Only what meets the room feels its air change.
  void through_spells(const Stage& s, const Layout& layout, Pile& pile, double end) {
    if (!layout.touches(Side::air) && !layout.touches(Side::plastic)) {
      spell(s, layout, pile, end - clock_);
      return;
    }
    for (const air::Spell& part : room_.spells(units::seconds(clock_), units::seconds(end))) {
      climate_ = as_in(s, part.climate);
      spell(s, layout, pile, in_si(part.until) - in_si(part.from));
      if (stopped_) return;
    }
  }

  void spell(const Stage& s, const Layout& layout, Pile& pile, double seconds) {
    if (!(seconds > 0)) return;
    face_room(pile, layout, s, sheet_, climate_, options_.rim);
    const Others held = others_of(pile);
    const double start = clock_;
    stack::Watch watch;
    State watched;
    if (s.until) {
      watched.share = state().share;
      const double room_moisture = dried_moisture_si(*sheet_.porous, climate_);
      watch = [&, room_moisture](const stack::Stack& now) {
        watched.moisture = now.layers[pile.own].moisture;
        watched.film_upper = now.films[pile.own].water;
        watched.film_lower = now.films[pile.own + 1].water;
        return left_to_do(*s.until, *sheet_.porous, watched, room_moisture);
      };
    }
    const stack::Outcome o = stack::advance(
        pile.stack, seconds, {.moisture = tolerance()}, sample_times(seconds),
        [&](double t, const stack::Stack& now) {
          take(now, pile.own);
          clock_ = start + t;
          record(index_);
        },
        watch);
    take(pile.stack, pile.own);
    clock_ = start + (watch ? o.seconds : seconds);
    stopped_ = o.stopped;
    history_.steps += o.steps + o.rejected;
    settle(layout, o, held, others_of(pile));
  }

  void settle(const Layout& layout, const stack::Outcome& o, const Others& held,
              const Others& now) {
    account_.move(-o.out_left);
    account_.move(-o.out_right);
    account_.move(held.absorbents - now.absorbents);
    account_.move(held.sheets - now.sheets);
    tally_.absorbents += now.absorbents - held.absorbents;
    tally_.sheets += now.sheets - held.sheets;
    for (const auto& [side, out] :
         {std::pair{layout.upper, o.out_left}, {layout.lower, o.out_right}}) {
      if (side == Side::air) tally_.air += out;
      if (side == Side::plastic) tally_.plastic += out;
      if (side == Side::water) tally_.water += out;
    }
  }

  const Sheet& sheet_;
  const air::Room& room_;
  air::Climate climate_;  // of the moment
  const RunOptions& options_;
  History history_;
  Account account_;
  Tally tally_;
  double before_ = 0;
  double clock_ = 0;
  double stage_start_ = 0;
  double stage_length_ = 0;
  int index_ = 0;
  bool stopped_ = false;
};

}  // namespace

History run(const Sheet& sheet, State state, std::span<const Stage> stages, const air::Room& room,
            const RunOptions& options) {
  if (!sheet.porous) throw std::invalid_argument("a sheet must be made by sheet_of");
  Runner runner(sheet, std::move(state), room, options);
  int index = 0;
  for (const Stage& s : stages) runner.stage(s, index++);
  return runner.finish();
}

std::vector<Stage> settled(const Sheet& sheet, const State& state, std::vector<Stage> stages,
                           const air::Room& room, const RunOptions& options) {
  const auto open = [](const Stage& s) { return s.until.has_value(); };
  if (std::none_of(stages.begin(), stages.end(), open)) return stages;
  RunOptions ends = options;
  ends.sample_every = units::seconds(0);
  const History h = run(sheet, state, stages, room, ends);
  units::Duration before = options.since;
  for (std::size_t i = 0; i < stages.size(); ++i) {
    if (stages[i].until) stages[i].duration = h.ends[i].at - before;
    stages[i].until.reset();
    before = h.ends[i].at;
  }
  return stages;
}

}  // namespace dampline::method
