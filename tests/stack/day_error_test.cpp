#include <cmath>

#include <gtest/gtest.h>

#include <dampline/material/catalogue.hpp>

#include "stack/sheet_day.hpp"
#include "support/reference_table.hpp"

// The speed table's day, held to the error it is timed at: no speed is bought with accuracy.
namespace dampline::stack {
namespace {

constexpr double step_error = 1e-4;    // what method::run asks for
constexpr double light_sheet = 0.070;  // kg/m2 dry: below it a fifth of that, as method::run does
constexpr double allowed = 1e-4;       // g/g on the mean, after every stage

TEST(Day, everyStockKeepsItsMeansToTheStatedError) {
  const auto read = material::read_catalogue(dampline::tests::repository_file("data/stocks.toml"),
                                             "data/stocks.toml");
  int soaked = 0;
  for (const material::Stock& stock : std::get<material::Catalogue>(read).stocks) {
    SCOPED_TRACE(stock.name);
    const material::Porous sheet = resolve_to_cobb(stock);
    const double tolerance = step_error * (sheet.dry < light_sheet ? 0.2 : 1);
    tests::DaySheet s = tests::day_sheet(sheet);
    tests::DaySheet reference = tests::day_sheet(sheet);
    const auto means = tests::through_day(s, tolerance);
    const auto exact = tests::through_day(reference, tolerance / 1000);
    for (std::size_t i = 0; i < means.size(); ++i) {
      EXPECT_NEAR(means[i], exact[i], allowed) << "stage " << i;
    }
    ++soaked;
  }
  EXPECT_GT(soaked, 20);
}

}  // namespace
}  // namespace dampline::stack
