#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <dampline/session/read.hpp>
#include <dampline/session/section.hpp>
#include <dampline/units/text.hpp>

#include "session/sessions.hpp"

namespace dampline::session {
namespace {

using testing::ElementsAre;
using testing::HasSubstr;

using tests::errors_in;
using tests::here;
using tests::least;
using tests::read_well;
using tests::with;

struct Fault {
  const char* table;  ///< where the line goes
  const char* line;
  int column;  ///< in that line
  const char* what;
  const char* help;
};

std::ostream& operator<<(std::ostream& out, const Fault& f) { return out << f.line; }

class OneFault : public testing::TestWithParam<Fault> {};

// One line too many in a session that is right: one message, at its place, with a remedy.
TEST_P(OneFault, isReportedOnceWhereItStands) {
  const auto& f = GetParam();
  const auto text = with(f.table, f.line);
  const auto errors = errors_in(text);
  ASSERT_EQ(errors.size(), 1U) << (errors.size() > 1 ? rendered(errors[1]) : "");
  const auto& e = errors.front();
  EXPECT_THAT(e.what, HasSubstr(f.what));
  EXPECT_THAT(e.help, HasSubstr(f.help));
  EXPECT_EQ(e.excerpt, f.line);
  EXPECT_EQ(e.where.column, f.column);
  EXPECT_FALSE(e.unreadable);
}

INSTANTIATE_TEST_SUITE_P(
    Faults, OneFault,
    testing::Values(
        // quantities
        Fault{"[paper]", "grammage = 300", 12, "bare number for a grammage",
              "grammage = \"300 g/m2\""},
        Fault{"[paper]", "grammage = \"-300 g/m2\"", 13, "cannot be negative", "300 g/m2"},
        Fault{"[paper]", "grammage = \"300 gsmm\"", 17, "unknown unit \"gsmm\"", "gsm"},
        Fault{"[paper]", "grammage = \"90 lb\"", 15, "basis size", "133 g/m2"},
        Fault{"[paper]", "grammage = \"9000 g/m2\"", 12, "outside 8 g/m2 to 1500 g/m2", "300 g/m2"},
        Fault{"[paper]", "grammage = \"nan g/m2\"", 13, "measured", "300 g/m2"},
        Fault{"[paper]", "thickness = 0.5", 13, "bare number for a length", "\"0.5 mm\""},
        Fault{"[studio]", "humidity = \"140 %\"", 13, "140 % is outside 0 to 100 %", "52 %"},
        Fault{"[studio]", "humidity = 52", 12, "bare number for a humidity", "\"52 %\""},
        Fault{"[studio]", "temperature = \"80 degC\"", 15, "outside 1 degC to 45 degC", "17 degC"},
        Fault{"[studio]", "temperature = 64.5", 15, "bare number for a temperature",
              "\"64.5 degC\""},
        Fault{"[studio]", "wet_bulb = \"30 degC\"", 12, "cannot be with air of 20 degC", "below"},
        Fault{"[studio]", "dew_point = \"30 degC\"", 13, "cannot be with air of 20 degC", "below"},
        Fault{"[studio]", "readings = 3", 12, "is a whole number; it wants text", "hygrometer.csv"},
        Fault{"[studio]", "readings_zone = \"Mars\"", 17, "is no time zone that is known", "UTC"},
        Fault{"[register]", "tolerance = \"1 m\"", 13, "outside 0.01 mm to 20 mm", "0.4 mm"},
        // words
        Fault{"[studio]", "air = \"stil\"", 7, "not one of its words", "did you mean \"still\"?"},
        Fault{"[studio]", "air = 3", 7, "is a whole number; it wants a word in quotes",
              "\"still\", \"ordinary\" or \"fan\""},
        Fault{"[paper]", "grain = \"sideways\"", 9, "not one of its words",
              "\"long\", \"short\", \"none\" or \"unknown\""},
        // wrong types name both
        Fault{"[paper]", "stock = 3", 9, "is a whole number; it wants text in quotes", "stock = "},
        Fault{"[paper]", "sheets = \"14\"", 10, "is text; it wants a whole number",
              "without quotes"},
        Fault{"[paper]", "sheets = 1.5", 10, "is a number; it wants a whole number",
              "without quotes"},
        Fault{"[equipment]", "hot_plate = \"yes\"", 13, "is text; it wants true or false", "true"},
        Fault{"[equipment]", "tub = 8", 7, "is a whole number; it wants a table",
              "[equipment.tub]"},
        Fault{"[equipment]", "presses = { name = \"a\" }", 11, "is a table; it wants a list",
              "[[equipment.presses]]"},
        Fault{"[day]", "date = \"2026-03-14\"", 8, "is text; it wants a date", "without quotes"},
        Fault{"[day]", "date = 2026-03-14T10:00:00", 8, "is a date with a time", "2026-03-14"},
        Fault{"[edition]", "order = \"key\"", 9, "is text; it wants a list of names", "[\"key\"]"},
        Fault{"[plates.times]", "wipe = 14", 8, "bare number for a duration", "\"14 min\""},
        Fault{"[plates.times]", "wipe = \"14 mins\"", 12, "unknown unit", "min"},
        // counts
        Fault{"[edition]", "proofs = 1000000000", 10, "outside 0 to 100", "0 to 100"},
        Fault{"[equipment]", "blotters = -1", 12, "outside 0 to 2000", "0 to 2000"},
        // the day
        Fault{"[day]", "from = \"9.30\"", 8, "not a clock time", "24 hours"},
        Fault{"[day]", "from = \"25:00\"", 8, "not a clock time", "24 hours"},
        Fault{"[day]", "from = 10:00:30", 8, "seconds", "hours and minutes"},
        Fault{"[day]", "until = \"08:00\"", 9, "not after day.from 09:30", "after 09:30"},
        Fault{"[day]", "zone = \"Europe/Lisbom\"", 8, "no time zone",
              "did you mean \"Europe/Lisbon\"?"},
        Fault{"[day]", "zone = \"Lisbon\"", 8, "no time zone", "did you mean \"Europe/Lisbon\"?"},
        Fault{"[day]", "breaks = [{ at = \"08:00\", for = \"40 min\" }]", 18, "outside the day",
              "move it"},
        Fault{"[day]", "breaks = [{ at = \"17:00\", for = \"40 min\" }]", 18, "outside the day",
              "move it"},
        Fault{
            "[day]",
            "breaks = [{ at = \"13:30\", for = \"5 min\" }, { at = \"13:00\", for = \"40 min\" }]",
            18, "before the one at 13:00 has ended", "one break"},
        Fault{"[day]", "breaks = [{ at = \"13:00\" }]", 11, "day.breaks[1].for is missing",
              "for = \"40 min\""},
        // names and sizes
        Fault{"[edition]", "order = [\"kye\", \"key\"]", 10, "no plate is called \"kye\"",
              "did you mean \"key\"?"},
        Fault{"[edition]", "order = [\"key\", \"key\"]", 17, "twice", "once"},
        Fault{"[edition]", "order = []", 9, "leaves out plate \"key\"", "add it"},
        Fault{"[equipment]", "presses = [{ name = \"a\" }, { name = \"a\" }]", 37,
              "two presses are called \"a\"", "name of its own"},
        // keys
        Fault{"[paper]", "grian = \"long\"", 1, "unknown key \"grian\" in [paper]",
              "did you mean grain?"},
        Fault{"[paper]", "zzzzzz = 1", 1, "unknown key", "the keys here are stock"},
        Fault{"[equipment]", "tub = { sheet = 8 }", 9, "unknown key \"sheet\" in [equipment.tub]",
              "did you mean sheets?"}));

}  // namespace
}  // namespace dampline::session
