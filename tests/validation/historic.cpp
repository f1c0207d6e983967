#include <cmath>
#include <stdexcept>

#include <dampline/material/isotherm.hpp>
#include <dampline/method/run.hpp>
#include <dampline/size/strain.hpp>
#include <dampline/units/text.hpp>

#include "validation/checks.hpp"
#include "validation/papers.hpp"

// Seven old papers, soaked, dried on an open screen and humidified [vitale1992].
namespace dampline::validation {
namespace {

using material::Sizing;

// Old printing and writing papers: hand-made rag of about 100 g/m2.
material::Stock old_paper(Sizing sizing) {
  const auto made = material::describe(catalogue(), {.grammage = units::grams_per_m2(100),
                                                     .furnish = material::Furnish::rag,
                                                     .making = material::Making::hand,
                                                     .sizing = sizing});
  if (const auto* d = std::get_if<material::Described>(&made)) return d->stock;
  throw std::runtime_error(std::get<material::DescriptionError>(made).what);
}

const units::Length side = units::centimetres(8);
const units::Length other_side = units::centimetres(10);

air::Climate balance_case() { return climate(22.2, 0.5); }

method::State soaked(const method::Sheet& sheet) {
  auto drip = method::blotted(1, units::seconds(5));
  drip.contact = stack::Contact::laid;
  method::Stage tub;
  tub.arrangement = method::Arrangement::tub;
  tub.duration = units::hours(2);
  tub.water = units::celsius(22.2);
  const method::Stage stages[] = {tub, method::left(method::Arrangement::drain, units::seconds(30)),
                                  drip};
  return method::run(sheet, method::conditioned(sheet, balance_case()), stages, balance_case()).end;
}

double soaked_moisture(const material::Stock& paper) {
  const auto sheet = method::sheet_of(paper, side, other_side);
  return method::water_si(soaked(sheet), *sheet.porous) / sheet.porous->dry;
}

// Where a twentieth of the shrinkage from wet to conditioned is done: the first that an eye could
// see, assumed.
double first_shrinkage(const material::Stock& paper) {
  auto size = size::new_sheet(paper);
  size::wet(size, units::Moisture(1));
  const auto across = [&size](double u) {
    return size::growth(size, units::Moisture(u)).across.parts_of_one();
  };
  const double wet = across(3), dry = across(size.across.conditioned);
  double low = 0.1, high = 3;
  while (high - low > 1e-6) {
    const double u = 0.5 * (low + high);
    (wet - across(u) > 0.05 * (wet - dry) ? low : high) = u;
  }
  return low;
}

// "To the limit": a humid chamber over water, taken as 98 %.
double humidified(const material::Stock& paper) {
  return material::equilibrium_moisture(paper, units::RelativeHumidity(0.98), units::celsius(22.2),
                                        material::Branch::adsorption)
      .parts_of_one();
}

Check states() {
  Check c = check_on("historic_papers.csv", "old-papers", "Old papers soaked, cockling, humidified",
                     "method");
  c.quantity = "moisture";
  c.unit = "g/g";
  c.basis = Basis::measured;
  c.rule = Rule::inside;
  c.own = 0.25;
  c.own_why = "spread between seven papers, a third of the range";
  c.picture = Picture::rows;
  const auto table = tests::reference_table(c.files[0]);
  for (const auto sizing : {Sizing::waterleaf, Sizing::soft, Sizing::tub}) {
    const auto paper = old_paper(sizing);
    const double model[] = {soaked_moisture(paper), first_shrinkage(paper), humidified(paper)};
    Series s{std::string(material::word(sizing)) + " rag", {}};
    for (std::size_t i = 0; i < table.rows.size(); ++i) {
      const auto& row = table.rows[i];
      s.points.push_back({.data = row.cell[2],
                          .data_low = row.cell[1],
                          .data_high = row.cell[3],
                          .model = model[i],
                          .label = row.field[0]});
    }
    c.series.push_back(s);
  }
  c.model =
      "method::run (2 h in water, drained 30 s, one blotter laid on for 5 s), size::growth (a "
      "twentieth of "
      "the shrinkage done), material::equilibrium_moisture (98 %); hand-made rag, 100 g/m2";
  c.notes = "How those papers were sized is not known here.";
  c.miss =
      "shrinkage begins too early in the model: its swelling measure has no sharp corner "
      "where the fibres begin to empty. A sheet as well sized as the class of tub-sized papers "
      "takes up less in two hours than any of the seven did; old size may have been weaker, or "
      "washed out, which the model leaves out.";
  return c;
}

Check screen() {
  Check c;
  c.id = "old-papers-drying";
  c.title = "Old papers on an open screen: a prediction";
  c.room = "method";
  c.quantity = "water in and on the sheet";
  c.unit = "g/g";
  c.x_label = "time, min";
  c.prediction = true;
  c.basis = Basis::measured;
  const auto sheet = method::sheet_of(old_paper(Sizing::soft), side, other_side);
  const method::Stage stages[] = {method::left(method::Arrangement::rack, units::hours(2))};
  for (const auto& [name, air] : {std::pair{"still air", air::AirMovement::still},
                                  {"ordinary air", air::AirMovement::ordinary}}) {
    auto room = balance_case();
    room.air = air;
    const auto h = method::run(sheet, soaked(sheet), stages, room);
    Series s{name, {}};
    for (std::size_t i = 0; i < h.curve.size(); ++i) {
      const double t = units::in_minutes(h.curve[i].at);
      const double u =
          h.curve[i].mean.parts_of_one() + units::in_si(h.curve[i].film) / sheet.porous->dry;
      s.line.emplace_back(t, u);
      if (i % 10 == 0 && t <= 60) s.points.push_back({.x = t, .model = u});
    }
    c.series.push_back(s);
  }
  c.model =
      "method::run, softly sized hand-made rag, 100 g/m2, 8 x 10 cm, both faces open, 22.2 "
      "degC, 50 %, from the soaked state above";
  c.notes =
      "The weighings every five minutes of seven old papers [vitale1992] (figure 3 and table "
      "4 there) are the best drying curves of paper known of; they could not be opened. "
      "Whoever can may hold this curve to them, scaled to each paper's weight.";
  return c;
}

}  // namespace

std::vector<Check> historic_checks() { return {states(), screen()}; }

}  // namespace dampline::validation
