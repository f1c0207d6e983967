#include <algorithm>
#include <cmath>
#include <stdexcept>

#include <dampline/air/psychrometrics.hpp>
#include <dampline/method/film.hpp>
#include <dampline/method/run.hpp>
#include <dampline/stack/stack.hpp>
#include <dampline/units/out_of_range.hpp>

namespace dampline::method {

using units::in_si;

namespace {

using material::Branch;
using stack::FaceKind;

constexpr double dry_enough = 0.20;      // g/g: size delays water only in a sheet drier than this
constexpr double cover_transfer = 8e-6;  // m/s: 6 g/m2 a day at 50 % RH, of 2 to 20, `assumed`
constexpr double contact_heat = 6;       // W/(m2 K) from boards, hands and blotters: `assumed`
constexpr double rim_width = 0.02;       // m
// Sheets this light (kg/m2 dry) change so fast that the same step error adds up to several times as
// much: they are followed more closely.
constexpr double light_sheet = 0.070;
constexpr double closer = 0.2;
constexpr int absorbent_cells = 8;
constexpr double absorbent_first = 0.03;  // share of a blotter in the cell at the sheet

struct Account {
  double in = 0;  // kg/m2 handed to the sheet from outside, less what was taken away
  double handled = 0;
  void move(double water) {
    in += water;
    handled += std::abs(water);
  }
};

class Runner {
 public:
  Runner(const Sheet& sheet, State state, const air::Room& room, const RunOptions& options)
      : sheet_(sheet), room_(room), options_(options), absorbents_(options.absorbents) {
    if (absorbents_ == nullptr) absorbents_ = &usual_absorbents();
    if (state.moisture.size() < 2 || state.moisture.size() != state.share.size()) {
      throw std::invalid_argument("a sheet's state needs two cells or more");
    }
    history_.end = std::move(state);
    account_.handled = std::max(1e-6, water_si(history_.end, *sheet.porous));
    before_ = water_si(history_.end, *sheet.porous);
    clock_ = in_si(options.since);
    climate_ = room_.at(options.since);
    record(0);
  }

  void stage(const Stage& s, int index) {
    const double seconds = in_si(s.duration);
    if (!(seconds >= 0 && seconds <= 90 * 86400.0)) {
      throw units::OutOfRange("duration of stage '" + s.name + "'", seconds / 3600, 0, 2160, "h");
    }
    index_ = index;
    stage_start_ = clock_;
    stage_length_ = seconds;
    climate_ = room_.at(units::seconds(clock_));
    switch (s.arrangement) {
      case Arrangement::tub:
        tub(s, seconds);
        break;
      case Arrangement::film:
        lay_film(s);
        open(air::Mounting::table, seconds);
        break;
      case Arrangement::drain:
        drain(seconds);
        break;
      case Arrangement::bench:
        open(air::Mounting::table, seconds);
        break;
      case Arrangement::hang:
        open(air::Mounting::hung, seconds);
        break;
      case Arrangement::rack:
        open(air::Mounting::rack, seconds);
        break;
      case Arrangement::covered:
        covered(s, seconds);
        break;
      case Arrangement::blot:
        between(s, *absorbents_->blotter, s.contact, seconds);
        break;
      case Arrangement::towel:
        between(s, *absorbents_->towel, s.contact, seconds);
        break;
      case Arrangement::boards:
        between(s, *absorbents_->blotter, stack::Contact::boards, seconds);
        break;
      case Arrangement::press:
        press(s, seconds);
        break;
      case Arrangement::pack:
        pack(s, seconds);
        break;
    }
    record(index);
    history_.ends.push_back({units::seconds(clock_), history_.end});
  }

  History finish() {
    const double after = water_si(history_.end, *sheet_.porous);
    history_.balance_error = std::abs(after - before_ - account_.in) / account_.handled;
    return std::move(history_);
  }

 private:
  State& state() { return history_.end; }

  stack::Layer layer(Branch branch) const {
    return {sheet_.porous.get(), branch, history_.end.moisture, history_.end.share};
  }

  // Desorption when the sheet holds more than it will in the end.
  [[nodiscard]] Branch branch_in_air() {
    const double kelvin = in_si(climate_.temperature);
    double mean = 0;
    for (std::size_t i = 0; i < state().moisture.size(); ++i) {
      mean += state().moisture[i] * state().share[i];
    }
    const double a =
        sheet_.porous->drying->activity(mean).value * material::activity_factor_si(mean, kelvin);
    return a > climate_.humidity.parts_of_one() ? Branch::desorption : Branch::adsorption;
  }

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

