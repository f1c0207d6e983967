#include <cmath>
#include <cstdlib>

#include "run_program.hpp"

namespace dampline::cli {
namespace {

using ::testing::HasSubstr;
using tests::run_program;

// The number behind "key": in a JSON text; NaN when it is not there or null.
double number(const std::string& json, const std::string& key) {
  const auto at = json.find("\"" + key + "\": ");
  if (at == std::string::npos) return std::nan("");
  const char* begin = json.c_str() + at + key.size() + 4;
  char* end = nullptr;
  const double value = std::strtod(begin, &end);
  return end == begin ? std::nan("") : value;
}

// 20 degC, 50 %: wet bulb 13.78, dew point 9.27 degC, W 0.00726, 1.199 kg/m3 [psychrolib]; a wet
// sheet hung in ordinary air loses 93 g/m2h (tests/reference/wet_sheet_climates.csv).
TEST(AirCommand, answersInJsonFromAnyTwoReadings) {
  const std::vector<std::vector<std::string>> readings{
      {"--temperature", "20 degC", "--humidity", "50 %"},
      {"--temperature", "68 degF", "--wet-bulb", "13.7834 C"},
      {"--temperature", "20 degC", "--dew-point", "9.2724 degC"},
      {"--humidity", "50 %", "--wet-bulb", "13.7834 degC"},
      {"--humidity", "50 %", "--dew-point", "9.2724 degC"},
      {"--wet-bulb", "13.7834 degC", "--dew-point", "9.2724 degC"}};
  for (auto words : readings) {
    words.insert(words.begin(), "air");
    words.insert(words.end(), {"--json", "-"});
    SCOPED_TRACE(words[1] + " " + words[3]);
    const auto r = run_program(words);
    EXPECT_EQ(r.status, 0) << r.err;
    EXPECT_NEAR(number(r.out, "temperature_c"), 20, 0.02);
    EXPECT_NEAR(number(r.out, "humidity_percent"), 50, 0.1);
    EXPECT_NEAR(number(r.out, "wet_bulb_c"), 13.7834, 0.01);
    EXPECT_NEAR(number(r.out, "dew_point_c"), 9.2724, 0.01);
    EXPECT_NEAR(number(r.out, "vapour_pressure_pa"), 1169.4, 2);
    EXPECT_NEAR(number(r.out, "saturation_pressure_pa"), 2338.8, 3);
    EXPECT_NEAR(number(r.out, "humidity_ratio"), 0.0072617, 1e-5);
    EXPECT_NEAR(number(r.out, "density_kg_m3"), 1.1989, 0.001);
    EXPECT_NEAR(number(r.out, "evaporation_g_m2_h"), 93, 5);
  }
}

TEST(AirCommand, pressureAndAltitudeSayTheSame) {
  const auto high =
      run_program({"air", "-t", "20 degC", "-u", "35 %", "--altitude", "2240 m", "--json"});
  const auto low =
      run_program({"air", "-t", "20 degC", "-u", "35 %", "--pressure", "771.55 hPa", "--json"});
  EXPECT_NEAR(number(high.out, "pressure_pa"), 77155, 1);
  EXPECT_NEAR(number(high.out, "evaporation_g_m2_h"), number(low.out, "evaporation_g_m2_h"), 0.01);
  EXPECT_NEAR(number(high.out, "evaporation_g_m2_h"), 134, 7);
}

TEST(AirCommand, textNamesEveryQuantityAndTheDoubt) {
  const auto r = run_program({"air", "-t", "20 degC", "-u", "50 %", "--air", "still"});
  EXPECT_EQ(r.status, 0) << r.err;
  EXPECT_THAT(r.out, HasSubstr("wet bulb              13.8 degC"));
  EXPECT_THAT(r.out, HasSubstr("73 g/m2h from a wet sheet hung in still air (+-25 %)"));
}

TEST(AirCommand, refusesOneReadingThreeAndBothPressures) {
  auto r = run_program({"air", "-t", "20 degC"});
  EXPECT_EQ(r.status, 2);
  EXPECT_EQ(r.out, "");
  EXPECT_THAT(r.err, HasSubstr("1 reading of the air; two are needed"));
  EXPECT_THAT(r.err, HasSubstr("help: give two of"));
  r = run_program({"air", "-t", "20 degC", "-u", "50 %", "--dew-point", "9 degC"});
  EXPECT_EQ(r.status, 2);
  r = run_program(
      {"air", "-t", "20 degC", "-u", "50 %", "--pressure", "1000 hPa", "--altitude", "100 m"});
  EXPECT_EQ(r.status, 2);
}

TEST(AirCommand, refusesReadingsThatContradictEachOther) {
  const auto r = run_program({"air", "-t", "20 degC", "--wet-bulb", "25 degC"});
  EXPECT_EQ(r.status, 65);
  EXPECT_EQ(r.out, "");
  EXPECT_THAT(r.err, HasSubstr("wet bulb is 25 degC"));
}

TEST(AirCommand, aColdRoomHasNoDryingPowerButAState) {
  const auto r = run_program({"air", "-t", "-5 degC", "-u", "50 %", "--json"});
  EXPECT_EQ(r.status, 0) << r.err;
  EXPECT_THAT(r.out, HasSubstr("\"evaporation_g_m2_h\": null"));
}

}  // namespace
}  // namespace dampline::cli
