#include <dampline/material/transport.hpp>

#include "validation/checks.hpp"
#include "validation/uptake_papers.hpp"

namespace dampline::validation {
namespace {

using tests::reference_table;

Check mobility(std::size_t column, const char* id, const char* title, const char* quantity,
               const char* unit, double (*model)(double)) {
  Check c;
  c.id = id;
  c.title = title;
  c.room = "material";
  c.quantity = quantity;
  c.unit = unit;
  c.x_label = "temperature, degC";
  c.files = {"water_mobility.csv"};
  const auto table = reference_table(c.files[0]);
  c.allowed = table.allowed;
  c.decimals = 3;
  Series s{"printed", {}};
  for (const auto& row : table) {
    s.points.push_back(
        {.x = row.cell[0], .data = row.cell[column], .model = 1e3 * model(row.cell[0] + 273.15)});
  }
  c.series = {s};
  return c;
}

Check viscosity() {
  Check c = mobility(1, "water-viscosity", "Viscosity of water", "viscosity", "mPa s",
                     material::water_viscosity_si);
  c.basis = Basis::formula;
  c.model = "material::water_viscosity";
  return c;
}

Check tension() {
  Check c = mobility(2, "water-tension", "Surface tension of water", "surface tension", "mN/m",
                     material::water_surface_tension_si);
  c.basis = Basis::memory;
  c.model = "material::water_surface_tension";
  return c;
}

Check vapour() {
  Check c;
  c.id = "paper-vapour";
  c.title = "Diffusivity of vapour in the pores of paper";
  c.room = "material";
  c.quantity = "diffusivity";
  c.unit = "1e-7 m2/s";
  c.basis = Basis::formula;
  c.files = {"vapour_resistance.csv"};
  c.measure = Measure::factor;
  const auto table = reference_table(c.files[0]);
  c.allowed = table.allowed;
  c.picture = Picture::rows;
  c.log_x = true;
  const material::Sizing like[] = {material::Sizing::soft, material::Sizing::hard,
                                   material::Sizing::internal};
  c.series = {{"", {}}};
  for (std::size_t i = 0; i < table.rows.size(); ++i) {
    const auto stock = paper_of(like[i], 250);
    c.series[0].points.push_back(
        {.data = 1e7 * table.rows[i].cell[1],
         .model = 1e7 * units::in_si(stock.vapour.value),
         .label = table.rows[i].field[0] + ", " + std::string(material::word(like[i]))});
  }
  c.model = "vapour of the sizing classes of data/stocks.toml";
  c.notes =
      "The first two set the classes. They come from a program's file that names no "
      "measurement.";
  c.miss =
      "the internal class stands between the two values of one file; a fit to a real sheet, "
      "wood pulp of unknown density, is a third of it.";
  return c;
}

}  // namespace

std::vector<Check> transport_water_checks() { return {viscosity(), tension(), vapour()}; }

}  // namespace dampline::validation
