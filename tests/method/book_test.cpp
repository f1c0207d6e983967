#include <gtest/gtest.h>

#include <dampline/method/book.hpp>

#include "papers.hpp"

namespace dampline::method {
namespace {

using material::Sizing;
using tests::cotton;

const air::Climate studio;

const Book& usual() {
  static const auto read =
      read_methods(dampline::tests::repository_file("data/methods.toml"), "data/methods.toml");
  return std::get<Book>(read);
}

// Everything wrong in a text, "line:column what | help" each.
std::vector<std::string> faults(const std::string& text) {
  std::vector<std::string> all;
  const auto read = read_methods(text, "own.toml");
  if (const auto* errors = std::get_if<material::CatalogueErrors>(&read)) {
    for (const auto& e : *errors) {
      EXPECT_EQ(e.file, "own.toml");
      EXPECT_FALSE(e.help.empty());
      all.push_back(std::to_string(e.line) + ":" + std::to_string(e.column) + " " + e.what + " | " +
                    e.help);
    }
  }
  return all;
}

std::string method_with(const std::string& stage) {
  return "[[method]]\nname = \"own\"\n[[method.stage]]\n" + stage;
}

void expect_fault(const std::string& stage, const std::string& part) {
  const auto all = faults(method_with(stage));
  ASSERT_FALSE(all.empty()) << stage;
  EXPECT_NE(all[0].find(part), std::string::npos) << all[0];
}

TEST(Book, everyMethodOfItRunsAndClosesItsBalance) {
  ASSERT_GE(usual().methods.size(), 15U);
  for (const auto& [sizing, weight] :
       {std::pair{Sizing::internal, 300.0}, {Sizing::waterleaf, 120.0}, {Sizing::hard, 180.0}}) {
    const Sheet sheet = sheet_of(cotton(sizing, weight));
    for (const Method& m : usual().methods) {
      SCOPED_TRACE(m.name);
      const bool drying = m.purpose == Purpose::drying;
      const State start = drying ? evenly(sheet, units::Moisture(0.5)) : conditioned(sheet, studio);
      const auto stages = stages_for(m, sheet.stock);
      RunOptions hourly;
      hourly.sample_every = units::hours(1);
      const History h = run(sheet, start, stages, studio, hourly);
      EXPECT_LT(h.balance_error, 1e-9);
      EXPECT_EQ(h.ends.size(), stages.size());
      for (const StageEnd& e : h.ends) EXPECT_TRUE(e.reached || sizing == Sizing::waterleaf);
      if (drying) {
        EXPECT_NEAR(tests::mean(h), dried_moisture_si(*sheet.porous, studio) + 0.01, 2e-3);
      } else {
        // The middle of 25 sheets between damp cloths is barely damp after two days: that is why
        // printers halve the stack and lay it anew.
        EXPECT_GT(tests::mean(h), m.name == "damp cloths" ? 0.08 : 0.14);
        EXPECT_LE(tests::mean(h), sheet.porous->saturation);
      }
    }
  }
}

TEST(Book, dampingEndsWhereThePrinterWantsIt) {
  const Sheet sheet = sheet_of(cotton(Sizing::internal, 300));
  const auto after = [&](const char* name) {
    const auto stages = stages_for(*find_method(usual(), name), sheet.stock);
    return sample_of(run(sheet, conditioned(sheet, studio), stages, studio).end);
  };
  for (const char* name : {"soak", "soak and towel"}) {
    EXPECT_GT(after(name).mean.parts_of_one(), 0.5) << name;
  }
  EXPECT_NEAR(after("soak and hang").mean.parts_of_one(), 0.45, 0.01);
  EXPECT_NEAR(after("sponge").mean.parts_of_one(), 0.38, 0.02);
  EXPECT_NEAR(after("pack, one wet to two dry").mean.parts_of_one(), 0.28, 0.03);
  EXPECT_NEAR(after("pack, one wet to three dry").mean.parts_of_one(), 0.22, 0.04);
  EXPECT_LT(after("pack, one wet to two dry").mean, after("pack").mean);
}

// The ways that the program had before it had a book come out of the book unchanged.
TEST(Book, theSoakIsTheUsualSoak) {
  const material::Stock stock = cotton(Sizing::internal, 300);
  const Sheet sheet = sheet_of(stock);
  const auto from_book = stages_for(*find_method(usual(), "soak"), stock);
  const auto in_code = soak_blot_rest(units::minutes(30), 2, units::minutes(30));
  const State dry = conditioned(sheet, studio);
  EXPECT_EQ(tests::mean(run(sheet, dry, from_book, studio)),
            tests::mean(run(sheet, dry, in_code, studio)));
  EXPECT_EQ(
      units::in_minutes(
          stages_for(*find_method(usual(), "soak"), cotton(Sizing::hard, 300)).front().duration),
      60);
}

TEST(Book, isCutWhereThePaperIsLeftAlone) {
  const material::Stock stock = cotton(Sizing::internal, 300);
  const auto parts = [&](const char* name) {
    return parts_of(stages_for(*find_method(usual(), name), stock));
  };
  const Parts soak = parts("soak");
  ASSERT_EQ(soak.wetting.size(), 3U);
  ASSERT_EQ(soak.rest.size(), 1U);
  EXPECT_TRUE(any_in_tub(soak.wetting));
  EXPECT_FALSE(any_in_tub(soak.rest));
  EXPECT_NEAR(units::in_si(hands_time(soak.wetting)), 70, 1e-9);
  EXPECT_EQ(units::in_si(hands_time(soak.rest)), 0);
  EXPECT_NEAR(units::in_minutes(length_of(soak.rest)), 30, 1e-9);
  EXPECT_EQ(parts("pack").wetting.size(), 1U);
  EXPECT_EQ(parts("soak and hang").rest.size(), 2U);
  EXPECT_TRUE(parts("damp newsprint").rest.empty());
}

TEST(Book, namesAreFoundAsPeopleWriteThem) {
  EXPECT_EQ(find_method(usual(), "Sponge-one-side")->name, "sponge");
  EXPECT_EQ(find_method(usual(), "tape")->name, "taped");
  EXPECT_EQ(find_method(usual(), "rinse"), nullptr);
  const auto first = [&](const char* name) {
    const auto near = similar_methods(usual(), name);
    return near.empty() ? "" : near.front();
  };
  EXPECT_EQ(first("spong"), "sponge");
  EXPECT_EQ(first("soack"), "soak");
  EXPECT_EQ(first("two dry"), "pack, one wet to two dry");
  EXPECT_TRUE(similar_methods(usual(), "photogravure").empty());
}

TEST(Book, aPrintersOwnComesFirst) {
  const auto own = std::get<Book>(read_methods(
      "[[method]]\nname = \"Soak\"\n[[method.stage]]\nas = \"tub\"\nfor = \"5 min\"\n", "own"));
  const Book both = joined(own, usual());
  EXPECT_EQ(both.methods.size(), usual().methods.size());
  const auto stages = stages_for(*find_method(both, "soak"), cotton(Sizing::hard, 300));
  EXPECT_EQ(units::in_minutes(stages.front().duration), 5);
  EXPECT_NE(find_method(both, "mist"), nullptr);
}

TEST(Book, saysWhatIsWrongAndWhere) {
  EXPECT_NE(faults("")[0].find("no [[method]]"), std::string::npos);
  EXPECT_NE(faults("[[method]]\n")[0].find("1:1 no name"), std::string::npos);
  EXPECT_NE(faults("method = 3")[0].find("not a list"), std::string::npos);
  EXPECT_NE(faults("[[method]]\nname = \"a\nb\"")[0].find("2:"), std::string::npos);
  const auto twice = faults(method_with("as = \"tub\"\nfor = \"1 h\"\n") +
                            method_with("as = \"tub\"\nfor = \"1 h\"\n"));
  ASSERT_EQ(twice.size(), 1U);
  EXPECT_NE(twice[0].find("second method"), std::string::npos);
  expect_fault("for = \"5 min\"\n", "3:1 a stage without as");
  expect_fault("as = \"tub\"\n", "a stage without for");
  expect_fault("as = \"tubb\"\nfor = \"5 min\"\n", "4:6 unknown arrangement \"tubb\"");
  expect_fault("as = \"tub\"\nstack = \"air / sheet / air\"\nfor = \"5 min\"\n", "not both");
  expect_fault("as = \"tub\"\nfor = \"5\"\n", "for: ");
  expect_fault("as = \"tub\"\nfor = 5\n", "for is not a text");
  expect_fault("as = \"tub\"\nfor = \"100 days\"\n", "longer than 90 days");
  expect_fault("as = \"tub\"\nfro = \"5 min\"\nfor = \"5 min\"\n", "did you mean \"for\"?");
  expect_fault("as = \"tub\"\nuntil = \"full\"\n", "a stage without most");
  expect_fault("as = \"tub\"\nuntil = \"wettish\"\nmost = \"2 h\"\n", "unknown end");
  expect_fault("as = \"tub\"\nfor = \"1 h\"\nmost = \"2 h\"\n", "most belongs to until");
  expect_fault("as = \"tub\"\nfor = { soft = \"1 h\" }\n", "no time for waterleaf");
  expect_fault("as = \"tub\"\nfor = \"1 h\"\nwater = \"80 degC\"\n", "0 to 60 degC");
  expect_fault("as = \"film\"\nfor = \"1 min\"\n", "without water to lay on");
  expect_fault("as = \"film\"\nfor = \"1 min\"\nlay = \"9000 g/m2\"\n", "more water");
  expect_fault("as = \"blot\"\nfor = \"1 min\"\npasses = 0\n", "whole number from 1 to 1000");
  expect_fault("as = \"blot\"\nfor = \"1 min\"\ncontact = \"rolled\"\n",
               "did you mean \"roller\"?");
  expect_fault("as = \"boards\"\nfor = \"9 h\"\nfresh_at = [\"3 h\", \"1 h\"]\n", "do not rise");
  expect_fault("as = \"boards\"\nfor = \"9 h\"\nfresh_every = \"1 s\"\n", "under a minute");
  expect_fault("as = \"covered\"\nfor = \"9 h\"\nfilm = \"5 m\"\n", "5 um to 1 mm");
  expect_fault("as = \"covered\"\nfor = \"9 h\"\nclosed = \"shut\"\n", "unknown closed");
  expect_fault("as = \"covered\"\nfor = \"9 h\"\nhands = \"no\"\n", "neither true nor false");
  expect_fault("stack = \"air / shet / air\"\nfor = \"9 h\"\n", "4:16 stack: unknown layer");
  // Everything wrong is said in one reading.
  EXPECT_EQ(faults(method_with("as = \"tubb\"\nfor = \"5\"\nair = \"storm\"\nextra = 1\n")).size(),
            4U);
}

TEST(Book, refusesWhatWouldBringTheReaderDown) {
  EXPECT_NE(faults(std::string(300 * 1024, '#'))[0].find("256 KiB"), std::string::npos);
  std::string dotted = "a";
  for (int i = 0; i < 20000; ++i) dotted += ".a";
  EXPECT_NE(faults(dotted + " = 1")[0].find("10000 points"), std::string::npos);
  std::string many = "[[method]]\nname = \"own\"\n";
  for (int i = 0; i < 65; ++i) many += "[[method.stage]]\nas = \"tub\"\nfor = \"1 h\"\n";
  EXPECT_NE(faults(many)[0].find("more than 64"), std::string::npos);
}

TEST(Book, settledStagesTakeTheTimeTheyTook) {
  const Sheet sheet = sheet_of(cotton(Sizing::internal, 300));
  const State dry = conditioned(sheet, studio);
  const auto open = stages_for(*find_method(usual(), "soak and hang"), sheet.stock);
  const auto closed = settled(sheet, dry, open, studio);
  ASSERT_EQ(closed.size(), open.size());
  for (const Stage& s : closed) EXPECT_FALSE(s.until.has_value());
  EXPECT_EQ(closed[0].duration, open[0].duration);
  EXPECT_LT(closed[1].duration, open[1].duration);
  EXPECT_NEAR(tests::mean(run(sheet, dry, closed, studio)),
              tests::mean(run(sheet, dry, open, studio)), 1e-3);
}

}  // namespace
}  // namespace dampline::method
