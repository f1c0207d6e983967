#include <gtest/gtest.h>

#include <dampline/material/catalogue.hpp>
#include <dampline/stack/cobb.hpp>

#include "support/reference_table.hpp"

namespace dampline::stack {
namespace {

using units::in_grams_per_m2;

const material::Catalogue& catalogue() {
  static const auto read = material::read_catalogue(
      dampline::tests::repository_file("data/stocks.toml"), "data/stocks.toml");
  return std::get<material::Catalogue>(read);
}

TEST(Cobb, everySizedStockTakesUpItsCobbValueInAMinute) {
  int sized = 0;
  for (const material::Stock& stock : catalogue().stocks) {
    if (stock.sizing == material::Sizing::waterleaf) continue;
    SCOPED_TRACE(stock.name);
    const material::Porous sheet = resolve_to_cobb(stock);
    const double stated = in_grams_per_m2(stock.cobb60.value);
    const double got = in_grams_per_m2(one_sided_uptake(sheet, units::seconds(60)));
    EXPECT_NEAR(got, stated, 0.02 * stated);
    ++sized;
  }
  EXPECT_GT(sized, 5);
}

// Cobb300/Cobb60 1.9-2.3 and Cobb1800/Cobb60 4-5.5 until the sheet is full: from memory.
TEST(Cobb, growsAboutAsTheRootOfTime) {
  material::Stock board;
  board.sizing = material::Sizing::internal;
  board.grammage.value = units::grams_per_m2(800);
  board.thickness.value = units::millimetres(1.4);
  board.cobb60.value = units::grams_per_m2(32);
  board.accessible.value = units::Moisture(0.8);
  board.isotherm_scale.value = 1;
  board.pore_ratio.value = 3;
  board.vapour.value = units::m2_per_s(5e-7);
  const material::Porous sheet = resolve_to_cobb(board);
  const auto at = [&](double seconds) {
    return in_grams_per_m2(one_sided_uptake(sheet, units::seconds(seconds)));
  };
  const double minute = at(60);
  EXPECT_GT(at(300) / minute, 1.9);
  EXPECT_LT(at(300) / minute, 2.3);
  EXPECT_GT(at(1800) / minute, 4.0);
  EXPECT_LT(at(1800) / minute, 5.5);
}

TEST(Cobb, waterleafFillsInSeconds) {
  for (const material::Stock& stock : catalogue().stocks) {
    if (stock.sizing != material::Sizing::waterleaf) continue;
    SCOPED_TRACE(stock.name);
    const material::Porous sheet = resolve_to_cobb(stock);
    const double capacity = (sheet.saturation - 0.055) * sheet.dry;
    const double got = units::in_si(one_sided_uptake(sheet, units::seconds(60)));
    EXPECT_GT(got, 0.9 * capacity);
  }
}

}  // namespace
}  // namespace dampline::stack
