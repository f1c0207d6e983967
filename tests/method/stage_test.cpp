#include <cmath>

#include <gtest/gtest.h>

#include <dampline/method/cover.hpp>
#include <dampline/units/out_of_range.hpp>

#include "papers.hpp"

namespace dampline::method {
namespace {

using material::Sizing;
using tests::cotton;
using tests::stage;

const air::Climate studio;

Layout layout(const std::string& words) { return std::get<Layout>(parse_layout(words)); }

std::string refused(const std::string& words) {
  const auto read = parse_layout(words);
  if (const auto* no = std::get_if<units::Refusal>(&read)) {
    EXPECT_FALSE(no->help.empty());
    return no->what;
  }
  return "taken";
}

TEST(Layout, readsWhatItWrites) {
  for (const char* words :
       {"air / sheet / table", "hung: air / sheet / air", "water / sheet / water",
        "board / blotter / tissue / sheet / blotter / board",
        "plastic / 2 dry sheets / wet sheet / sheet / 3 dry sheets / plastic",
        "mirror / sheet / damp sheet 0.4 g/g / like sheet / board",
        "plate / sheet / 2 newsprint / felt / board", "air / towel / sheet / water"}) {
    EXPECT_EQ(text(layout(words)), words);
  }
  EXPECT_EQ(layout("plastic/sheet/damp sheet 40 %/mirror").layers[1].moisture,
            units::Moisture(0.40));
}

TEST(Layout, saysWhatIsWrong) {
  EXPECT_NE(refused("sheet").find("parted by /"), std::string::npos);
  EXPECT_NE(refused("").find("parted by /"), std::string::npos);
  EXPECT_NE(refused("sky / sheet / table").find("\"sky\""), std::string::npos);
  EXPECT_NE(refused("air / shirt / table").find("\"shirt\""), std::string::npos);
  EXPECT_NE(refused("air / blotter / table").find("has 0"), std::string::npos);
  EXPECT_NE(refused("air / sheet / sheet / table").find("has 2"), std::string::npos);
  EXPECT_NE(refused("air / sheet / 99 blotters / table").find("1 to 64"), std::string::npos);
  EXPECT_NE(refused("air / sheet / 60 blotters / 10 towels / table").find("64"), std::string::npos);
  EXPECT_NE(refused("air / sheet / damp sheet / table").find("how damp"), std::string::npos);
  EXPECT_NE(refused("air / sheet / blotter 0.3 g/g / table").find("only damp"), std::string::npos);
}

TEST(Layout, everyArrangementHasOne) {
  for (const char* name :
       {"tub", "film", "drain", "blot", "towel", "covered", "bench", "hang", "rack", "boards",
        "press", "pack", "dip", "line", "taped", "forced", "pile"}) {
    const auto a = arrangement_from(name);
    ASSERT_TRUE(a) << name;
    EXPECT_EQ(word(*a), name);
    EXPECT_EQ(text(layout_of(left(*a, {}))), text(layout(text(layout_of(left(*a, {}))))));
  }
  EXPECT_FALSE(arrangement_from("own"));
  EXPECT_TRUE(uses_tub(left(Arrangement::dip, {})));
  EXPECT_TRUE(needs_hands(left(Arrangement::blot, {})));
  EXPECT_FALSE(needs_hands(left(Arrangement::covered, {})));
  EXPECT_TRUE(open_to_air(left(Arrangement::taped, {})));
  EXPECT_FALSE(open_to_air(left(Arrangement::forced, {})));
}

// A stack written out behaves as the arrangement of that name.
TEST(Stage, aStackInWordsIsTheArrangement) {
  const Sheet sheet = sheet_of(cotton(Sizing::internal, 300));
  const State wet = evenly(sheet, units::Moisture(0.7));
  for (const auto a : {Arrangement::tub, Arrangement::bench, Arrangement::rack, Arrangement::hang,
                       Arrangement::covered, Arrangement::blot, Arrangement::boards}) {
    const Stage named = left(a, units::minutes(20));
    Stage own = left(Arrangement::own, units::minutes(20));
    own.stack = layout_of(named);
    own.contact = contact_of(named);
    EXPECT_EQ(tests::mean(run(sheet, wet, std::span(&named, 1), studio)),
              tests::mean(run(sheet, wet, std::span(&own, 1), studio)))
        << word(a);
  }
}

TEST(Stage, aSheetCanFloatOnTheTub) {
  const Sheet sheet = sheet_of(cotton(Sizing::internal, 300));
  Stage float_on = left(Arrangement::own, units::minutes(2));
  float_on.stack = layout("air / sheet / water");
  Stage under = left(Arrangement::tub, units::minutes(2));
  const State dry = conditioned(sheet, studio);
  const History one = run(sheet, dry, std::span(&float_on, 1), studio);
  const History both = run(sheet, dry, std::span(&under, 1), studio);
  EXPECT_EQ(one.end.film_upper, 0);
  EXPECT_GT(one.end.film_lower, 0);
  EXPECT_GT(tests::mean(one), 0.1);
  EXPECT_LT(tests::mean(one), 0.7 * tests::mean(both));
  EXPECT_LT(one.balance_error, 1e-9);
}

TEST(Stage, endsWhenItsGoalIsReached) {
  const Sheet sheet = sheet_of(cotton(Sizing::internal, 300));
  const auto until = [&](Arrangement a, double hours, const char* goal, const State& from) {
    Stage s = stage(a, units::hours(hours));
    s.until = std::get<Until>(parse_until(goal));
    return run(sheet, from, std::span(&s, 1), studio);
  };
  const State dry = conditioned(sheet, studio);
  const History full = until(Arrangement::tub, 6, "full", dry);
  EXPECT_TRUE(full.ends[0].reached);
  EXPECT_LT(units::in_minutes(full.ends[0].at), 60);
  EXPECT_NEAR(tests::mean(full), 0.95 * sheet.porous->saturation, 2e-3);
  const History damp = until(Arrangement::tub, 6, "mean above 40 %", dry);
  EXPECT_NEAR(tests::mean(damp), 0.40, 2e-3);
  const State blotted = run(sheet, dry, soak_blot_rest(units::minutes(30), 2, {}), studio).end;
  const History even = until(Arrangement::covered, 12, "even", blotted);
  const Sample s = sample_of(even.end);
  EXPECT_NEAR((s.wettest - s.driest).parts_of_one(), 0.05, 2e-3);
  const History limp = until(Arrangement::bench, 6, "mean below 0.5 g/g", blotted);
  EXPECT_NEAR(tests::mean(limp), 0.50, 2e-3);
  const History flat = until(Arrangement::hang, 48, "dry", blotted);
  EXPECT_TRUE(flat.ends[0].reached);
  EXPECT_NEAR(tests::mean(flat), dried_moisture_si(*sheet.porous, studio) + 0.01, 1e-3);
  State wet = blotted;
  wet.film_upper = 0.02;
  const History dull = until(Arrangement::bench, 6, "no shine", wet);
  EXPECT_LE(dull.end.film_upper + dull.end.film_lower, shining_film + 1e-5);
  // What has come about already takes no time; what does not come about takes all of it.
  EXPECT_EQ(units::in_si(until(Arrangement::bench, 6, "mean below 90 %", blotted).ends[0].at), 0);
  const History never = until(Arrangement::covered, 2, "dry", blotted);
  EXPECT_FALSE(never.ends[0].reached);
  EXPECT_NEAR(units::in_hours(never.ends[0].at), 2, 1e-9);
}

TEST(Stage, goalsReadWhatTheyWrite) {
  for (const char* words : {"even", "even within 0.1 g/g", "no shine", "full", "dry",
                            "mean below 0.6 g/g", "mean above 0.2 g/g"}) {
    const auto read = parse_until(words);
    ASSERT_TRUE(std::holds_alternative<Until>(read)) << words;
    EXPECT_EQ(std::get<Until>(parse_until(text(std::get<Until>(read)))).bound,
              std::get<Until>(read).bound);
  }
  for (const char* words : {"", "soggy", "mean below 60", "mean above wet", "even within"}) {
    EXPECT_TRUE(std::holds_alternative<units::Refusal>(parse_until(words))) << words;
  }
}

TEST(Stage, saysWhereTheWaterWent) {
  const Sheet sheet = sheet_of(cotton(Sizing::internal, 300));
  std::vector<Stage> stages = soak_blot_rest(units::minutes(30), 2, units::hours(8));
  stages.push_back(stage(Arrangement::bench, units::minutes(20)));
  Stage pack = stage(Arrangement::pack, units::hours(1));
  pack.neighbours = {units::Moisture(0.1)};
  stages.push_back(pack);
  const State dry = conditioned(sheet, studio);
  const History h = run(sheet, dry, stages, studio);
  double before = water_si(dry, *sheet.porous);
  for (const StageEnd& e : h.ends) {
    const double after = water_si(e.state, *sheet.porous);
    const double gone = units::in_si(e.gone.air + e.gone.plastic + e.gone.absorbents +
                                     e.gone.sheets + e.gone.water);
    EXPECT_NEAR(before - after, gone, 1e-9);
    before = after;
  }
  EXPECT_LT(h.ends[0].gone.water, units::Grammage{});  // the tub gave
  EXPECT_GT(units::in_grams_per_m2(h.ends[2].gone.absorbents), 30);
  EXPECT_GT(h.ends[3].gone.plastic, units::Grammage{});
  EXPECT_EQ(h.ends[3].gone.air, units::Grammage{});
  EXPECT_GT(h.ends[4].gone.air, units::Grammage{});
  EXPECT_GT(h.ends[5].gone.sheets, units::Grammage{});
}

TEST(Stage, movingAirIsTheStagesOwn) {
  const Sheet sheet = sheet_of(cotton(Sizing::internal, 300));
  Stage s = stage(Arrangement::hang, units::minutes(30));
  const State wet = evenly(sheet, units::Moisture(0.6));
  const double ordinary = tests::mean(run(sheet, wet, std::span(&s, 1), studio));
  s.air = air::AirMovement::fan;
  EXPECT_LT(tests::mean(run(sheet, wet, std::span(&s, 1), studio)), ordinary);
}

// Two per cent of its own weight laid on as water is what it then holds more.
TEST(Stage, waterIsLaidOnByWeightOrByShare) {
  const Sheet sheet = sheet_of(cotton(Sizing::waterleaf, 250));
  const State dry = conditioned(sheet, studio);
  Stage by_share = stage(Arrangement::film, {});
  by_share.film_share = units::Moisture(0.30);
  Stage by_weight = stage(Arrangement::film, {});
  by_weight.film = units::kilograms_per_m2(0.30 * sheet.porous->dry);
  EXPECT_NEAR(water_si(run(sheet, dry, std::span(&by_share, 1), studio).end, *sheet.porous),
              water_si(run(sheet, dry, std::span(&by_weight, 1), studio).end, *sheet.porous),
              1e-15);
}

// 25 um: 16 to 23 g/m2 a day at 38 degC and 90 % RH [polyfilm]; loose covers 2 to 20 g/m2 a day at
// 20 degC and 50 % RH, worked out for this project, no measurement found.
TEST(Cover, leaksAsPublishedFilmsDo) {
  const auto per_day = [](double m_s, double celsius, double humidity) {
    const double kelvin = celsius + 273.15;
    const double saturation = celsius > 30 ? 6632.0 : 2339.2;  // Pa at 38 and 20 degC [wagner1993]
    return m_s * saturation * humidity / (461.5 * kelvin) * 86400 * 1e3;
  };
  const Leak hot = leak_si({units::micrometres(25), Closed::draped}, units::celsius(38));
  const double film = per_day(hot.film, 38, 0.90);
  EXPECT_GT(film, 16);
  EXPECT_LT(film, 23);
  const Leak cool = leak_si({units::micrometres(25), Closed::draped}, units::celsius(20));
  EXPECT_GT(per_day(cool.film, 20, 0.48), 1.2);  // worked out: 1.3 to 2, 98 % inside, 50 % outside
  EXPECT_LT(per_day(cool.film, 20, 0.48), 2.0);
  for (const Closed closed : {Closed::tucked, Closed::draped, Closed::loose}) {
    const Leak leak = leak_si({units::micrometres(50), closed}, units::celsius(20));
    EXPECT_GT(per_day(leak.whole(), 20, 0.5), 1.5);
    EXPECT_LT(per_day(leak.whole(), 20, 0.5), 23);
  }
  EXPECT_THROW(static_cast<void>(leak_si({units::micrometres(1), {}}, units::celsius(20))),
               units::OutOfRange);
}

}  // namespace
}  // namespace dampline::method
