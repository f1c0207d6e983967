#include <fstream>
#include <sstream>

#include <nlohmann/json.hpp>

#include "run_program.hpp"
#include "support/source_tree.hpp"

namespace dampline::tests {
namespace {

using json = nlohmann::json;
using testing::HasSubstr;

std::string demo() { return in_source_tree("data/sessions/salt-marsh.toml"); }

std::string demo_text() {
  std::ifstream in(demo());
  std::ostringstream text;
  text << in.rdbuf();
  return text.str();
}

std::string with(std::string text, const std::string& from, const std::string& to) {
  const auto at = text.find(from);
  EXPECT_NE(at, std::string::npos) << from;
  return text.replace(at, from.size(), to);
}

json answer(const std::vector<std::string>& more, const std::string& session = demo_text()) {
  std::vector<std::string> words{"size", "-", "--json", "-", "--samples", "16"};
  words.insert(words.end(), more.begin(), more.end());
  const auto o = run_program(words, session);
  EXPECT_EQ(o.status, 0) << o.err;
  return o.status == 0 ? json::parse(o.out) : json();
}

const json& strategy(const json& a, const std::string& name) {
  for (const auto& s : a.at("strategies")) {
    if (s.at("strategy") == name) return s;
  }
  throw std::runtime_error("no strategy " + name);
}

TEST(SizeCommand, tellsGrowthMisfitWaitAndMoisturePerStrategyAndPull) {
  const auto a = answer({});
  EXPECT_EQ(a.at("format"), "dampline-size");
  EXPECT_EQ(a.at("version"), 1);
  ASSERT_EQ(a.at("strategies").size(), 4U);
  for (const auto& s : a.at("strategies")) {
    ASSERT_EQ(s.at("pulls").size(), 2U);
    const auto& first = s.at("pulls")[0];
    EXPECT_GT(first.at("growth_percent").at("across"), first.at("growth_percent").at("along"));
    EXPECT_TRUE(first.at("misfit_mm").is_null());
    const auto& later = s.at("pulls")[1];
    EXPECT_EQ(later.at("misfit_mm").at("corners").size(), 4U);
    EXPECT_GE(later.at("misfit_mm").at("chance_within"), 0);
    if (s.at("strategy") == "released") {
      const auto& wait = later.at("allowed_wait");
      EXPECT_GT(wait.at("bench").at("minutes"), 0);
      EXPECT_TRUE(wait.at("covered").at("minutes").is_null() ||
                  wait.at("covered").at("minutes") > wait.at("bench").at("minutes"));
      const auto& moisture = later.at("allowed_moisture");
      // Grams on this sheet are points of its dry weight.
      EXPECT_NEAR(
          moisture.at("lighter_g").get<double>(),
          moisture.at("drier_points").get<double>() / 100 * a.at("sheet_dry_g").get<double>(),
          1e-9);
    }
  }
}

TEST(SizeCommand, sheetWeighsItsGrammageDry) {
  // 300 g/m2 on 38 x 56 cm is 63.8 g as sold, some 6 % of it water.
  EXPECT_NEAR(answer({}).at("sheet_dry_g").get<double>(), 63.84 / 1.065, 1);
}

TEST(SizeCommand, marksTakeThePlaceOfTheClass) {
  const auto by_class = answer({});
  const auto measured = answer({"--across", "dry 300 mm, damp 308 mm, dried 298 mm", "--along",
                                "dry 500 mm, damp 503 mm, dried 499 mm"});
  EXPECT_TRUE(by_class.at("marks").at("across").is_null());
  EXPECT_GT(measured.at("marks").at("across").at("growth_percent"), 2.5);
  const auto& growth = strategy(measured, "released").at("pulls")[0];
  EXPECT_NEAR(growth.at("growth_percent").at("across").get<double>(), 100 * 8.0 / 300, 0.1);
  const auto width = [](const json& a) {
    const auto& p = strategy(a, "released").at("pulls")[0];
    return p.at("growth_high_percent").at("across").get<double>() -
           p.at("growth_low_percent").at("across").get<double>();
  };
  EXPECT_LT(width(measured), 0.5 * width(by_class));
}

TEST(SizeCommand, marksThatCannotBeAreRefused) {
  const auto o = run_program({"size", demo(), "--across", "dry 300 mm"});
  EXPECT_EQ(o.status, 2);
  EXPECT_THAT(o.err, HasSubstr("help"));
}

TEST(SizeCommand, unknownGrainShowsBothWays) {
  const auto session = with(demo_text(), "grain  = \"long\" ", "grain  = \"unknown\" ");
  const auto a = answer({}, session);
  EXPECT_EQ(a.at("grain"), "unknown");
  EXPECT_EQ(a.at("strategies_other_grain").size(), 4U);
  EXPECT_NE(a.at("grain_shown"), a.at("grain_other"));
  const auto o = run_program({"size", "-", "--samples", "8"}, session);
  EXPECT_THAT(o.out, HasSubstr("Tear a strip"));
}

TEST(SizeCommand, onePlateIsAnsweredToo) {
  const auto o =
      run_program({"size", in_source_tree("data/sessions/heron-drypoint.toml"), "--samples", "8"});
  EXPECT_EQ(o.status, 0) << o.err;
  EXPECT_THAT(o.out, HasSubstr("on the dried print"));
  EXPECT_EQ(run_program({"size", in_source_tree("data/sessions/heron-drypoint.toml"), "--samples",
                         "8", "--svg", "-"})
                .status,
            1);
}

TEST(SizeCommand, writesAMap) {
  const auto o = run_program({"size", demo(), "--samples", "8", "--svg", "-"});
  EXPECT_EQ(o.status, 0) << o.err;
  EXPECT_TRUE(o.out.starts_with("<svg"));
}

TEST(SizeCommand, tissueIsCutSmallerThanThePlate) {
  const auto a = answer({"--tissue", "gampi, 20 g/m2"});
  ASSERT_EQ(a.at("tissues").size(), 1U);
  EXPECT_LT(a.at("tissues")[0].at("cut_mm").at("long"), 300);
}

TEST(SizeCommand, pageKeepsToItsColumnsAndToAscii) {
  for (const auto* file : {"salt-marsh", "saturday-class", "reed-bed-relief"}) {
    std::istringstream in;
    std::ostringstream out;
    std::ostringstream err;
    const std::vector<std::string> words = {
        "size", in_source_tree("data/sessions/" + std::string(file) + ".toml"), "--samples", "8"};
    ASSERT_EQ(cli::run(words, {.in = in, .out = out, .err = err, .columns = 80, .utf8 = false}), 0)
        << err.str();
    std::istringstream lines(out.str());
    for (std::string line; std::getline(lines, line);) {
      EXPECT_LE(line.size(), 80U) << line;
      for (const char c : line) EXPECT_TRUE(c >= ' ' && c < 127) << line;
    }
  }
}

// One register case for both; the waits of a plan's sheets differ from the expected sheet's a
// little.
TEST(SizeCommand, agreesWithThePlan) {
  const auto o = run_program({"plan", "-", "--json", "-", "--samples", "64"}, demo_text());
  ASSERT_EQ(o.status, 0) << o.err;
  const auto plan = json::parse(o.out);
  const auto sized =
      json::parse(run_program({"size", "-", "--json", "-", "--samples", "64"}, demo_text()).out);
  const auto& later = strategy(sized, "held").at("pulls")[1];
  int compared = 0;
  for (const auto& pull : plan.at("pulls")) {
    if (pull.at("misfit_mm").is_null()) continue;
    ++compared;
    EXPECT_NEAR(pull.at("misfit_mm").at("worst").get<double>(),
                later.at("misfit_mm").at("worst").get<double>(), 0.02);
    EXPECT_NEAR(pull.at("misfit_mm").at("chance_within").get<double>(),
                later.at("misfit_mm").at("chance_within").get<double>(), 0.05);
  }
  EXPECT_GT(compared, 2);
}

TEST(SizeCommand, saysTheSameTwice) {
  const std::vector<std::string> words{"size", demo(), "--samples", "8"};
  EXPECT_EQ(run_program(words).out, run_program(words).out);
}

TEST(SizeCommand, refusesWhatItCannotDo) {
  EXPECT_EQ(run_program({"size"}).status, 2);
  EXPECT_EQ(run_program({"size", demo(), "--nip", "50 %"}).status, 2);
  EXPECT_EQ(run_program({"size", "no-such.toml"}).status, 66);
  EXPECT_EQ(run_program({"size", demo(), "--tissue", "moon paper"}).status, 2);
}

}  // namespace
}  // namespace dampline::tests