  // Advances a stack in which the sheet is layer `own`, and takes its state back.
  stack::Outcome advance(stack::Stack& stack, std::size_t own, double seconds) {
    const auto take = [&](const stack::Stack& from) {
      state().moisture = from.layers[own].moisture;
      state().film_upper = from.films[own].water;
      state().film_lower = from.films[own + 1].water;
      state().kelvin = from.kelvin;
    };
    const double start = clock_;
    const auto times = sample_times(seconds);
    const stack::Outcome outcome = stack::advance(stack, seconds, {.moisture = tolerance()}, times,
                                                  [&](double t, const stack::Stack& now) {
                                                    take(now);
                                                    clock_ = start + t;
                                                    record(index_);
                                                  });
    take(stack);
    clock_ = start + seconds;
    history_.steps += outcome.steps + outcome.rejected;
    return outcome;
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

  stack::Stack alone(Branch branch) {
    stack::Stack s;
    s.layers = {layer(branch)};
    s.films = {{state().film_upper, false}, {state().film_lower, true}};
    s.kelvin = state().kelvin;
    s.ambient_kelvin = in_si(climate_.temperature);
    return s;
  }

  void tub(const Stage& s, double seconds) {
    const double celsius = units::in_celsius(s.water);
    if (!(celsius >= 0 && celsius <= 60)) {
      throw units::OutOfRange("water temperature", celsius, 0, 60, "degC");
    }
    if (!(seconds > 0)) return;
    account_.move(-state().film_upper - state().film_lower);
    state().film_upper = state().film_lower = 0;
    state().kelvin = in_si(s.water);
    const double face = std::min(state().moisture.front(), state().moisture.back());
    const double delay = face < dry_enough ? std::min(seconds, sheet_.porous->delay) : 0;
    if (delay > 0) pass(delay);
    stack::Stack tub = alone(Branch::adsorption);
    tub.left.kind = tub.right.kind = FaceKind::water;
    tub.fixed_temperature = true;
    const stack::Outcome o = advance(tub, 0, seconds - delay);
    account_.move(-o.out_left);
    account_.move(-o.out_right);
    // What a swollen sheet gave back under water is part of the tub.
    account_.move(2 * lifted_film_si - state().film_upper - state().film_lower);
    state().film_upper = state().film_lower = lifted_film_si;
  }

  void drain(double seconds) {
    const double kept = drained_film_si(in_si(sheet_.height), seconds, state().kelvin);
    for (double* film : {&state().film_upper, &state().film_lower}) {
      account_.move(std::min(0.0, kept - *film));
      *film = std::min(*film, kept);
    }
    open(air::Mounting::hung, seconds);
  }

  void lay_film(const Stage& s) {
    const double film = in_si(s.film);
    if (!(film >= 0 && film <= 2)) {
      throw units::OutOfRange("film of stage '" + s.name + "'", film * 1e3, 0, 2000, "g/m2");
    }
    account_.move(film);
    if (s.film_faces == 1) {
      state().film_upper += film;
    } else {
      state().film_upper += 0.5 * film;
      state().film_lower += 0.5 * film;
    }
  }

  // Calls `in_spell(seconds)` for each spell of the room's air, `climate_` being that of the spell.
  template <typename InSpell>
  void through_spells(double seconds, const InSpell& in_spell) {
    if (!(seconds > 0)) return;
    for (const air::Spell& spell :
         room_.spells(units::seconds(clock_), units::seconds(clock_ + seconds))) {
      climate_ = spell.climate;
      in_spell(in_si(spell.until) - in_si(spell.from));
    }
  }

  void open(air::Mounting mounting, double seconds) {
    through_spells(seconds, [&](double spell) { open_spell(mounting, spell); });
  }

  void open_spell(air::Mounting mounting, double seconds) {
    stack::Stack s = alone(branch_in_air());
    const air::Faces reached = air::faces(mounting);
    const auto side = [&](std::size_t i) {
      air::Face face = air::face_of(reached.facing[i], climate_.air, sheet_.width, sheet_.height);
      if (options_.rim) face = air::rim_of(face, units::metres(rim_width));
      return stack::Face{FaceKind::air,
                         stack::air_side(climate_, face, sheet_.air_scale, s.back_heat)};
    };
    if (reached.count == 1) s.back_heat = air::back_conductance_si(air::TableTop::wood);
    s.left = side(0);
    if (reached.count == 2) s.right = side(1);
    evaporated(advance(s, 0, seconds));
  }

  void covered(const Stage& s, double seconds) {
    through_spells(seconds, [&](double spell) { covered_spell(s, spell); });
  }

  void covered_spell(const Stage& s, double seconds) {
    if (s.pile < 1) throw units::OutOfRange("sheets under a cover", s.pile, 1, 1000, "");
    stack::Stack under = alone(Branch::desorption);
    const stack::Face cover{
        FaceKind::air, stack::cover_side(climate_, sheet_.air_scale * cover_transfer / s.pile)};
    under.left = cover;
    under.right = cover;
    evaporated(advance(under, 0, seconds));
  }

  void evaporated(const stack::Outcome& o) {
    account_.move(-o.out_left);
    account_.move(-o.out_right);
  }

  static stack::Layer absorbent(const material::Porous& m, units::Moisture moisture,
                                stack::Graded graded) {
    const auto share = stack::graded_cells(absorbent_cells, absorbent_first, graded);
    return {&m, Branch::adsorption, std::vector<double>(share.size(), moisture.parts_of_one()),
            share};
  }

  void between(const Stage& s, const material::Porous& absorbent_material, stack::Contact contact,
               double seconds) {
    if (s.passes < 1 || s.passes > 1000) throw units::OutOfRange("passes", s.passes, 1, 1000, "");
    if (!(seconds > 0)) return;
    const double conductance = sheet_.contact_scale * stack::conductance_si(contact);
    for (int i = 0; i < s.passes; ++i) {
      stack::Stack pile;
      pile.layers = {absorbent(absorbent_material, s.absorbent, stack::Graded::right),
                     layer(Branch::desorption),
                     absorbent(absorbent_material, s.absorbent, stack::Graded::left)};
      pile.contacts = {conductance, conductance};
      pile.films = {{}, {state().film_upper, false}, {state().film_lower, true}, {}};
      pile.kelvin = state().kelvin;
      pile.ambient_kelvin = in_si(climate_.temperature);
      pile.back_heat = contact_heat;
      const double held = stack::water(pile.layers[0]) + stack::water(pile.layers[2]);
      advance(pile, 1, seconds / s.passes);
      account_.move(held - stack::water(pile.layers[0]) - stack::water(pile.layers[2]));
    }
  }

  void press(const Stage& s, double seconds) {
    if (!(seconds > 0)) return;
    const double nip = sheet_.contact_scale * stack::conductance_si(stack::Contact::nip);
    stack::Stack pile;
    pile.layers = {layer(Branch::desorption),
                   absorbent(*absorbents_->newsprint, s.absorbent, stack::Graded::left),
                   absorbent(*absorbents_->newsprint, s.absorbent, stack::Graded::left)};
    pile.contacts = {nip, nip};
    pile.films = {{state().film_upper, false}, {state().film_lower, true}, {}, {}};
    pile.kelvin = state().kelvin;
    pile.ambient_kelvin = in_si(climate_.temperature);
    pile.back_heat = contact_heat;
    const double held = stack::water(pile.layers[1]) + stack::water(pile.layers[2]);
    advance(pile, 0, seconds);
    account_.move(held - stack::water(pile.layers[1]) - stack::water(pile.layers[2]));
  }

  void pack(const Stage& s, double seconds) {
    if (s.neighbours.empty()) throw std::invalid_argument("a pack needs a neighbouring sheet");
    if (s.neighbours.size() > 64) {
      throw units::OutOfRange("sheets in a pack", static_cast<double>(s.neighbours.size()), 1, 64,
                              "");
    }
    if (!(seconds > 0)) return;
    const double contact = sheet_.contact_scale * stack::conductance_si(stack::Contact::laid);
    const double own = sample_of(state()).mean.parts_of_one();
    double wettest = own;
    for (const auto& u : s.neighbours) wettest = std::max(wettest, u.parts_of_one());
    stack::Stack pile;
    pile.layers = {layer(own < 0.5 * wettest ? Branch::adsorption : Branch::desorption)};
    pile.films = {{state().film_upper, false}, {state().film_lower, true}};
    for (const auto& u : s.neighbours) {
      const double moisture = std::clamp(u.parts_of_one(), 0.0, sheet_.porous->saturation);
      stack::Layer next = layer(moisture < 0.5 * wettest ? Branch::adsorption : Branch::desorption);
      std::fill(next.moisture.begin(), next.moisture.end(), moisture);
      pile.layers.push_back(next);
      pile.contacts.push_back(contact);
      pile.films.push_back({});
    }
    pile.kelvin = state().kelvin;
    pile.ambient_kelvin = in_si(climate_.temperature);
    pile.back_heat = contact_heat;
    const auto others = [&] {
      double water = 0;
      for (std::size_t l = 1; l < pile.layers.size(); ++l) water += stack::water(pile.layers[l]);
      for (std::size_t j = 2; j < pile.films.size(); ++j) water += pile.films[j].water;
      return water;
    };
    const double held = others();
    advance(pile, 0, seconds);
    account_.move(held - others());
  }

  const Sheet& sheet_;
  const air::Room& room_;
  air::Climate climate_;  // of the moment
  const RunOptions& options_;
  const Absorbents* absorbents_;
  History history_;
  Account account_;
  double before_ = 0;
  double clock_ = 0;
  double stage_start_ = 0;
  double stage_length_ = 0;
  int index_ = 0;
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

}  // namespace dampline::method
