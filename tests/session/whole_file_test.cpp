#include <algorithm>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <dampline/session/keys.hpp>
#include <dampline/session/starter.hpp>
#include <dampline/units/text.hpp>

#include "session/sessions.hpp"

namespace dampline::session {
namespace {

using testing::ElementsAre;
using testing::HasSubstr;
using testing::IsEmpty;
using tests::errors_in;
using tests::least;
using tests::read_well;
using tests::with;

InputError only_error(const std::string& text) {
  const auto errors = errors_in(text);
  EXPECT_EQ(errors.size(), 1U);
  return errors.empty() ? InputError{} : errors.front();
}

TEST(WholeFile, anEmptyOneIsOneError) {
  for (const char* text : {"", "\n\n", "# only a remark\n"}) {
    const auto e = only_error(text);
    EXPECT_EQ(e.where.line, 0);
    EXPECT_THAT(e.what, HasSubstr("[paper]"));
    EXPECT_THAT(e.help, HasSubstr("dampline new"));
  }
}

TEST(WholeFile, missingPartsAreNamed) {
  const auto errors = errors_in("title = \"x\"\n");
  ASSERT_EQ(errors.size(), 3U);
  EXPECT_THAT(errors[0].what, HasSubstr("[paper] is missing"));
  EXPECT_THAT(errors[1].what, HasSubstr("[[plates]] is missing"));
  EXPECT_THAT(errors[2].what, HasSubstr("[edition] is missing"));
}

TEST(WholeFile, tooLongIsRefusedBeforeItIsRead) {
  const auto e = only_error(std::string(1'000'000, '.'));
  EXPECT_THAT(e.what, HasSubstr("256 KiB"));
  EXPECT_TRUE(e.unreadable);
}

// toml++ 3.3.0 overruns its stack on a dotted key of 32,000 parts.
TEST(WholeFile, aLongDottedKeyIsRefused) {
  std::string key = "a";
  for (int i = 0; i < 32'000; ++i) key += ".a";
  EXPECT_THAT(only_error(key + " = 1\n").what, HasSubstr("10,000 full stops"));
}

TEST(WholeFile, deepNestingIsRefused) {
  std::string key = "a";
  for (int i = 0; i < 9'000; ++i) key += ".a";
  EXPECT_THAT(only_error(key + " = 1\n").what, HasSubstr("nested deeper"));
  EXPECT_TRUE(only_error("a = " + std::string(5'000, '[')).unreadable);
}

TEST(WholeFile, bytesThatAreNotUtf8ArePointedAt) {
  const auto e = only_error("[paper]\n  stock = \"\u00e9t\xe9\"\n");
  EXPECT_EQ(e.where.line, 2);
  EXPECT_EQ(e.where.column, 14);
  EXPECT_THAT(e.help, HasSubstr("UTF-8"));
}

TEST(WholeFile, everyErrorOfTheFileInItsOrder) {
  const auto errors = errors_in(
      "title = 3\n"
      "[edition]\nprints = 0\n"
      "[studio]\nhumidity = \"140 %\"\ntemperature = 17\n"
      "[paper]\nsheet = \"38 x 56 cm\"\nstock = \"a\"\ngrian = 1\n"
      "[[plates]]\nname = \"key\"\nsize = \"60 x 70 cm\"\nprocess = \"etching\"\n"
      "[day]\nfrom = \"12:00\"\nuntil = \"11:00\"\n");
  std::vector<int> lines;
  for (const auto& e : errors) lines.push_back(e.where.line);
  EXPECT_THAT(lines, ElementsAre(1, 3, 5, 6, 10, 13, 17));
  for (const auto& e : errors) EXPECT_THAT(e.help, testing::Not(IsEmpty()));
}

TEST(WholeFile, carriageReturnsAndAByteOrderMarkMakeNoDifference) {
  auto text = least;
  for (std::size_t at = 0; (at = text.find('\n', at)) != std::string::npos; at += 2) {
    text.insert(at, "\r");
  }
  EXPECT_EQ(read_well("\xEF\xBB\xBF" + text).edition.prints, 10);
  const auto e = only_error("\xEF\xBB\xBFtitle = 3\r\n" + text);
  EXPECT_EQ(e.where.line, 1);
  EXPECT_EQ(e.where.column, 9);
  EXPECT_EQ(e.excerpt, "title = 3");
}

TEST(WholeFile, theCaretStandsUnderTheFaultBehindTabs) {
  const auto e = only_error(with("[paper]", "\tgrammage\t=\t300"));
  EXPECT_EQ(rendered(e),
            "marsh.toml:5:13: error: paper.grammage: bare number for a grammage\n"
            "\tgrammage\t=\t300\n"
            "\t        \t \t^\n"
            "help: write a unit: grammage = \"300 g/m2\"\n");
}

TEST(WholeFile, nothingInAFileSteersTheTerminal) {
  const auto e = only_error(with("[edition]", "order = [\"key\", \"\\u001b[2J\"]"));
  EXPECT_EQ(rendered(e).find('\x1b'), std::string::npos);
  EXPECT_THAT(only_error("title = \"a\\u0007b\"\n" + least).what, HasSubstr("control characters"));
}

TEST(WholeFile, moreThanEnoughOfAnythingIsRefused) {
  std::string people;
  for (int i = 0; i < 51; ++i) people += "[[people]]\nname = \"" + std::to_string(i) + "\"\n";
  EXPECT_THAT(only_error(least + people).what, HasSubstr("people has 51, outside 1 to 50"));
  const auto e = only_error(with("[edition]", "prints = 1000000000"));
  EXPECT_THAT(e.what, HasSubstr("edition.prints is 1000000000, outside 1 to 1000"));
}

TEST(WholeFile, plateNamesMustDiffer) {
  const auto e = only_error(
      least + "[[plates]]\nname = \"key\"\nsize = \"3 x 3 cm\"\nprocess = \"etching\"\n");
  EXPECT_THAT(e.what, HasSubstr("two plates are called \"key\""));
  EXPECT_EQ(e.where.line, 17);
}

TEST(WholeFile, aPlateMayLieEitherWayOnTheSheet) {
  EXPECT_EQ(read_well(with("[[plates]]", "size = \"56 x 38 cm\"")).plates.size(), 1U);
  EXPECT_THAT(only_error(with("[[plates]]", "size = \"57 x 20 cm\"")).what,
              HasSubstr("larger than the sheet"));
}

TEST(WholeFile, theSheetMustLieOnAPress) {
  const auto e =
      only_error(with("[equipment]", "presses = [{ name = \"a\", bed = \"40 x 55 cm\" }]"));
  EXPECT_THAT(e.what,
              HasSubstr("the sheet of 38 x 56 cm fits no press: it is larger than the bed of "));
  EXPECT_EQ(e.excerpt, "sheet = \"38 x 56 cm\"");
  read_well(with("[equipment]", "presses = [{ name = \"a\", bed = \"56 x 38 cm\" }]"));
  auto text =
      with("[equipment]", "presses = [{ name = \"a\" }, { name = \"b\", bed = \"9 x 9 cm\" }]");
  read_well(text);
  text.insert(text.find("name = \"key\""), "press = \"b\"\n");
  EXPECT_THAT(only_error(text).what, HasSubstr("larger than the bed of \"b\", 9 x 9 cm"));
}

TEST(WholeFile, theSheetMustLieOnBlanketsInTheTubOnBlotterAndBoard) {
  const auto fault = [](const std::string& equipment) {
    return only_error(with("[equipment]", equipment)).what;
  };
  EXPECT_THAT(
      fault("presses = [{ name = \"a\", bed = \"50 x 90 cm\", blankets = \"38 x 55 cm\" }]"),
      HasSubstr("larger than the blankets of \"a\", 38 x 55 cm"));
  EXPECT_THAT(fault("tub = { size = \"50 x 50 cm\" }"),
              HasSubstr("larger than the tub of 50 x 50 cm"));
  EXPECT_THAT(fault("blotter = \"30 x 60 cm\""), HasSubstr("larger than a blotter of 30 x 60 cm"));
  EXPECT_THAT(fault("drying = { size = \"40 x 55 cm\" }"), HasSubstr("it dries on of 40 x 55 cm"));
  read_well(with("[equipment]", "tub = { size = \"56 x 38 cm\" }\nblotter = \"60 x 80 cm\""));
}

TEST(WholeFile, peopleAndPressesAreThereWithinTheDay) {
  const auto s =
      read_well(with("[equipment]",
                     "presses = [{ name = \"hired\", from = \"10:00\", until = \"13:00\", "
                     "square_after = 6 }]"));
  EXPECT_EQ(s.equipment.presses[0].until, std::chrono::hours(13));
  EXPECT_EQ(s.equipment.presses[0].square_after, 6);
  EXPECT_THAT(only_error(least + "[[people]]\nname = \"A\"\nuntil = \"18:00\"\n").what,
              HasSubstr("\"A\": 18:00 lies outside the day, 09:30 to 17:30"));
  EXPECT_THAT(
      only_error(least + "[[people]]\nname = \"A\"\nfrom = \"12:00\"\nuntil = \"12:00\"\n").what,
      HasSubstr("there until 12:00, which is not after 12:00"));
}

TEST(WholeFile, aLearnerHasThePaceOfOne) {
  EXPECT_TRUE(read_well(least + "[[people]]\nname = \"A\"\nlearner = true\n").people[0].learner);
  EXPECT_THAT(only_error(least + "[[people]]\nname = \"A\"\nlearner = true\npace = 2\n").what,
              HasSubstr("twice"));
}

TEST(WholeFile, restsHaveAUsualLength) {
  const auto s = read_well(with("[day]", "rests = { every = \"50 min\" }"));
  ASSERT_TRUE(s.day.rests);
  EXPECT_EQ(units::text(s.day.rests->every), "50 min");
  EXPECT_EQ(units::text(s.day.rests->length), "5 min");
  EXPECT_FALSE(read_well(least).day.rests);
}

TEST(WholeFile, whoPrintsAndWhereMustBeKnown) {
  EXPECT_THAT(only_error(with("[[plates]]", "printer = \"B\"")).what,
              HasSubstr("nobody is called \"B\""));
  EXPECT_THAT(only_error(with("[[plates]]", "press = \"B\"")).what,
              HasSubstr("no press is called \"B\""));
  EXPECT_THAT(only_error(least + "[[people]]\nname = \"A\"\ndoes = [\"paper\"]\n").what,
              HasSubstr("nobody inks"));
  EXPECT_THAT(only_error(least + "[[people]]\nname = \"A\"\ndoes = [\"ink\"]\n").what,
              HasSubstr("nobody handles the paper"));
}

TEST(WholeFile, soakingNeedsATub) {
  const auto text = with("[equipment]", "tub = { sheets = 0 }");
  EXPECT_FALSE(read_well(text).equipment.tub);
  auto soaking = text;
  soaking.replace(soaking.find("[damping]"), 9, "[damping]\nmethod = \"soak\"");
  EXPECT_THAT(only_error(soaking).help, HasSubstr("sponge"));
}

TEST(WholeFile, aPaperIsNamedOrDescribed) {
  auto text = least;
  text.erase(text.find("stock"), 21);
  EXPECT_THAT(only_error(text).what, HasSubstr("neither named nor described"));
  text.insert(text.find("sheet ="), "grammage = \"300 gsm\"\n");
  EXPECT_EQ(units::text(*read_well(text).paper.grammage), "300 g/m2");
}

TEST(WholeFile, everyDefaultIsListed) {
  const auto s = read_well(least);
  EXPECT_THAT(
      s.defaults_used,
      ElementsAre(
          "title = A printing day", "day.date = 2026-03-14 (today)", "day.zone = Europe/Lisbon",
          "day.from = 09:30", "day.until = 17:30", "studio.temperature = 20 degC",
          "studio.altitude = 0 m", "studio.humidity = 50 %", "studio.air = ordinary",
          "people = [{ name = \"printer\" }]", "equipment.presses = [{ name = \"press\" }]",
          "equipment.tub.sheets = 10", "equipment.tub.water = 18 degC", "equipment.blotters = 20",
          "equipment.hot_plate = true", "equipment.drying.method = boards", "paper.grain = unknown",
          "damping.hold = covered", "plates[1].ink = oil", "edition.proofs = 2"));
  EXPECT_EQ(s.people.front().name, "printer");
  EXPECT_TRUE(s.people.front().inks && s.people.front().handles_paper);
  EXPECT_EQ(s.equipment.tub->sheets, 10);
  EXPECT_EQ(units::text(s.registering.tolerance), "0.5 mm");
  EXPECT_THAT(s.edition.order, ElementsAre("key"));
}

TEST(WholeFile, withoutATodayADateIsNeeded) {
  const auto found = read(least, "marsh.toml");
  ASSERT_TRUE(std::holds_alternative<InputErrors>(found));
  EXPECT_THAT(std::get<InputErrors>(found).front().what, HasSubstr("day.date is missing"));
}

TEST(WholeFile, clockTimesMayBeTomlTimes) {
  const auto s = read_well(with("[day]", "from = 08:15:00"));
  EXPECT_EQ(s.day.from, std::chrono::minutes(8 * 60 + 15));
}

TEST(WholeFile, aDewPointGivesTheHumidity) {
  // Magnus form, from memory: 9.3 degC over 20 degC is about 50 %.
  const auto s = read_well(with("[studio]", "dew_point = \"9.3 degC\""));
  EXPECT_NEAR(s.studio.humidity.percent(), 50, 0.5);
}

TEST(WholeFile, tooFewSheetsOrPlacesAreDoubtfulNotWrong) {
  auto s = read_well(with("[paper]", "sheets = 11"));
  ASSERT_EQ(s.warnings.size(), 1U);
  EXPECT_THAT(s.warnings[0].what, HasSubstr("11 sheets for 12 prints and proofs"));
  s = read_well(with("[equipment]", "drying = { places = 3 }"));
  ASSERT_EQ(s.warnings.size(), 1U);
  EXPECT_THAT(s.warnings[0].what, HasSubstr("3 drying places for 12"));
  EXPECT_THAT(read_well(with("[paper]", "sheets = 12")).warnings, IsEmpty());
}

TEST(Starter, showsEveryKeyAndReadsWithoutAnError) {
  const auto text = starter();
  const auto s = read_well(text);
  EXPECT_THAT(s.warnings, IsEmpty());
  for (const auto& k : keys()) {
    const auto name = std::string(k.path.substr(k.path.find_last_of('.') + 1));
    EXPECT_TRUE(text.find(name + " = ") != std::string::npos ||
                text.find("[" + name + "]") != std::string::npos ||
                text.find(name + ": ") != std::string::npos)
        << k.path;
  }
}

// Every line that is switched off is right by itself, but for those that speak against another.
TEST(Starter, everyLineSwitchedOffReadsWhenSwitchedOn) {
  const auto text = starter();
  int tried = 0;
  for (const auto& k : keys()) {
    const auto name = std::string(k.path.substr(k.path.find_last_of('.') + 1));
    const auto at = text.find("\n# " + name + " = ");
    if (at == std::string::npos) continue;
    auto on = text;
    on.erase(at + 1, 2);
    if (name == "readings") continue;
    if (name == "wet_bulb" || name == "dew_point") on.erase(on.find("humidity = \""), 17);
    SCOPED_TRACE(name);
    read_well(on);
    ++tried;
  }
  EXPECT_GT(tried, 15);
}

}  // namespace
}  // namespace dampline::session
