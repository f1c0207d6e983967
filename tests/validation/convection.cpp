#include <stdexcept>

#include <dampline/air/convection.hpp>
#include <dampline/air/psychrometrics.hpp>
#include <dampline/units/text.hpp>

#include "validation/checks.hpp"
#include "validation/papers.hpp"

namespace dampline::validation {
namespace {

using tests::reference_table;

double nusselt(const tests::ReferenceRow& row) {
  const double first = row.cell[1];
  const double prandtl = row.cell[2];
  if (row.field[0] == "level unstable") return air::nusselt_level_unstable(first * prandtl);
  if (row.field[0] == "level stable") return air::nusselt_level_stable(first * prandtl);
  if (row.field[0] == "forced") return air::nusselt_forced(first, prandtl);
  throw std::runtime_error("no such correlation: " + row.field[0]);
}

Check correlations() {
  Check c = check_on("convection_correlations.csv", "convection-correlations",
                     "Correlations of level and blown plates", "air");
  c.quantity = "Nusselt number";
  c.basis = Basis::program;
  c.decimals = 4;
  c.picture = Picture::rows;
  c.log_x = true;
  Series s{"asserted by the other program", {}};
  for (const auto& row : reference_table(c.files[0])) {
    s.points.push_back({.data = row.cell[3],
                        .model = nusselt(row),
                        .label = row.field[0] + " " + row.field[1] + " Pr " + row.field[2]});
  }
  c.series = {s};
  c.model = "air::nusselt_level_unstable, nusselt_level_stable, nusselt_forced";
  return c;
}

Check vertical() {
  Check c = check_on("vertical_plate.csv", "vertical-plate",
                     "Natural convection at an upright plate", "air");
  c.quantity = "Nusselt number";
  c.x_label = "Rayleigh number";
  c.basis = Basis::memory;
  c.own = 0.054;
  c.own_why = "rms of published fits to clean plates";
  c.decimals = 1;
  c.log_x = c.log_y = true;
  Series s{"form for all Rayleigh numbers", {}};
  for (const auto& row : reference_table(c.files[0])) {
    s.points.push_back(
        {.x = row.cell[0], .data = row.cell[1], .model = air::nusselt_vertical(row.cell[0], 0.71)});
  }
  c.series = {s};
  c.model = "air::nusselt_vertical, the same authors' laminar form";
  c.miss =
      "the laminar form lies above the full one at 1e5 and below it from 1e8 on; a hung sheet "
      "of 76 cm stands near 1e8, where the model's natural part may be 15 % low.";
  return c;
}

Check walls() {
  Check c = check_on("wall_coefficients.csv", "wall-coefficients",
                     "Convection at the inside surfaces of buildings", "air");
  c.quantity = "convective coefficient";
  c.unit = "W/(m2 K)";
  c.basis = Basis::formula;
  c.measure = Measure::factor;
  c.picture = Picture::rows;
  Series s{"building standard", {}};
  for (const auto& row : reference_table(c.files[0])) {
    auto facing = air::Facing::vertical;
    if (row.field[1] == "down") facing = air::Facing::down;
    if (row.field[1] == "up") facing = air::Facing::up;
    const auto face =
        air::face_of(facing, air::AirMovement::still, units::metres(2), units::metres(2));
    // Dry walls 3 K colder than the air: the standard states no difference.
    const double vapour = 0.5 * air::saturation_pressure_si(293.15);
    const air::Boundary b{293.15, vapour, 290.15, vapour, 101325};
    s.points.push_back(
        {.data = row.cell[2], .model = air::convection_si(face, b), .label = row.field[0]});
  }
  c.series = {s};
  c.model = "air::convection of a dry plate, 2 m square, 3 K colder than still air";
  c.miss =
      "a ceiling sheds colder air than a plate of 2 m does by its correlation; the standard's "
      "values are rounded for whole buildings.";
  return c;
}

Check window() {
  Check c = check_on("open_window.csv", "open-window",
                     "What an open window does to the transfer of moisture", "air");
  c.quantity = "transfer over that with the window shut";
  c.basis = Basis::measured;
  c.measure = Measure::factor;
  c.picture = Picture::rows;
  const auto coefficient = [](air::AirMovement air) {
    const auto face =
        air::face_of(air::Facing::vertical, air, units::metres(0.56), units::metres(0.76));
    const double vapour = 0.5 * air::saturation_pressure_si(293.15);
    const double wet = air::saturation_pressure_si(289.15);
    return air::convection_si(face, {293.15, vapour, 289.15, wet, 101325});
  };
  Series s{"measured", {}};
  for (const auto& row : reference_table(c.files[0])) {
    for (const auto& [word, air] : {std::pair{"taken as ordinary air", air::AirMovement::ordinary},
                                    {"taken as a fan", air::AirMovement::fan}}) {
      s.points.push_back({.data = row.cell[1],
                          .model = coefficient(air) / coefficient(air::AirMovement::still),
                          .label = row.field[0] + ": " + word});
    }
  }
  c.series = {s};
  c.model = "air::convection of a hung sheet, the named air over still air";
  c.notes = "No air speed is given, so the measured ratio only has to lie between the two.";
  return c;
}

}  // namespace

std::vector<Check> convection_checks() { return {correlations(), vertical(), walls(), window()}; }

}  // namespace dampline::validation
