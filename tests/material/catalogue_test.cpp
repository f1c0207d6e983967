#include <string>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <dampline/material/catalogue.hpp>
#include <dampline/material/numbers.hpp>
#include <dampline/units/text.hpp>

#include "support/reference_table.hpp"

namespace dampline::material {
namespace {

using ::testing::ElementsAre;
using ::testing::HasSubstr;
using units::in_grams_per_m2;

std::string shipped() { return tests::repository_file("data/stocks.toml"); }

Catalogue catalogue() {
  auto read = read_catalogue(shipped(), "stocks.toml");
  if (auto* errors = std::get_if<CatalogueErrors>(&read)) {
    for (const auto& e : *errors) {
      ADD_FAILURE() << e.file << ':' << e.line << ':' << e.column << ": " << e.what;
    }
    return {};
  }
  return std::get<Catalogue>(read);
}

CatalogueErrors errors_in(const std::string& text) {
  const auto read = read_catalogue(text, "mine.toml");
  const auto* errors = std::get_if<CatalogueErrors>(&read);
  EXPECT_NE(errors, nullptr) << "no error was found";
  return errors == nullptr ? CatalogueErrors{} : *errors;
}

// The shipped classes with one stock more.
std::string with_stock(const std::string& stock) { return shipped() + "\n[[stock]]\n" + stock; }

const std::string good_stock =
    "name = \"mine\"\nfurnish = \"cotton\"\nmaking = \"mould\"\nsizing = \"internal\"\n"
    "grammage = { value = \"300 g/m2\", low = \"290 g/m2\", high = \"310 g/m2\", basis = "
    "\"assumed\" }\n";

std::string replaced(std::string text, const std::string& what, const std::string& by) {
  const auto at = text.find(what);
  EXPECT_NE(at, std::string::npos) << what;
  return at == std::string::npos ? text : text.replace(at, what.size(), by);
}

TEST(Catalogue, everyNumberOfEveryStockHasARangeAndABasis) {
  const auto all = catalogue();
  EXPECT_GE(all.stocks.size(), 22U);
  for (const auto& stock : all.stocks) {
    each_number(stock, [&](std::string_view key, const auto& number) {
      SCOPED_TRACE(stock.name + ": " + std::string(key));
      EXPECT_FALSE(number.basis.empty());
      EXPECT_LE(number.low, number.value);
      EXPECT_LE(number.value, number.high);
    });
  }
}

TEST(Catalogue, holdsTheKindsOfPaperThatPrintersUse) {
  const auto all = catalogue();
  int papers = 0;
  for (const auto& s : all.stocks) papers += s.kind == Kind::paper ? 1 : 0;
  EXPECT_GE(papers, 14);
  for (const auto kind : {Kind::blotter, Kind::newsprint, Kind::felt, Kind::towel, Kind::tissue}) {
    EXPECT_TRUE(std::any_of(all.stocks.begin(), all.stocks.end(), [&](const Stock& s) {
      return s.kind == kind;
    })) << word(kind);
  }
  const Stock* demo = find_stock(all, "mould-made cotton, internal size, 300 g/m2");
  ASSERT_NE(demo, nullptr);
  EXPECT_EQ(demo->sizing, Sizing::internal);
  EXPECT_NEAR(in_grams_per_m2(demo->grammage.value), 300, 1e-9);
  EXPECT_NEAR(in_grams_per_m2(demo->cobb60.value), 32, 1e-9);
  EXPECT_NEAR(demo->accessible.value.parts_of_one(), 0.80, 1e-12);
}

TEST(FindStock, ignoresCapitalsAndSpacingAndSuggestsTheNearest) {
  const auto all = catalogue();
  EXPECT_NE(find_stock(all, "  Mould-made  Cotton, internal size, 300 g/m2 "), nullptr);
  EXPECT_EQ(find_stock(all, "mould made cotton 300"), nullptr);
  const auto near = similar_names(all, "mould made coton, internal sise 300");
  ASSERT_FALSE(near.empty());
  EXPECT_EQ(near.front(), "mould-made cotton, internal size, 300 g/m2");
  EXPECT_LE(near.size(), 3U);
  EXPECT_THAT(similar_names(all, "kozo thin", 1), ElementsAre("thin kozo, 25 g/m2"));
  EXPECT_TRUE(similar_names(all, "zzzz").empty());
}

TEST(ReadCatalogue, aStockTakesItsClassNumbersAndMayReplaceThem) {
  const auto read = read_catalogue(
      with_stock(good_stock +
                 "cobb60 = { value = \"40 g/m2\", low = \"38 g/m2\", high = \"42 g/m2\", "
                 "basis = \"assumed\" }\n"),
      "mine.toml");
  ASSERT_TRUE(std::holds_alternative<Catalogue>(read));
  const Stock* mine = find_stock(std::get<Catalogue>(read), "mine");
  ASSERT_NE(mine, nullptr);
  EXPECT_NEAR(in_grams_per_m2(mine->cobb60.value), 40, 1e-9);
  EXPECT_NEAR(mine->across.free.value.percent(), 1.8, 1e-9);
  // no thickness given: from the density of the making, 0.56 g/cm3
  EXPECT_NEAR(units::in_millimetres(mine->thickness.value), 300 / 560.0, 1e-9);
}

TEST(ReadCatalogue, reportsEverythingWrongInFileOrder) {
  const std::string text =
      "[[furnish]]\n"                                                                    // 1
      "name = \"cotten\"\n"                                                              // 2
      "isotherm_scale = { value = 1.0, low = 1.2, high = 1.4, basis = \"assumed\" }\n"   // 3
      "fibre_full = { value = \"0.5\", low = \"0.4 g/g\", high = \"0.6 g/g\" }\n"        // 4
      "[[stock]]\n"                                                                      // 5
      "name = \"a\"\nfurnish = \"cotton\"\nmaking = \"mould\"\nsizing = \"internal\"\n"  // 6-9
      "grammage = 300\n"                                                                 // 10
      "colour = \"white\"\n";                                                            // 11
  const auto errors = errors_in(text);
  std::vector<std::string> seen;
  for (const auto& e : errors) {
    seen.push_back(std::to_string(e.line) + ": " + e.what);
    EXPECT_FALSE(e.help.empty());
    EXPECT_GT(e.column, 0);
    EXPECT_EQ(e.file, "mine.toml");
  }
  EXPECT_THAT(seen,
              ElementsAre("2: unknown name \"cotten\"",
                          "3: isotherm_scale does not lie between its low and high",
                          HasSubstr("4: no basis"), HasSubstr("4: fibre_full: bare number"),
                          "10: grammage has no range and no basis", "11: unknown key \"colour\""));
  EXPECT_EQ(errors.front().excerpt, "name = \"cotten\"");
  EXPECT_EQ(errors.front().column, 8);
}

TEST(ReadCatalogue, pointsIntoTheQuotedText) {
  const auto errors = errors_in(with_stock(replaced(good_stock, "\"300 g/m2\"", "\"300 gms\"")));
  ASSERT_EQ(errors.size(), 1U);
  EXPECT_THAT(errors[0].what, HasSubstr("unknown unit \"gms\""));
  EXPECT_EQ(errors[0].excerpt.substr(static_cast<std::size_t>(errors[0].column) - 1, 3), "gms");
}

TEST(ReadCatalogue, refusesWhatNoPaperCouldBe) {
  auto text = replaced(good_stock, "300 g/m2", "9000 g/m2");
  text = replaced(text, "310 g/m2", "9100 g/m2");
  auto errors = errors_in(with_stock(text));
  ASSERT_EQ(errors.size(), 1U);
  EXPECT_THAT(errors[0].what, HasSubstr("outside 5 to 2000 g/m2"));

  errors = errors_in(with_stock(
      good_stock +
      "thickness = { value = \"0.1 mm\", low = \"0.1 mm\", high = \"0.1 mm\", basis = \"x\" }\n"));
  ASSERT_EQ(errors.size(), 1U);
  EXPECT_THAT(errors[0].what, HasSubstr("3.00 g/cm3"));
}

TEST(ReadCatalogue, refusesASecondStockOfTheSameName) {
  const auto errors = errors_in(with_stock(good_stock) + "\n[[stock]]\n" + good_stock);
  ASSERT_EQ(errors.size(), 1U);
  EXPECT_THAT(errors[0].what, HasSubstr("second stock named \"mine\""));
}

TEST(ReadCatalogue, saysWhichClassIsMissing) {
  const auto errors =
      errors_in(with_stock(replaced(good_stock, "cotton", "wool")) + "\n[[stock]]\n" +
                replaced(replaced(good_stock, "mine", "other"), "cotton", "silk"));
  ASSERT_EQ(errors.size(), 1U);  // wool of any making has a class
  EXPECT_THAT(errors[0].what, HasSubstr("unknown furnish \"silk\""));
  const auto bare = errors_in("[[stock]]\n" + good_stock);
  ASSERT_EQ(bare.size(), 1U);
  EXPECT_THAT(bare[0].what, HasSubstr("no class for mould-made cotton, internal size"));
}

TEST(ReadCatalogue, survivesHostileText) {
  EXPECT_FALSE(errors_in("").empty());
  EXPECT_FALSE(errors_in("stock = 3").empty());
  EXPECT_FALSE(errors_in("[[stock]]\nname = \"a").empty());
  EXPECT_FALSE(errors_in("stock = [1, 2]").empty());
  EXPECT_FALSE(errors_in(std::string(300 * 1024, ' ')).empty());
  std::string dotted = "a";
  for (int i = 0; i < 40'000; ++i) dotted += ".a";
  EXPECT_FALSE(errors_in(dotted + " = 1").empty());
  EXPECT_FALSE(errors_in("a = \"\xff\xfe\"").empty());
  const auto nan = errors_in(with_stock(
      good_stock + "swelling = { value = nan, low = 1.0, high = inf, basis = \"x\" }\n"));
  EXPECT_EQ(nan.size(), 2U);
}

TEST(Describe, fillsTheRestFromTheClassesAndSaysSo) {
  const auto all = catalogue();
  const auto got = describe(all, {.grammage = units::grams_per_m2(270)});
  ASSERT_TRUE(std::holds_alternative<Described>(got));
  const auto& [stock, defaults] = std::get<Described>(got);
  EXPECT_EQ(stock.sizing, Sizing::internal);
  EXPECT_NEAR(units::in_millimetres(stock.thickness.value), 270 / 560.0, 1e-9);
  EXPECT_EQ(stock.name, "mould-made cotton, internal size, 270 g/m2");
  EXPECT_THAT(defaults,
              ElementsAre("furnish = cotton", "making = mould", "sizing = internal",
                          HasSubstr("cobb = 32 g/m2"), HasSubstr("levels off in the tub"),
                          "growth of mould-made cotton", HasSubstr("thickness = 0.48 mm")));
}

TEST(Describe, whatIsGivenIsNotADefault) {
  const auto all = catalogue();
  const auto got = describe(all, {.grammage = units::grams_per_m2(120),
                                  .thickness = units::millimetres(0.3),
                                  .cobb60 = units::grams_per_m2(70),
                                  .furnish = Furnish::kozo,
                                  .making = Making::hand,
                                  .sizing = Sizing::soft});
  ASSERT_TRUE(std::holds_alternative<Described>(got));
  const auto& [stock, defaults] = std::get<Described>(got);
  EXPECT_NEAR(in_grams_per_m2(stock.cobb60.value), 70, 1e-9);
  EXPECT_EQ(stock.cobb60.basis, "as described");
  EXPECT_NEAR(stock.across.free.value.percent(), 0.9, 1e-9);
  EXPECT_THAT(defaults, ElementsAre(HasSubstr("levels off"), HasSubstr("growth of kozo")));
}

TEST(Describe, aCobbValueChoosesTheSizing) {
  const auto all = catalogue();
  const auto sizing = [&](double cobb) {
    const auto got =
        describe(all, {.grammage = units::grams_per_m2(300), .cobb60 = units::grams_per_m2(cobb)});
    return std::get<Described>(got).stock.sizing;
  };
  EXPECT_EQ(sizing(20), Sizing::hard);
  EXPECT_EQ(sizing(35), Sizing::internal);
  EXPECT_EQ(sizing(70), Sizing::soft);
  EXPECT_EQ(sizing(300), Sizing::waterleaf);
}

TEST(Describe, changesANamedStockOnlyWhereItIsTold) {
  const auto all = catalogue();
  const Stock* base = find_stock(all, "mould-made cotton, internal size, 300 g/m2");
  ASSERT_NE(base, nullptr);
  const auto got = std::get<Described>(describe(
      all,
      {.base = base, .grammage = units::grams_per_m2(150), .cobb60 = units::grams_per_m2(40)}));
  EXPECT_EQ(got.stock.name, base->name);
  EXPECT_NEAR(in_grams_per_m2(got.stock.cobb60.value), 40, 1e-9);
  EXPECT_NEAR(units::in_si(got.stock.thickness.value), units::in_si(base->thickness.value) / 2,
              1e-12);
  EXPECT_EQ(got.stock.accessible.value, base->accessible.value);
  EXPECT_THAT(got.defaults_used, ElementsAre(HasSubstr("at the density of")));
}

TEST(Describe, refusesNothingAndTheImpossible) {
  const auto all = catalogue();
  EXPECT_TRUE(std::holds_alternative<DescriptionError>(describe(all, {})));
  EXPECT_TRUE(std::holds_alternative<DescriptionError>(
      describe(all, {.grammage = units::grams_per_m2(9000)})));
  EXPECT_TRUE(std::holds_alternative<DescriptionError>(
      describe(all, {.grammage = units::grams_per_m2(300), .thickness = units::millimetres(0.1)})));
}

TEST(Words, areReadBackAsWritten) {
  for (const auto s :
       {Sizing::waterleaf, Sizing::soft, Sizing::internal, Sizing::hard, Sizing::tub}) {
    EXPECT_EQ(sizing_from(word(s)), s);
  }
  EXPECT_EQ(sizing_from("gelatine"), Sizing::tub);
  EXPECT_EQ(making_from("mould-made"), Making::mould);
  EXPECT_FALSE(furnish_from("plastic").has_value());
}

}  // namespace
}  // namespace dampline::material
