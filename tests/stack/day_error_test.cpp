#include <cmath>

#include <gtest/gtest.h>

#include <dampline/material/catalogue.hpp>
#include <dampline/stack/lanes.hpp>

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

// Side by side the lanes share their steps and may take turns at being the worst: each of them is
// held to the same error all the same, strange neighbours or not.
TEST(Day, everyLaneKeepsItsMeansToTheStatedError) {
  const auto read = material::read_catalogue(dampline::tests::repository_file("data/stocks.toml"),
                                             "data/stocks.toml");
  std::vector<material::Porous> sheets;
  for (const material::Stock& stock : std::get<material::Catalogue>(read).stocks) {
    material::Porous sheet = resolve_to_cobb(stock);
    if (sheet.dry >= light_sheet) sheets.push_back(std::move(sheet));
  }
  std::vector<tests::DaySheet> days;
  std::vector<std::vector<double>> exact;
  for (std::size_t i = 0; i < 3 * sheets.size(); ++i) {
    tests::DaySheet s = tests::day_sheet(sheets[i % sheets.size()]);
    s.climate.humidity = units::RelativeHumidity(0.3 + 0.1 * static_cast<double>(i % 5));
    s.air_scale = 0.6 + 0.15 * static_cast<double>(i % 7);
    s.contact_scale = 0.5 + 0.3 * static_cast<double>(i % 4);
    tests::DaySheet reference = s;
    days.push_back(std::move(s));
    exact.push_back(tests::through_day(reference, step_error / 1000));
  }
  for (std::size_t stage = 0; stage < tests::day_stages; ++stage) {
    std::vector<tests::DayStack> begun;
    std::vector<Stack> stacks;
    for (tests::DaySheet& s : days) {
      begun.push_back(tests::begin(static_cast<tests::DayStage>(stage), s));
      stacks.push_back(std::move(begun.back().stack));
    }
    advance_lanes(stacks, tests::day_seconds[stage], {.moisture = step_error});
    for (std::size_t i = 0; i < days.size(); ++i) {
      begun[i].stack = std::move(stacks[i]);
      tests::end(begun[i], days[i]);
      EXPECT_NEAR(tests::mean(days[i]), exact[i][stage], allowed)
          << "stage " << stage << ", sheet " << i;
    }
  }
}

}  // namespace
}  // namespace dampline::stack
