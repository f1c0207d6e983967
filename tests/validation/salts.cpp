#include <cmath>
#include <map>

#include <dampline/material/isotherm.hpp>
#include <dampline/units/text.hpp>

#include "validation/checks.hpp"
#include "validation/papers.hpp"

namespace dampline::validation {
namespace {

using tests::reference_table;

// A sheet kept over a salt and weighed is how a hygrometer or an isotherm is checked at home: what
// the sheet's moisture says of the humidity must be what the salt says.
double round_trip(double humidity_percent, double celsius, material::Branch branch) {
  const auto& paper = stock("mould-made cotton; internal size; 300 g/m2");
  const auto t = units::celsius(celsius);
  const auto held = material::equilibrium_moisture(
      paper, units::RelativeHumidity::from_percent(humidity_percent), t, branch);
  return material::equilibrium_humidity(paper, held, t, branch).percent();
}

Check trip() {
  Check c = check_on("saturated_salts.csv", "salts-round-trip",
                     "Humidity over salts, through the moisture of a sheet and back", "material");
  c.quantity = "humidity";
  c.unit = "%";
  c.x_label = "temperature, degC";
  c.basis = Basis::exact;
  c.measure = Measure::difference;
  c.allowed = 0.05;
  c.own = 0.3;
  c.own_why = "0.1 to 0.6 % for the salts themselves, from memory";
  c.decimals = 2;
  for (const auto& row : reference_table(c.files[0])) {
    if (c.series.empty() || c.series.back().name != row.field[0]) {
      c.series.push_back({row.field[0], {}});
    }
    c.series.back().points.push_back(
        {.x = row.cell[1],
         .data = row.cell[2],
         .model = round_trip(row.cell[2], row.cell[1], material::Branch::adsorption)});
  }
  c.model = "material::equilibrium_moisture, then material::equilibrium_humidity, taking up";
  c.notes =
      "Held to 0.05 % of humidity: the way there and back must lose nothing that the salts "
      "could tell. It says nothing of the isotherm itself.";
  return c;
}

Check fit() {
  Check c =
      check_on("saturated_salts.csv", "salts-fit", "Humidity over salts: two sources", "material");
  c.files.push_back("saturated_salts_fit.csv");
  c.quantity = "humidity";
  c.unit = "%";
  c.x_label = "temperature, degC";
  c.basis = Basis::formula;
  c.measure = Measure::difference;
  c.decimals = 1;
  std::map<std::string, std::pair<double, double>> constants;
  for (const auto& row : reference_table(c.files[1])) {
    constants[row.field[0]] = {row.cell[1], row.cell[2]};
  }
  for (const auto& row : reference_table(c.files[0])) {
    const auto found = constants.find(row.field[0]);
    if (found == constants.end()) continue;
    if (c.series.empty() || c.series.back().name != row.field[0]) {
      c.series.push_back({row.field[0], {}});
    }
    const auto [a, b] = found->second;
    c.series.back().points.push_back(
        {.x = row.cell[1], .data = row.cell[2], .model = a * std::exp(b / (row.cell[1] + 273.15))});
  }
  c.model = "none: a handbook's fit against the reviewed table, for what a salt is worth";
  return c;
}

}  // namespace

std::vector<Check> salt_checks() { return {trip(), fit()}; }

}  // namespace dampline::validation
