#include <algorithm>
#include <cmath>

#include <dampline/method/film.hpp>
#include <dampline/method/pack.hpp>
#include <dampline/method/run.hpp>

#include "validation/checks.hpp"
#include "validation/uptake_papers.hpp"

namespace dampline::validation {
namespace {

using material::Sizing;
using method::Laid;
using method::State;
using tests::reference_table;
using units::in_si;

const air::Climate room;

method::Sheet internal(double grammage) {
  return method::sheet_of(paper_of(Sizing::internal, grammage));
}

method::PackMoment left_packed(const method::Sheet& sheet, const std::vector<Laid>& order,
                               const State& dry, const State& wet, units::Duration time,
                               method::Side sides) {
  auto pack = method::pack_of(order, dry, wet);
  pack.upper = pack.lower = sides;
  return method::leave_packed(sheet, pack, time, room, {.sample_every = units::seconds(0)})
      .moments.back();
}

double mean_of(const method::PackMoment& moment) {
  double sum = 0;
  for (const auto& m : moment.mean) sum += m.parts_of_one();
  return sum / static_cast<double>(moment.mean.size());
}

Check trial() {
  Check c = check_between("damp_pack_trial.csv", "damp-pack-trial", "A wet sheet laid on a dry one",
                          "mean moisture", "g/g");
  c.x_label = "time, min";
  c.basis = Basis::computed;
  const auto table = reference_table(c.files[0]);
  c.log_x = true;
  for (const char* contact : {"1e-4", "3e-4"}) {
    Series wet{std::string("wet, ") + contact, {}}, dry{std::string("dry, ") + contact, {}};
    for (const auto& row : table) {
      if (row.field[0] != contact) continue;
      auto sheet = internal(250);
      sheet.contact_scale = row.cell[0] / stack::conductance_si(stack::Contact::laid);
      const auto now =
          left_packed(sheet, {Laid::wet, Laid::dry}, method::evenly(sheet, units::Moisture(0.06)),
                      method::evenly(sheet, units::Moisture(0.80)), units::minutes(row.cell[1]),
                      method::Side::board);
      wet.points.push_back(
          {.x = row.cell[1], .data = row.cell[2], .model = now.mean[0].parts_of_one()});
      dry.points.push_back(
          {.x = row.cell[1], .data = row.cell[3], .model = now.mean[1].parts_of_one()});
    }
    c.series.push_back(wet);
    c.series.push_back(dry);
  }
  c.model = "method::leave_packed, one wet and one dry sheet between boards";
  c.notes =
      "Conductances in kg/(m2 s). The last tenth is slower than the trial's: here a sheet that "
      "dries holds on to its water harder than one that wets.";
  return c;
}

Check equalising() {
  Check c = check_between("equalising.csv", "damp-pack-evening", "How soon a damp pack is even",
                          "difference over the first", "");
  c.basis = Basis::practice;
  const auto table = reference_table(c.files[0]);
  c.rule = Rule::inside;
  c.picture = Picture::rows;
  c.series = {{"", {}}};
  constexpr double dry = 0.06, wet = 0.75;
  for (const auto& row : table) {
    for (const double scale : {0.5, 1.0, 1.5}) {
      auto sheet = internal(250);
      sheet.contact_scale = scale;
      const auto now = left_packed(sheet, method::order_of(12, 1, 2, 1),
                                   method::evenly(sheet, units::Moisture(dry)),
                                   method::evenly(sheet, units::Moisture(wet)),
                                   units::minutes(row.cell[0]), method::Side::plastic);
      const std::string contact = scale < 1 ? "1e-4" : scale > 1 ? "3e-4" : "2e-4";
      c.series[0].points.push_back({.data_low = 0,
                                    .data_high = row.cell[1],
                                    .model = now.spread().parts_of_one() / (wet - dry),
                                    .label = row.field[0] + " min, contact " + contact});
    }
  }
  c.model =
      "method::leave_packed, 12 internally sized 250 g/m2 sheets, two dry after each wet one, "
      "the top one dry";
  c.notes =
      "Wettest less driest sheet, over what it was. Bounds to one side: bias and scatter mean "
      "nothing here.";
  return c;
}

State sponged(const method::Sheet& sheet) {
  State s = method::conditioned(sheet, room);
  s.film_upper = in_si(method::wet_not_dripping());
  return s;
}

State dipped(const method::Sheet& sheet) {
  auto dip = method::left(method::Arrangement::dip, units::seconds(3));
  const method::Stage stages[] = {dip};
  return method::run(sheet, method::conditioned(sheet, room), stages, room,
                     {.sample_every = units::seconds(0)})
      .end;
}

Check recipes() {
  Check c = check_between("damping_recipes.csv", "damping-recipes",
                          "Printers' ways of damping a pile", "moisture in the end", "g/g");
  c.basis = Basis::practice;
  const auto table = reference_table(c.files[0]);
  c.rule = Rule::inside;
  c.picture = Picture::rows;
  c.series = {{"", {}}};
  double widest = 0;
  for (const auto& row : table) {
    const auto sheet = internal(row.cell[1]);
    const State dry = method::conditioned(sheet, room);
    const int count = static_cast<int>(row.cell[2]);
    double model = 0;
    if (row.field[0] == "quire") {
      // Three dips; each wets the two outer faces of the quire, opened elsewhere each time.
      model = method::sample_of(dry).mean.parts_of_one() +
              3 * 2 * method::lifted_film_si / (count * sheet.porous->dry);
    } else {
      const State wet = row.field[0] == "sponge" ? sponged(sheet) : dipped(sheet);
      const auto now = left_packed(sheet, method::order_of(24, 1, count - 1, count / 2), dry, wet,
                                   units::hours(14), method::Side::plastic);
      model = mean_of(now);
      widest = std::max(widest, now.spread().parts_of_one());
    }
    const std::string how = row.field[0] == "quire" ? ", dipped three times"
                            : row.field[0] == "sponge"
                                ? ", one in " + row.field[2]
                                : ", one wet to " + std::to_string(count - 1) + " dry";
    c.series[0].points.push_back({.data_low = row.cell[3],
                                  .data_high = row.cell[4],
                                  .model = model,
                                  .label = row.field[0] + " " + row.field[1] + " g/m2" + how});
  }
  c.model =
      "method::leave_packed, 24 sheets, 14 h under plastic; what a sponge or a lifted sheet "
      "carries is method::wet_not_dripping and lifted_film";
  c.notes =
      "The three ways of the sponge, for papers of 120 to 270 g/m2, come to about the same "
      "moisture, as the rule behind them wants. Least even pile: " +
      std::to_string(static_cast<int>(std::lround(1e3 * widest))) +
      " thousandths between its wettest and driest sheet.";
  return c;
}

}  // namespace

std::vector<Check> blotting_packs_checks() { return {trial(), equalising(), recipes()}; }

}  // namespace dampline::validation
