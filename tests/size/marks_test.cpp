#include <cmath>

#include <gtest/gtest.h>

#include <dampline/method/scores.hpp>
#include <dampline/size/marks.hpp>

#include "size/papers.hpp"

namespace dampline::size {
namespace {

using units::in_millimetres;
using units::millimetres;

const material::Stock& paper() {
  return tests::stock("mould-made cotton, internal size, 300 g/m2");
}

Marks read(const std::string& text) { return std::get<Marks>(parse_marks(text)); }

TEST(Marks, areReadInTheTradesWords) {
  const auto m =
      read("dry 200 mm, damp 202.5 mm, pulled 202.4 mm, 20 min 201.6 mm, dried 199.5 mm");
  EXPECT_NEAR(in_millimetres(m.dry), 200, 1e-9);
  EXPECT_NEAR(in_millimetres(*m.damp), 202.5, 1e-9);
  EXPECT_NEAR(in_millimetres(*m.pulled), 202.4, 1e-9);
  EXPECT_NEAR(in_millimetres(*m.waited), 201.6, 1e-9);
  EXPECT_NEAR(units::in_minutes(m.wait), 20, 1e-9);
  EXPECT_NEAR(in_millimetres(*m.dried), 199.5, 1e-9);
  EXPECT_FALSE(read("dry 20 cm, after 1 h 30 min 20.2 cm").damp.has_value());
}

TEST(Marks, thatSayNothingAreRefused) {
  for (const char* text :
       {"", "dry 200 mm", "damp 202 mm", "dry 200, damp 202", "dry 200 mm, damp 300 mm",
        "dry 200 mm, dry 200 mm", "dry 1 mm, damp 1.01 mm", "wet 200 mm, dry 199 mm", ",",
        "dry 200 mm, 202 mm", "dry 200 mm, 30 h 201 mm", "dry 200 mm, damp 202 mm,"}) {
    const auto parsed = parse_marks(text);
    ASSERT_FALSE(units::ok(parsed)) << text;
    EXPECT_FALSE(std::get<units::Refusal>(parsed).help.empty());
  }
}

// A sheet of known growth, its marks read without error and with half a millimetre more.
struct Known {
  Direction d = new_sheet(paper()).across;
  MarkMoistures at;
  Known(double free, double set) {
    d.free = free;
    d.as_bought = d.dried_in = set;
    at = {.dry = d.conditioned,
          .damp = 0.5,
          .pulled = 0.48,
          .waited = 0.35,
          .dried = d.conditioned,
          .wettest = 0.5};
  }
  [[nodiscard]] double length(double u) const {
    auto now = d;
    if (u != at.dry) wet(now, at.wettest);
    return 250e-3 * (1 + growth_si(now, u));
  }
  [[nodiscard]] Marks marks(double more_mm = 0) const {
    auto dried = d;
    wet(dried, at.wettest);
    Marks m;
    m.dry = units::metres(250e-3);
    m.damp = units::metres(length(at.damp)) + millimetres(more_mm);
    m.waited = units::metres(length(at.waited));
    m.dried = units::metres(250e-3 * (1 + growth_si(dried, at.dried)));
    return m;
  }
};

TEST(Belief, findsTheGrowthOfTheSheetThatWasMarked) {
  for (const auto& [free, set] : {std::pair{0.018, 0.003}, {0.040, 0.010}, {0.006, 0.001}}) {
    const Known known(free, set);
    const auto b = believed(paper().across, known.d, known.marks(), known.at);
    EXPECT_NEAR(b.free, free, 2 * b.free_sd);
    EXPECT_NEAR(b.dried_in, set, 2 * b.dried_in_sd);
    // What counts: the growth from dry to damp, to the ruler.
    const double grown = known.length(0.5) / 250e-3 - 1;
    auto d = known.d;
    d.free = b.free;
    d.as_bought = d.dried_in = b.dried_in;
    wet(d, 0.5);
    EXPECT_NEAR(growth_si(d, 0.5), grown, 2e-4) << free;
  }
}

TEST(Belief, isSurerThanTheClassAndAsSureAsTheRuler) {
  const Known known(0.022, 0.004);
  const auto b = believed(paper().across, known.d, known.marks(), known.at);
  EXPECT_LT(b.free_sd,
            0.5 * (paper().across.free.high - paper().across.free.low).parts_of_one() / (2 * 1.28));
  // Half a millimetre read too much at damp raises the growth by less than it is of the length.
  const auto other = believed(paper().across, known.d, known.marks(0.5), known.at);
  EXPECT_GT(other.free, b.free);
  EXPECT_LT(other.free - b.free, 0.5 / 250 * 1.3);
}

TEST(Belief, ofOneReadingKnowsTheirSumBetterThanEither) {
  const Known known(0.022, 0.004);
  auto m = known.marks();
  m.waited.reset();
  m.dried.reset();
  const auto b = believed(paper().across, known.d, m, known.at);
  EXPECT_GT(b.correlation, 0.5);  // more growth and more set give the same damp length
  const double ruler = ruler_si / 1.2816 * std::sqrt(2.0) / 250e-3;
  const double s = dryness_si(0.5, known.d.fibre_full, known.d.conditioned);
  const double by_free = 1 - s;
  const double by_set = -1;  // the set is all given back by then
  const double sd =
      std::sqrt(std::pow(by_free * b.free_sd, 2) + std::pow(by_set * b.dried_in_sd, 2) +
                2 * by_free * by_set * b.correlation * b.free_sd * b.dried_in_sd);
  EXPECT_NEAR(sd, ruler, 0.1 * ruler);
}

TEST(GrowthDraws, areTheSameForASeedAndSpreadAsStated) {
  const auto a = growth_draws(512, 1);
  const auto b = growth_draws(512, 1);
  double sum = 0, squares = 0, with_moisture = 0;
  const auto moisture = method::draws(512, 1);
  for (std::size_t i = 0; i < a.size(); ++i) {
    EXPECT_EQ(a[i].across, b[i].across);
    sum += a[i].across;
    squares += a[i].across * a[i].across;
    with_moisture += a[i].across * moisture[i].cobb;
  }
  EXPECT_NEAR(sum / 512, 0, 0.02);
  EXPECT_NEAR(squares / 512, 1, 0.05);
  EXPECT_NEAR(with_moisture / 512, 0, 0.15);  // independent of the moisture's scores
  EXPECT_NE(growth_draws(4, 2)[3].across, a[3].across);
}

TEST(GrowthDraws, keepEightOfTenWithinTheClass) {
  const auto draws = growth_draws(1024, 3);
  std::vector<double> set;
  for (const auto& draw : draws) {
    const auto sheet = drawn_sheet(paper(), {}, draw);
    set.push_back(sheet.across.as_bought);
    EXPECT_GE(sheet.across.free, 0);
  }
  EXPECT_NEAR(method::at_share(set, 0.1), paper().across.dried_in.low.parts_of_one(), 2e-4);
  EXPECT_NEAR(method::at_share(set, 0.9), paper().across.dried_in.high.parts_of_one(), 4e-4);
}

}  // namespace
}  // namespace dampline::size
