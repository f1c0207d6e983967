#include <dampline/air/psychrometrics.hpp>
#include <dampline/material/transport.hpp>
#include <dampline/stack/stack.hpp>

#include "stack/linear_sheet.hpp"
#include "validation/checks.hpp"
#include "validation/papers.hpp"

namespace dampline::validation {
namespace {

using stack::FaceKind;

constexpr double kelvin = 296.15, diffusivity = 1e-10, half = 2.5e-4, dry = 0.3;

stack::Stack sheet(const material::Porous& p, int cells, double moisture) {
  stack::Stack s;
  const auto share = stack::graded_cells(cells, 0.16 / cells, stack::Graded::both);
  s.layers = {
      {&p, material::Branch::desorption, std::vector<double>(share.size(), moisture), share}};
  s.films = {{}, {}};
  s.kelvin = kelvin;
  s.fixed_temperature = true;
  return s;
}

material::Porous constant() {
  return stack::tests::linear_sheet(diffusivity / material::liquid_factor_si(kelvin), dry,
                                    2 * half);
}

Check base(const std::string& file, const std::string& id, const std::string& title) {
  Check c = check_on(file, id, title, "stack");
  c.quantity = "share of the final change";
  c.x_label = "time, D t / (half thickness)^2";
  c.basis = Basis::exact;
  c.measure = Measure::difference;
  c.decimals = 4;
  c.log_x = true;
  c.model = "stack::advance, a sheet of constant diffusivity, ";
  return c;
}

Check plane_sheet(int cells, double tolerance) {
  const bool usual = cells == 24;
  Check c = base(
      "plane_sheet.csv", usual ? "plane-sheet-usual" : "plane-sheet",
      usual ? "Uptake of a plane sheet, as coarse as plans are made" : "Uptake of a plane sheet");
  c.model += std::to_string(cells) + " cells";
  Series s{"series solution", {}};
  const auto p = constant();
  for (const auto& row : tests::reference_table(c.files[0])) {
    auto st = sheet(p, cells, 0);
    st.left.kind = st.right.kind = FaceKind::water;
    stack::advance(st, row.cell[0] * half * half / diffusivity, {.moisture = tolerance});
    s.points.push_back({.x = row.cell[0], .data = row.cell[1], .model = stack::water(st) / dry});
  }
  if (usual) {
    c.allowed = 0.005;
    c.notes = "Held to half a per cent of the final uptake instead of the table's 0.002.";
  }
  c.series = {s};
  return c;
}

// A face to dry air that carries vapour off in proportion to the surface's moisture.
stack::Face straight_face(double per_moisture) {
  stack::Face f;
  f.kind = FaceKind::air;
  const double saturated = air::saturation_pressure_si(kelvin) / (461.5 * kelvin);
  f.air = stack::cover_side({units::kelvin(kelvin), units::RelativeHumidity(0)},
                            per_moisture / saturated);
  f.air.vapour_pa = 0;
  f.air.total_pa = 1e12;  // no flow of the vapour's own
  return f;
}

Check surface_evaporation() {
  Check c = base("surface_evaporation.csv", "surface-evaporation",
                 "Drying of a plane sheet from its surfaces");
  c.model += "80 cells";
  const auto p = constant();
  for (const auto& row : tests::reference_table(c.files[0])) {
    const auto name = "Biot " + row.field[0];
    if (c.series.empty() || c.series.back().name != name) c.series.push_back({name, {}});
    auto st = sheet(p, 80, 0.9);
    st.left = st.right = straight_face(row.cell[0] * dry / (2 * half) * diffusivity / half);
    stack::advance(st, row.cell[1] * half * half / diffusivity, {.moisture = 1e-6});
    c.series.back().points.push_back(
        {.x = row.cell[1], .data = row.cell[2], .model = 1 - stack::water(st) / (dry * 0.9)});
  }
  return c;
}

}  // namespace

std::vector<Check> diffusion_checks() {
  return {plane_sheet(80, 1e-6), plane_sheet(24, 2e-5), surface_evaporation()};
}

}  // namespace dampline::validation
