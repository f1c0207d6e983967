#include <array>

#include <gtest/gtest.h>

#include <dampline/readiness/band.hpp>
#include <dampline/readiness/judge.hpp>
#include <dampline/readiness/limits.hpp>
#include <dampline/readiness/window.hpp>

#include "support/reference_table.hpp"

namespace dampline::readiness {
namespace {

using dampline::tests::repository_file;
using material::Sizing;
using method::Arrangement;

const Processes& processes() {
  static const auto read =
      read_processes(repository_file("data/processes.toml"), "data/processes.toml");
  return std::get<Processes>(read);
}

material::Stock cotton(Sizing sizing, double grammage) {
  static const auto read =
      material::read_catalogue(repository_file("data/stocks.toml"), "data/stocks.toml");
  const auto made = material::describe(std::get<material::Catalogue>(read),
                                       {.grammage = units::grams_per_m2(grammage),
                                        .furnish = material::Furnish::cotton,
                                        .making = material::Making::mould,
                                        .sizing = sizing});
  return std::get<material::Described>(made).stock;
}

const Band& etching() { return *find_band(processes(), "etching"); }

TEST(Processes, shippedFileReads) {
  EXPECT_GT(processes().bands.size(), 10U);
  for (const Band& b : processes().bands) {
    SCOPED_TRACE(b.process);
    EXPECT_LT(b.low.value, b.best.value);
    EXPECT_LT(b.best.value, b.high.value);
    EXPECT_FALSE(b.basis.empty());
  }
  EXPECT_EQ(find_band(processes(), "Line Etching"), &etching());
  EXPECT_EQ(find_band(processes(), "no such process"), nullptr);
}

TEST(Processes, waterInkWantsADrierSheet) {
  const Band b = with_water_ink(etching(), processes());
  EXPECT_EQ(b.high.value, processes().water_ink.value);
  EXPECT_LT(b.best.value, b.high.value);
  EXPECT_GT(b.best.value, b.low.value);
}

TEST(Processes, everyFaultIsNamedWithItsPlace) {
  const auto read = read_processes(R"([water_ink]
ceiling = { value = "0.50 g/g", low = "0.35 g/g", high = "0.60" }
basis = "assumed"
[[process]]
name = "etching"
level = 7
mean.low = { value = "0.40 g/g", low = "0.30 g/g", high = "0.48 g/g" }
mean.best = { value = "0.60 g/g", low = "0.50 g/g", high = "0.70 g/g" }
mean.high = { value = 0.85, low = "0.75 g/g", high = "0.95 g/g" }
driest = { value = "0.30 g/g", low = "0.22 g/g", high = "0.38 g/g" }
spread = { value = "0.20 g/g", low = "0.12 g/g", high = "0.28 g/g" }
basis = "assumed"
colour = "blue"
)",
                                   "mine.toml");
  const auto* errors = std::get_if<material::CatalogueErrors>(&read);
  ASSERT_NE(errors, nullptr);
  EXPECT_GE(errors->size(), 5U);  // bare 0.60, level, bare 0.85, surface missing, colour unknown
  int before = 0;
  for (const auto& e : *errors) {
    EXPECT_EQ(e.file, "mine.toml");
    EXPECT_FALSE(e.help.empty());
    EXPECT_GE(e.line, before);
    before = e.line;
  }
}

TEST(Processes, brokenTextIsRefused) {
  for (const std::string& text : {std::string("[[process]"), std::string(""), std::string("a = 1"),
                                  std::string(20000, '.'), std::string(300000, 'x')}) {
    EXPECT_TRUE(std::holds_alternative<material::CatalogueErrors>(read_processes(text, "t")));
  }
}

TEST(Judge, knowsWetFromDry) {
  const method::Sheet sheet = method::sheet_of(cotton(Sizing::internal, 300));
  const auto verdict = [&](double moisture, double film = 0) {
    method::State s = method::evenly(sheet, units::Moisture(moisture));
    s.film_upper = film;
    return judge(s, sheet, etching()).verdict;
  };
  EXPECT_EQ(verdict(0.50), Verdict::ready);
  EXPECT_EQ(verdict(0.50, 0.01), Verdict::too_wet);
  EXPECT_EQ(verdict(0.78), Verdict::too_wet);
  EXPECT_EQ(verdict(0.20), Verdict::too_dry);
  method::State uneven = method::evenly(sheet, units::Moisture(0.50));
  uneven.moisture[0] = 0.31;
  EXPECT_EQ(judge(uneven, sheet, etching()).verdict, Verdict::ready);
  uneven.moisture[0] = 0.28;
  uneven.moisture[1] = 0.30;
  EXPECT_EQ(judge(uneven, sheet, etching()).verdict, Verdict::uneven);
}

method::State blotted(const method::Sheet& sheet, const air::Climate& climate) {
  const auto stages = method::soak_blot_rest(units::minutes(30), 2, units::minutes(30));
  return method::run(sheet, method::conditioned(sheet, climate), stages, climate).end;
}

double closes_on_bench(const air::Climate& climate, double grammage = 300) {
  const method::Sheet sheet = method::sheet_of(cotton(Sizing::internal, grammage));
  const Window w = window(sheet, blotted(sheet, climate),
                          method::left(Arrangement::bench, units::hours(1)), climate, etching());
  EXPECT_TRUE(w.opens.has_value());
  EXPECT_TRUE(w.closes.has_value());
  return w.closes ? units::in_minutes(*w.closes) : -1;
}

TEST(Window, dryRoomsCloseItSooner) {
  const air::Climate dry{.temperature = units::celsius(21),
                         .humidity = units::RelativeHumidity(0.25)};
  const air::Climate damp{.temperature = units::celsius(16),
                          .humidity = units::RelativeHumidity(0.75)};
  EXPECT_LT(closes_on_bench(dry), 0.5 * closes_on_bench(damp));
  EXPECT_LT(closes_on_bench(dry, 180), closes_on_bench(dry, 300));
}

TEST(Window, isWhereTheSheetIsReady) {
  const air::Climate climate;
  const method::Sheet sheet = method::sheet_of(cotton(Sizing::internal, 300));
  const method::State start = blotted(sheet, climate);
  const method::Stage hold = method::left(Arrangement::bench, units::hours(1));
  WindowOptions middle_only;
  middle_only.with_rim = false;
  const Window w = window(sheet, start, hold, climate, etching(), middle_only);
  ASSERT_TRUE(w.opens && w.closes);
  const auto at = [&](double minutes) {
    method::Stage s = hold;
    s.duration = units::minutes(minutes);
    return judge(method::run(sheet, start, std::span(&s, 1), climate).end, sheet, etching())
        .verdict;
  };
  const double opens = units::in_minutes(*w.opens);
  const double closes = units::in_minutes(*w.closes);
  if (opens > 1) {
    EXPECT_NE(at(opens - 1), Verdict::ready);
  }
  EXPECT_EQ(at(opens + 1), Verdict::ready);
  EXPECT_EQ(at(closes - 1), Verdict::ready);
  EXPECT_NE(at(closes + 1), Verdict::ready);
  // The rim never makes it longer.
  const Window with_rim = window(sheet, start, hold, climate, etching());
  ASSERT_TRUE(with_rim.closes);
  EXPECT_LE(*with_rim.closes, *w.closes);
  EXPECT_EQ(with_rim.closed_by, Part::rim);
}

TEST(Window, aCoverKeepsItOpen) {
  const air::Climate climate;
  const method::Sheet sheet = method::sheet_of(cotton(Sizing::internal, 300));
  const Window w =
      window(sheet, blotted(sheet, climate), method::left(Arrangement::covered, units::hours(1)),
             climate, etching(), {.horizon = units::hours(24)});
  ASSERT_TRUE(w.opens);
  EXPECT_FALSE(w.closes);
}

TEST(Window, sheetsTooDryForTheProcessNeverOpen) {
  const air::Climate climate;
  const method::Sheet sheet = method::sheet_of(cotton(Sizing::internal, 300));
  const Window w = window(sheet, method::conditioned(sheet, climate),
                          method::left(Arrangement::bench, units::hours(1)), climate, etching());
  EXPECT_FALSE(w.opens);
  EXPECT_EQ(w.at_start.verdict, Verdict::too_dry);
}

TEST(Forecast, bandsHoldTheLikelyWindow) {
  const air::Climate climate;
  const auto stages = method::soak_blot_rest(units::minutes(30), 2, units::minutes(30));
  const auto draws = method::draws(32, 5);
  const Forecast f =
      forecast(cotton(Sizing::internal, 300), units::centimetres(56), units::centimetres(76),
               stages, method::left(Arrangement::bench, units::hours(1)), climate, etching(), draws,
               {.horizon = units::hours(12)});
  ASSERT_TRUE(f.likely.opens && f.likely.closes && f.closes_early && f.closes_late);
  EXPECT_LT(*f.closes_early, *f.likely.closes);
  EXPECT_GT(*f.closes_late, *f.likely.closes);
  EXPECT_GT(f.opening, units::Chance(0.5));
  // Surest somewhere inside the likely window, never ready long after.
  const auto middle = 0.5 * (*f.likely.opens + *f.likely.closes);
  EXPECT_GT(chance_ready(f, middle), units::Chance(0.5));
  EXPECT_EQ(chance_ready(f, units::hours(12)), units::Chance(0));
}

TEST(Limits, areTheTradesOwn) {
  EXPECT_EQ(keeps(Store::covered, units::celsius(16)).longest, units::hours(72));
  EXPECT_EQ(keeps(Store::covered, units::celsius(21)).longest, units::hours(48));
  EXPECT_EQ(keeps(Store::covered, units::celsius(27)).longest, units::hours(24));
  EXPECT_EQ(keeps(Store::refrigerator, units::celsius(27)).longest, units::hours(168));
  EXPECT_FALSE(tub_limit(cotton(Sizing::waterleaf, 250)));
  EXPECT_FALSE(tub_limit(cotton(Sizing::internal, 40)));
  EXPECT_EQ(tub_limit(cotton(Sizing::soft, 250))->longest, units::hours(1));
  EXPECT_EQ(uncovered(cotton(Sizing::internal, 300)).longest, units::minutes(3));
  EXPECT_EQ(uncovered(cotton(Sizing::internal, 80)).longest, units::minutes(1));
}

TEST(Limits, mouldComesSlowerInTheColdAndInDrierSheetsAsTheGrowthLawSays) {
  // Anchored on the conservators' rule.
  EXPECT_NEAR(units::in_hours(*mould_likely_after(units::celsius(21), 1.0)), 48, 1e-9);
  EXPECT_FALSE(mould_likely_after(units::celsius(30), 0.79));
  const auto table = tests::reference_table("mould_growth.csv");
  const double days_at_20_and_100 = 6.8;
  const auto base = *mould_likely_after(units::celsius(20), 1.0);
  for (const auto& row : table) {
    SCOPED_TRACE("mould_growth.csv line " + std::to_string(row.line));
    const auto after = *mould_likely_after(units::celsius(row.cell[0]), row.cell[1] / 100);
    const double ratio = row.cell[2] / days_at_20_and_100;
    EXPECT_NEAR(after / base / ratio, 1, table.allowed);
  }
}

std::vector<std::string> codes(const std::vector<Danger>& dangers) {
  std::vector<std::string> all;
  for (const auto& d : dangers) {
    EXPECT_FALSE(d.text.empty() || d.help.empty() || d.basis.empty());
    all.push_back(d.code);
  }
  return all;
}

// Common practice, no published source.
TEST(Limits, warnOfWhatASoakDoes) {
  using Codes = std::vector<std::string>;
  const auto soak = [](Sizing sizing, double grammage, double hours, double celsius) {
    return codes(
        dangers_of_soaking(cotton(sizing, grammage), units::hours(hours), units::celsius(celsius)));
  };
  EXPECT_EQ(soak(Sizing::internal, 300, 0.5, 18), Codes{});
  EXPECT_EQ(soak(Sizing::internal, 300, 14, 18), Codes{"tub-too-long"});
  EXPECT_EQ(soak(Sizing::waterleaf, 250, 0.1, 18), Codes{"not-for-the-tub"});
  EXPECT_EQ(soak(Sizing::internal, 40, 0.1, 18), Codes{"not-for-the-tub"});
  EXPECT_EQ(soak(Sizing::tub, 300, 0.5, 45), Codes{"hot-water"});
  EXPECT_EQ(soak(Sizing::tub, 300, 0.5, 35), Codes{"hot-water"});
  EXPECT_EQ(soak(Sizing::hard, 300, 13, 18), Codes{"size-loss"});
}

TEST(Limits, warnOfPaperKeptTooLong) {
  EXPECT_TRUE(dangers_of_keeping(Store::covered, units::celsius(16), units::hours(70)).empty());
  EXPECT_EQ(dangers_of_keeping(Store::covered, units::celsius(26), units::hours(30)).size(), 1U);
  EXPECT_TRUE(
      dangers_of_keeping(Store::refrigerator, units::celsius(26), units::hours(100)).empty());
  EXPECT_TRUE(dangers_of_keeping(Store::freezer, units::celsius(26), units::hours(2400)).empty());
}

}  // namespace
}  // namespace dampline::readiness
