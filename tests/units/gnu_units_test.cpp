#include <cmath>
#include <limits>

#include <gtest/gtest.h>

#include <dampline/units/parse.hpp>

#include "support/reference_table.hpp"

namespace dampline::units {
namespace {

constexpr double none = std::numeric_limits<double>::quiet_NaN();

template <class Quantity>
double si(const Parsed<Quantity>& parsed) {
  const auto* quantity = std::get_if<Quantity>(&parsed);
  return quantity == nullptr ? none : in_si(*quantity);
}

double side(std::string_view text, Length Size::*which) {
  const auto parsed = parse_size(text);
  const auto* size = std::get_if<Size>(&parsed);
  return size == nullptr ? none : in_si(size->*which);
}

double read(const std::string& kind, const std::string& text) {
  if (kind == "grammage") return si(parse_grammage(text));
  if (kind == "length") return si(parse_length(text));
  if (kind == "width") return side(text, &Size::width);
  if (kind == "height") return side(text, &Size::height);
  if (kind == "sheet_area") return side(text, &Size::width) * side(text, &Size::height);
  if (kind == "duration") return si(parse_duration(text));
  if (kind == "temperature") return si(parse_temperature(text));
  if (kind == "mass") return si(parse_mass(text));
  if (kind == "pressure") return si(parse_pressure(text));
  if (kind == "density") return si(parse_density(text));
  if (kind == "velocity") return si(parse_velocity(text));
  if (kind == "diffusivity") return si(parse_diffusivity(text));
  if (kind == "flux") return si(parse_flux(text));
  if (kind == "area") return si(parse_area(text));
  return none;
}

// Another program's conversions; tests/units/gnu_units.sh writes the table, and the test
// units.gnu_units_table_is_current holds the two equal.
TEST(Conversions, agreeWithGnuUnits) {
  const auto table = tests::reference_table("gnu_units.csv");
  const auto si_column = table.column("si");
  const auto allowed_column = table.column("allowed");
  for (const auto& row : table) {
    SCOPED_TRACE("gnu_units.csv line " + std::to_string(row.line) + ": " + row.field[1]);
    const double expected = row.cell[si_column];
    const double got = read(row.field[0], row.field[1]);
    ASSERT_FALSE(std::isnan(got)) << "not read";
    EXPECT_NEAR(got, expected, row.cell[allowed_column] * std::abs(expected));
  }
}

}  // namespace
}  // namespace dampline::units
