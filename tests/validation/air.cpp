#include <dampline/air/psychrometrics.hpp>

#include "validation/checks.hpp"

namespace dampline::validation {
namespace {

using tests::reference_table;

double saturation_at(double celsius) { return air::saturation_pressure_si(celsius + 273.15); }

Series against_temperature(const std::string& file, const std::string& name) {
  Series s{name, {}};
  for (const auto& row : reference_table(file)) {
    s.points.push_back(
        {.x = row.cell[0], .data = row.cell[1], .model = saturation_at(row.cell[0])});
  }
  return s;
}

Check saturation() {
  Check c;
  c.id = "saturation-pressure";
  c.title = "Saturation pressure of water vapour, 5 to 100 degC";
  c.room = "air";
  c.quantity = "saturation pressure";
  c.unit = "Pa";
  c.x_label = "temperature, degC";
  c.basis = Basis::formula;
  c.files = {"saturation_pressure.csv"};
  c.allowed = reference_table(c.files[0]).allowed;
  c.own = 0.00015;
  c.own_why = "the handbook claims 0.03 % for its formula";
  c.decimals = 1;
  c.log_y = true;
  c.series = {against_temperature(c.files[0], "handbook")};
  c.model = "air::saturation_pressure";
  return c;
}

}  // namespace

std::vector<Check> air_checks() { return {saturation()}; }

}  // namespace dampline::validation
