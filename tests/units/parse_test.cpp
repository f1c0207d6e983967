#include <gtest/gtest.h>

#include <dampline/units/parse.hpp>
#include <dampline/units/text.hpp>

#include "support/reference_table.hpp"

namespace dampline::units {
namespace {

template <class Q>
Q value(const Parsed<Q>& p) {
  EXPECT_TRUE(ok(p)) << (ok(p) ? "" : std::get<Refusal>(p).what);
  return ok(p) ? std::get<Q>(p) : Q{};
}

template <class Q>
Refusal refusal(const Parsed<Q>& p) {
  EXPECT_FALSE(ok(p));
  return ok(p) ? Refusal{} : std::get<Refusal>(p);
}

double gsm(std::string_view text) { return in_grams_per_m2(value(parse_grammage(text))); }

TEST(Grammage, readsMetricForms) {
  EXPECT_DOUBLE_EQ(gsm("300 g/m2"), 300);
  EXPECT_DOUBLE_EQ(gsm("300gsm"), 300);
  EXPECT_DOUBLE_EQ(gsm(" 0.3 kg/m2 "), 300);
  EXPECT_DOUBLE_EQ(gsm("250 g/m\u00b2"), 250);
}

// Basis-weight factors, as printed in trade tables and by GNU units.
TEST(Grammage, agreesWithPrintedBasisWeights) {
  for (const auto& row : tests::reference_table("basis_weights.csv")) {
    SCOPED_TRACE(row.line);
    EXPECT_NEAR(gsm(row.field[0]), row.cell[1], row.cell[2]);
  }
}

TEST(Grammage, refusesABarePoundAndShowsTheReadings) {
  for (const char* text : {"90 lb", "90lb", "90 lb cover", "140 #"}) {
    const auto r = refusal(parse_grammage(text));
    EXPECT_NE(r.what.find("basis size"), std::string::npos) << text;
    EXPECT_NE(r.help.find("133 g/m2"), std::string::npos);
    EXPECT_NE(r.help.find("243 g/m2"), std::string::npos);
  }
}

TEST(Grammage, theReadingsInTheHelpAreTrue) {
  EXPECT_EQ(fixed(gsm("90 lb text 25x38 in"), 0), "133");
  EXPECT_EQ(fixed(gsm("90 lb cover 20x26 in"), 0), "243");
}

TEST(Grammage, refusesBareNegativeAndUnknown) {
  EXPECT_NE(refusal(parse_grammage("300")).what.find("bare number"), std::string::npos);
  EXPECT_NE(refusal(parse_grammage("-300 g/m2")).what.find("negative"), std::string::npos);
  const auto r = refusal(parse_grammage("300 gsmm"));
  EXPECT_NE(r.what.find("gsmm"), std::string::npos);
  EXPECT_EQ(r.column, 4U);
  EXPECT_FALSE(ok(parse_grammage("0 g/m2")));
  EXPECT_FALSE(ok(parse_grammage("nan g/m2")));
  EXPECT_FALSE(ok(parse_grammage("inf g/m2")));
  EXPECT_FALSE(ok(parse_grammage("1e300 g/m2")));
  EXPECT_FALSE(ok(parse_grammage("")));
  EXPECT_NE(refusal(parse_grammage("1,5 g/m2")).what.find("comma"), std::string::npos);
}

TEST(Lengths, readsMetricAndImperial) {
  EXPECT_DOUBLE_EQ(in_millimetres(value(parse_length("22 in"))), 558.8);
  EXPECT_DOUBLE_EQ(in_millimetres(value(parse_length("450 um"))), 0.45);
  EXPECT_DOUBLE_EQ(in_millimetres(value(parse_length("0.45mm"))), 0.45);
  EXPECT_DOUBLE_EQ(in_centimetres(value(parse_length("2 ft"))), 60.96);
  EXPECT_FALSE(ok(parse_length("-3 cm")));
  EXPECT_FALSE(ok(parse_length("3 furlongs")));
}

TEST(Sizes, readsOneOrTwoUnits) {
  const auto half = value(parse_size("38 x 56 cm"));
  EXPECT_DOUBLE_EQ(in_centimetres(half.width), 38);
  EXPECT_DOUBLE_EQ(in_centimetres(half.height), 56);
  const auto mixed = value(parse_size("22in x 30 in"));
  EXPECT_DOUBLE_EQ(in_millimetres(mixed.width), 558.8);
  const auto cross = value(parse_size("20\u00d730 cm"));
  EXPECT_DOUBLE_EQ(in_centimetres(cross.height), 30);
  EXPECT_FALSE(ok(parse_size("38 cm")));
  EXPECT_FALSE(ok(parse_size("38 x 56")));
  EXPECT_FALSE(ok(parse_size("0 x 56 cm")));
  EXPECT_FALSE(ok(parse_size("38 x -5 cm")));
}

TEST(Sizes, agreeWithIso216) {
  for (const auto& row : tests::reference_table("iso216.csv")) {
    SCOPED_TRACE(row.field[0]);
    const auto size = value(parse_size(row.field[0]));
    EXPECT_NEAR(in_millimetres(size.width), row.cell[1], 1e-9);
    EXPECT_NEAR(in_millimetres(size.height), row.cell[2], 1e-9);
  }
}

TEST(Durations, addTheirParts) {
  EXPECT_DOUBLE_EQ(in_si(value(parse_duration("35 min"))), 2100);
  EXPECT_DOUBLE_EQ(in_si(value(parse_duration("1 h 30 min"))), 5400);
  EXPECT_DOUBLE_EQ(in_si(value(parse_duration("90s"))), 90);
  EXPECT_DOUBLE_EQ(in_si(value(parse_duration("3 days"))), 259200);
  EXPECT_FALSE(ok(parse_duration("35")));
  EXPECT_FALSE(ok(parse_duration("-5 min")));
  EXPECT_FALSE(ok(parse_duration("5 fortnights")));
  EXPECT_FALSE(ok(parse_duration("1 h 30")));
}

TEST(Temperatures, areAbsolute) {
  EXPECT_NEAR(in_si(value(parse_temperature("20 degC"))), 293.15, 1e-9);
  EXPECT_NEAR(in_celsius(value(parse_temperature("64 degF"))), 17.7777778, 1e-6);
  EXPECT_NEAR(in_celsius(value(parse_temperature("-5 \u00b0C"))), -5, 1e-9);
  EXPECT_NEAR(in_celsius(value(parse_temperature("290 K"))), 16.85, 1e-9);
  EXPECT_FALSE(ok(parse_temperature("20")));
  EXPECT_FALSE(ok(parse_temperature("-300 degC")));
}

TEST(Humidities, stayBetweenNothingAndSaturation) {
  EXPECT_DOUBLE_EQ(value(parse_humidity("52 %")).parts_of_one(), 0.52);
  EXPECT_NE(refusal(parse_humidity("140 %")).what.find("140"), std::string::npos);
  EXPECT_FALSE(ok(parse_humidity("-1 %")));
  EXPECT_FALSE(ok(parse_humidity("0.5")));
}

TEST(OtherQuantities, readTheirUnits) {
  EXPECT_NEAR(in_grams(value(parse_mass("2 oz"))), 56.699, 1e-3);
  EXPECT_DOUBLE_EQ(in_si(value(parse_pressure("1013.25 hPa"))), 101325);
  EXPECT_DOUBLE_EQ(value(parse_moisture("60 %")).parts_of_one(), 0.6);
  EXPECT_DOUBLE_EQ(value(parse_moisture("0.6 g/g")).parts_of_one(), 0.6);
  EXPECT_DOUBLE_EQ(value(parse_strain("-0.33 %")).percent(), -0.33);
  EXPECT_DOUBLE_EQ(in_si(value(parse_density("0.55 g/cm3"))), 550);
  EXPECT_DOUBLE_EQ(in_si(value(parse_velocity("36 km/h"))), 10);
  EXPECT_DOUBLE_EQ(in_si(value(parse_diffusivity("1.1e-6 m2/s"))), 1.1e-6);
  EXPECT_NEAR(in_si(value(parse_flux("36 g/m2h"))), 1e-5, 1e-15);
  EXPECT_DOUBLE_EQ(in_si(value(parse_area("85 cm2"))), 0.0085);
}

TEST(Refusals, alwaysSayWhatToDo) {
  for (const char* text : {"", " ", "x", "3", "3 zz", "1e999 g/m2", "-", "+", "\xff\xfe"}) {
    SCOPED_TRACE(text);
    EXPECT_FALSE(refusal(parse_grammage(text)).help.empty());
    EXPECT_FALSE(refusal(parse_duration(text)).help.empty());
    EXPECT_FALSE(refusal(parse_temperature(text)).help.empty());
    EXPECT_FALSE(refusal(parse_size(text)).help.empty());
  }
}

}  // namespace
}  // namespace dampline::units
