#include <cmath>
#include <stdexcept>

#include <dampline/air/psychrometrics.hpp>
#include <dampline/units/text.hpp>

#include "validation/checks.hpp"
#include "validation/papers.hpp"

namespace dampline::validation {
namespace {

using tests::reference_table;
using units::celsius;
using units::in_celsius;
using units::in_si;
using units::pascal;

template <class Model>
Series over_first_column(const std::string& file, const std::string& name, Model model) {
  Series s{name, {}};
  for (const auto& row : reference_table(file)) {
    s.points.push_back({.x = row.cell[0], .data = row.cell[1], .model = model(row.cell[0])});
  }
  return s;
}

double saturation_at(double t) { return air::saturation_pressure_si(t + 273.15); }

// The curves lie on each other; what is worth seeing is how far apart, so the picture is of ratios.
Series saturation_ratio(const std::string& file, const std::string& name) {
  Series s{name, {}};
  s.joined = false;
  for (const auto& row : reference_table(file)) {
    s.points.push_back({.x = row.cell[0],
                        .data = 1,
                        .model = saturation_at(row.cell[0]) / row.cell[1],
                        .label = units::shortest(row.cell[1]) + " Pa"});
  }
  return s;
}

Check saturation(const std::string& file, const std::string& id, const std::string& what) {
  Check c = check_on(file, id, "Saturation pressure of water against " + what, "air");
  c.quantity = "saturation pressure over the data's";
  c.x_label = "temperature, degC";
  c.basis = Basis::formula;
  c.decimals = 5;
  c.series = {saturation_ratio(file, what)};
  c.model = "air::saturation_pressure";
  return c;
}

std::vector<Check> saturations() {
  auto handbook = saturation("saturation_pressure.csv", "saturation-handbook", "a handbook");
  handbook.own = 0.00015;
  handbook.own_why = "the handbook claims 0.03 % for its formula";
  auto formula =
      saturation("saturation_pressure_hyland.csv", "saturation-formula", "another formula");
  auto printed =
      saturation("saturation_pressure_printed.csv", "saturation-printed", "an older printed table");
  printed.miss =
      "from 40 degC the older table runs below both newer formulae. A damp sheet never "
      "gets there.";
  return {handbook, formula, printed};
}

struct Column {
  const char* id;
  const char* title;
  const char* quantity;
  const char* unit;
  std::size_t column;
  Measure measure;
  double allowed;
};

// [psychrolib] solves the same handbook equations.
Check against_program(const Column& what) {
  Check c = check_on("psychrolib_points.csv", what.id, what.title, "air");
  c.quantity = what.quantity;
  c.unit = what.unit;
  c.basis = Basis::program;
  c.measure = what.measure;
  c.allowed = what.allowed;
  c.decimals = what.measure == Measure::difference ? 3 : 6;
  c.picture = Picture::parity;
  Series s{"one state of the air", {}};
  for (const auto& row : reference_table(c.files[0])) {
    if (std::isnan(row.cell[what.column])) continue;
    const auto state = air::state_from(
        {.temperature = celsius(row.cell[0]), .humidity = units::RelativeHumidity(row.cell[1])},
        pascal(row.cell[2]));
    const double model[] = {in_celsius(state.wet_bulb), in_celsius(state.dew_point.value()),
                            state.humidity_ratio.parts_of_one(), in_si(state.density)};
    s.points.push_back({.x = row.cell[0],
                        .data = row.cell[what.column],
                        .model = model[what.column - 3],
                        .label = units::shortest(row.cell[0]) + " degC " +
                                 units::shortest(100 * row.cell[1]) + " % " +
                                 units::shortest(row.cell[2]) + " Pa"});
  }
  c.series = {s};
  c.model = "air::state_from";
  c.notes =
      "The other program solves the same handbook equations, so this tests the coding and "
      "not nature.";
  return c;
}

double example(const tests::ReferenceRow& row) {
  const auto& quantity = row.field[0];
  const auto t = celsius(row.cell[1]);
  const auto p = pascal(row.cell[3]);
  if (quantity.ends_with("at W 0.02")) {
    const double vapour = air::vapour_pressure_si(0.02, in_si(p));
    const double density = in_si(air::air_density(t, pascal(vapour), p));
    return quantity.starts_with("density") ? density : 1.02 / density;
  }
  const auto s = air::state_from({.temperature = t, .wet_bulb = celsius(row.cell[2])}, p);
  const double ratio = s.humidity_ratio.parts_of_one();
  if (quantity == "humidity ratio") return ratio;
  if (quantity == "dew point") return in_celsius(s.dew_point.value());
  if (quantity == "relative humidity") return s.humidity.parts_of_one();
  if (quantity == "volume") return (1 + ratio) / in_si(s.density);
  throw std::runtime_error("no such quantity: " + quantity);
}

// Quantities of different units on one axis: each over the published one.
Check examples() {
  Check c = check_on("moist_air_examples.csv", "moist-air-examples", "Worked examples of moist air",
                     "air");
  c.quantity = "model over published";
  c.basis = Basis::formula;
  c.rule = Rule::inside;
  c.allowed = 0;  // each row has its own
  c.decimals = 4;
  c.picture = Picture::rows;
  Series s{"published, and what its last digit allows", {}};
  for (const auto& row : reference_table(c.files[0])) {
    const double published = row.cell[4];
    const double room = row.cell[5] / published;
    s.points.push_back({.data = 1,
                        .data_low = 1 - room,
                        .data_high = 1 + room,
                        .model = example(row) / published,
                        .label = row.field[0] + " " + units::shortest(published)});
  }
  c.series = {s};
  c.model = "air::state_from, air::air_density";
  return c;
}

Check saturated_air() {
  Check c = check_on("saturation_humidity_ratio.csv", "saturated-humidity-ratio",
                     "Vapour in saturated air, against real air", "air");
  c.quantity = "humidity ratio";
  c.unit = "kg/kg";
  c.x_label = "temperature, degC";
  c.basis = Basis::formula;
  c.allowed = 0.001;  // what moist air is held to elsewhere; the table's own bound allows the miss
  c.decimals = 6;
  c.series = {over_first_column(c.files[0], "real gas", [](double t) {
    return air::humidity_ratio_si(saturation_at(t), 101325);
  })};
  c.model = "air::humidity_ratio at saturation; vapour and air as ideal gases";
  c.miss =
      "no enhancement factor: saturated air holds 0.3 to 0.6 % more than the model says. "
      "Twenty times smaller than what is not known of a room.";
  return c;
}

Check atmosphere() {
  Check c = check_on("standard_atmosphere.csv", "standard-atmosphere",
                     "Pressure of the standard atmosphere", "air");
  c.quantity = "pressure";
  c.unit = "Pa";
  c.x_label = "altitude, m";
  c.basis = Basis::formula;
  c.measure = Measure::difference;
  c.decimals = 0;
  c.series = {over_first_column(c.files[0], "handbook", air::standard_atmosphere_si)};
  c.model = "air::standard_atmosphere";
  return c;
}

Check latent() {
  Check c = check_on("latent_heat.csv", "latent-heat", "Latent heat of evaporation", "air");
  c.quantity = "latent heat";
  c.unit = "kJ/kg";
  c.x_label = "temperature, degC";
  c.basis = Basis::memory;
  c.decimals = 1;
  c.series = {over_first_column(c.files[0], "steam tables",
                                [](double t) { return air::latent_heat_si(t + 273.15) / 1000; })};
  c.model = "air::latent_heat";
  return c;
}

Check diffusivity() {
  Check c = check_on("vapour_diffusivity.csv", "vapour-in-air",
                     "Diffusivity of water vapour in air", "air");
  c.quantity = "diffusivity";
  c.unit = "mm2/s";
  c.x_label = "temperature, degC";
  c.basis = Basis::formula;
  c.decimals = 2;
  c.series = {over_first_column(c.files[0], "another formula", [](double t) {
    return 1e6 * air::vapour_diffusivity_si(t + 273.15, 101325);
  })};
  for (auto& p : c.series[0].points) p.data *= 1e6;
  c.model = "air::vapour_diffusivity";
  return c;
}

Check psychrometer() {
  Check c = check_on("psychrometer.csv", "psychrometer-coefficient",
                     "Coefficient of an aspirated psychrometer", "air");
  c.quantity = "coefficient";
  c.unit = "1e-4 per K";
  c.basis = Basis::formula;
  c.decimals = 3;
  c.picture = Picture::rows;
  const double air_kelvin = 293.15, total = 101325;
  const double vapour = 0.5 * air::saturation_pressure_si(air_kelvin);
  const double bulb = air::wet_bulb_si(air_kelvin, vapour, total);
  const double coefficient =
      1e4 * (air::saturation_pressure_si(bulb) - vapour) / (total * (air_kelvin - bulb));
  Series s{"published", {}};
  for (const auto& row : reference_table(c.files[0])) {
    s.points.push_back({.data = 1e4 * row.cell[1], .model = coefficient, .label = row.field[0]});
  }
  c.series = {s};
  c.model = "air::wet_bulb at 20 degC, 50 %";
  c.notes =
      "Bulbs that nothing blows on read 1.2 to 1.8 times as much [simet]: radiation warms "
      "them, as it does a hung sheet.";
  c.miss =
      "the thermodynamic wet bulb is what a bulb of Lewis number one would read; a real one "
      "stands slightly higher.";
  return c;
}

}  // namespace

std::vector<Check> air_checks() {
  auto all = saturations();
  all.push_back(examples());
  all.push_back(saturated_air());
  const Column columns[] = {
      {"wet-bulb", "Wet bulb", "wet bulb", "degC", 3, Measure::difference, 0.01},
      {"dew-point", "Dew point", "dew point", "degC", 4, Measure::difference, 0.01},
      {"humidity-ratio", "Humidity ratio", "humidity ratio", "kg/kg", 5, Measure::relative, 0.001},
      {"air-density", "Density of moist air", "density", "kg/m3", 6, Measure::relative, 0.001},
  };
  for (const auto& column : columns) all.push_back(against_program(column));
  for (const auto& make : {atmosphere, latent, diffusivity, psychrometer}) all.push_back(make());
  return all;
}

}  // namespace dampline::validation
