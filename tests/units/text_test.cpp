#include <cmath>

#include <gtest/gtest.h>

#include <dampline/units/out_of_range.hpp>
#include <dampline/units/text.hpp>

namespace dampline::units {
namespace {

TEST(Numbers, keepTheDigitsAskedFor) {
  EXPECT_EQ(fixed(1.25, 1), "1.2");
  EXPECT_EQ(fixed(-0.04, 1), "0.0");
  EXPECT_EQ(shortest(300), "300");
  EXPECT_EQ(shortest(0.1 + 0.2), "0.3");
  EXPECT_EQ(shortest(123456.7), "123457");
  EXPECT_EQ(shortest(1e-7), "1e-07");
  EXPECT_EQ(exact(0.1), "0.1");
  EXPECT_EQ(exact(std::nan("")), "null");
}

TEST(Quantities, arePrintedInTheUnitOfTheTrade) {
  EXPECT_EQ(text(grams_per_m2(300)), "300 g/m2");
  EXPECT_EQ(text(millimetres(0.45)), "0.45 mm");
  EXPECT_EQ(text(centimetres(38)), "38 cm");
  EXPECT_EQ(text(minutes(35)), "35 min");
  EXPECT_EQ(text(hours(2.25)), "2 h 15 min");
  EXPECT_EQ(text(celsius(17)), "17 degC");
  EXPECT_EQ(text(grams(64)), "64 g");
  EXPECT_EQ(text(RelativeHumidity(0.52)), "52 %");
  EXPECT_EQ(text(Moisture(0.618)), "0.62 g/g");
  EXPECT_EQ(text(Strain(0.0085)), "0.85 %");
}

TEST(OutOfRange, saysTheWholeSentence) {
  const OutOfRange e("water temperature", 99, 0, 60, "degC");
  EXPECT_STREQ(e.what(), "water temperature is 99 degC; known from 0 to 60 degC");
}

// Quantities that mean different things must not mix.
static_assert(!std::is_convertible_v<double, Moisture>);
static_assert(!std::is_convertible_v<Moisture, Strain>);
static_assert(!std::is_convertible_v<Length, Duration>);
static_assert(!std::is_convertible_v<TemperatureStep, Temperature>);

}  // namespace
}  // namespace dampline::units
