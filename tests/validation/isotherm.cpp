#include <cmath>
#include <map>

#include <dampline/material/isotherm.hpp>

#include "validation/checks.hpp"
#include "validation/uptake_papers.hpp"

namespace dampline::validation {
namespace {

using material::Branch;
using material::Furnish;
using tests::reference_table;

const material::Stock& cotton() {
  static const auto stock = paper_of(material::Sizing::internal, 250);
  return stock;
}
// A sheet of the wood class: the isotherm scale of data/stocks.toml, not one fitted to the check.
const material::Stock& wood_pulp() {
  static const auto stock =
      paper_of(material::Sizing::internal, 120, Furnish::wood, material::Making::machine);
  return stock;
}

double percent_at(const material::Stock& stock, double humidity, double celsius, Branch branch) {
  return material::equilibrium_moisture(stock, units::RelativeHumidity::from_percent(humidity),
                                        units::celsius(celsius), branch)
      .percent();
}

std::vector<std::pair<double, double>> curve(const material::Stock& stock, double celsius,
                                             Branch branch) {
  std::vector<std::pair<double, double>> line;
  for (double h = 5; h <= 92; h += 1) line.emplace_back(h, percent_at(stock, h, celsius, branch));
  return line;
}

Check points_of_moisture(const char* id, const char* title) {
  Check c;
  c.id = id;
  c.title = title;
  c.room = "material";
  c.quantity = "moisture";
  c.unit = "points";
  c.x_label = "relative humidity, %";
  c.measure = Measure::difference;
  c.model = "material::equilibrium_moisture, drying branch";
  return c;
}

Check rag() {
  Check c = points_of_moisture("rag-isotherm", "Moisture of rag paper and cotton against humidity");
  c.basis = Basis::memory;
  c.files = {"rag_regain.csv"};
  const auto table = reference_table(c.files[0]);
  c.allowed = table.allowed;
  c.rule = Rule::rms;
  c.own = 0.4;
  c.own_why = "standard deviation of the four sets at one humidity, 0.25 to 0.67 points";
  std::map<std::string, Series> sets;
  for (const auto& row : table) {
    sets[row.field[0]].points.push_back(
        {.x = row.cell[1],
         .data = row.cell[2],
         .model = percent_at(cotton(), row.cell[1], 24, Branch::desorption)});
  }
  for (auto& [name, series] : sets) {
    series.name = name;
    series.joined = c.series.empty();
    if (series.joined) series.line = curve(cotton(), 24, Branch::desorption);
    c.series.push_back(series);
  }
  c.notes =
      "The model's three constants were fitted to these very tables, so this shows how well one "
      "curve can serve four papers, not a prediction. The tables do not say which branch they are; "
      "taken as the drying one, the wetting one lies 0.2 to 1.0 points lower.";
  return c;
}

Check recommended() {
  Check c = points_of_moisture("isotherm-branches", "Both branches of the cotton isotherm");
  c.basis = Basis::computed;
  c.files = {"isotherm_recommended.csv"};
  const auto table = reference_table(c.files[0]);
  c.allowed = table.allowed;
  const auto held = [](double activity, Branch branch) {
    const auto r = material::retention(1, 1, 1.5, branch);
    return 100 * material::held_si(r, std::log10(-137200 * std::log(activity))).moisture;
  };
  c.series = {{"drying", {}}, {"wetting", {}}};
  for (const auto& row : table) {
    for (const std::size_t i : {0U, 1U}) {
      c.series[i].points.push_back(
          {.x = 100 * row.cell[0],
           .data = row.cell[i + 1],
           .model = held(row.cell[0], i == 0 ? Branch::desorption : Branch::adsorption)});
    }
  }
  c.model = "material::retention and held_si, 23 degC, both branches";
  return c;
}

// The pulp at 25 degC in two fitted forms, and warm.
Check pulp() {
  Check c = points_of_moisture("pulp-isotherm", "Moisture of a bleached pulp sheet");
  c.basis = Basis::formula;
  c.files = {"pulp_regain.csv", "pulp_regain_warm.csv"};
  const auto warm = reference_table(c.files[1]);
  c.allowed = warm.allowed;
  c.rule = Rule::rms;
  c.own = 0.5;
  c.own_why = "the two fitted forms lie 0.1 to 0.5 points apart from 20 to 80 % RH";
  c.series = {{"25 degC", {}, curve(wood_pulp(), 25, Branch::desorption)},
              {"25 degC, second form", {}, {}, false},
              {"60 degC", {}, curve(wood_pulp(), 60, Branch::desorption)}};
  for (const auto& row : reference_table(c.files[0])) {
    c.series[0].points.push_back(
        {.x = row.cell[0],
         .data = row.cell[1],
         .model = percent_at(wood_pulp(), row.cell[0], 25, Branch::desorption)});
  }
  for (const auto& row : warm) {
    c.series[row.field[0] == "first" ? 2 : 1].points.push_back(
        {.x = row.cell[2],
         .data = row.cell[3],
         .model = percent_at(wood_pulp(), row.cell[2], row.cell[1], Branch::desorption)});
  }
  c.model += ", wood class (scale 1.40 of cotton)";
  c.miss =
      "the scale of the wood class, 1.40, lies between this pulp (best 1.53) and other papers "
      "(1.38), so this one comes out up to 2 points low, and 4.6 below its second form at 90 % RH; "
      "warm, the model's heat of sorption, set to cotton, is too small for wood and it loses too "
      "little.";
  return c;
}

Check printing_paper() {
  Check c = points_of_moisture("printing-paper-isotherm",
                               "Moisture of a wood-pulp printing paper at 23 degC");
  c.basis = Basis::memory;
  c.files = {"printing_paper_regain.csv"};
  const auto table = reference_table(c.files[0]);
  c.allowed = table.allowed;
  c.series = {{"23 degC", {}, curve(wood_pulp(), 23, Branch::desorption)}};
  for (const auto& row : table) {
    if (row.cell[0] != 23) continue;
    c.series[0].points.push_back(
        {.x = row.cell[1],
         .data = row.cell[2],
         .model = percent_at(wood_pulp(), row.cell[1], 23, Branch::desorption)});
  }
  c.model += ", wood class (scale 1.40 of cotton)";
  c.notes =
      "A best fit to this set, 1.38, is one of the two that the class scale of 1.40 was chosen "
      "from.";
  return c;
}

Check solid_wood() {
  Check c = points_of_moisture("cotton-under-wood", "Cotton stays well under solid wood");
  c.basis = Basis::formula;
  c.files = {"wood_regain.csv"};
  c.rule = Rule::inside;
  c.series = {{"wood, 20 degC", {}, curve(cotton(), 20, Branch::desorption)}};
  for (const auto& row : reference_table(c.files[0])) {
    if (row.cell[0] != 20) continue;
    // At least a tenth under it.
    c.series[0].points.push_back(
        {.x = row.cell[1],
         .data_low = 0,
         .data_high = 0.9 * row.cell[2],
         .model = percent_at(cotton(), row.cell[1], 20, Branch::desorption)});
  }
  c.notes =
      "Wood takes up half as much again as cotton: the bars end a tenth under wood and the model "
      "must stay in them, everywhere. Bias and scatter, counted from their middles, mean nothing "
      "here.";
  c.miss =
      "at 10 % RH, where rag and cotton themselves (2.4 to 3.2, above) hold what wood does. No "
      "printing paper is that dry.";
  return c;
}

}  // namespace

std::vector<Check> isotherm_checks() {
  return {rag(), pulp(), printing_paper(), solid_wood(), recommended()};
}

}  // namespace dampline::validation
