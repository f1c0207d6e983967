#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <dampline/session/readings.hpp>
#include <dampline/session/zone.hpp>
#include <dampline/units/text.hpp>

// Rows and headers are made up, in the shapes loggers write: common practice, no published source.

namespace dampline::session {
namespace {

using namespace std::chrono_literals;
using testing::Contains;
using testing::ElementsAre;
using testing::HasSubstr;
using testing::IsEmpty;

const ReadingsOptions lisbon{.zone = "Europe/Lisbon", .day = 2026y / 3 / 14};

Readings read_well(const std::string& text, const ReadingsOptions& options = lisbon) {
  const auto found = read_readings(text, "log.csv", options);
  if (const auto* errors = std::get_if<InputErrors>(&found)) {
    for (const auto& e : *errors) ADD_FAILURE() << rendered(e);
    return {};
  }
  return std::get<Readings>(found);
}

InputError refused(const std::string& text, const ReadingsOptions& options = lisbon) {
  const auto found = read_readings(text, "log.csv", options);
  const auto* errors = std::get_if<InputErrors>(&found);
  EXPECT_NE(errors, nullptr) << "nothing wrong was found in\n" << text;
  if (errors == nullptr) return {};
  EXPECT_EQ(errors->size(), 1U);
  EXPECT_FALSE(errors->front().help.empty());
  return errors->front();
}

std::string at(const Reading& r) { return rfc3339("UTC", r.at); }
double celsius(const Reading& r) { return units::in_celsius(r.temperature); }

struct Spelling {
  const char* what;
  const char* text;
};
std::ostream& operator<<(std::ostream& out, const Spelling& s) { return out << s.what; }

class OneReading : public testing::TestWithParam<Spelling> {};

// Every one of them says: 14 March 2026, 09:30 in Lisbon (UTC), 17.5 degC, 54 %.
TEST_P(OneReading, isReadAlikeHoweverItIsWritten) {
  const auto r = read_well(GetParam().text);
  ASSERT_EQ(r.rows.size(), 1U);
  EXPECT_EQ(at(r.rows[0]), "2026-03-14T09:30:00+00:00");
  EXPECT_NEAR(celsius(r.rows[0]), 17.5, 1e-9);
  EXPECT_NEAR(r.rows[0].humidity.percent(), 54, 1e-9);
  EXPECT_THAT(r.warnings, IsEmpty());
}

INSTANTIATE_TEST_SUITE_P(
    Files, OneReading,
    testing::Values(
        Spelling{"plain", "time,temperature [degC],humidity [%]\n2026-03-14 09:30,17.5,54\n"},
        Spelling{"other order, capitals", "RH %,T C,DATE\n54,17.5,2026-03-14T09:30\n"},
        Spelling{"German",
                 "Datum;Uhrzeit;Temperatur (\xc2\xb0"
                 "C);rel. Feuchte (%)\n14.03.2026;09:30;17,5;54,0\n"},
        Spelling{"French",
                 "Date;Heure;Temp\xc3\xa9rature (\xc2\xb0"
                 "C);Humidit\xc3\xa9 relative (%)\n14/03/2026;09:30:00;17,5;54\n"},
        Spelling{"French in Latin-1",
                 "Horodatage;Temp\xe9rature (\xb0"
                 "C);Humidit\xe9 (%)\n14/03/2026 09h30;17,5;54\n"},
        Spelling{"Spanish", "Fecha\tHora\tTemperatura C\tHumedad %\n14/03/2026\t09:30\t17.5\t54\n"},
        Spelling{"Portuguese", "data;hora;temperatura_c;umidade_%\n2026-03-14;09:30;17,5;54\n"},
        Spelling{"Dutch", "Datum/tijd;Temperatuur degC;Vochtigheid %\n14-03-2026 09:30;17,5;54\n"},
        Spelling{"degF", "Timestamp,Temp [degF],RH [%]\n2026-03-14 09:30:00,63.5,54\n"},
        Spelling{"degF sign",
                 "Date Time,Temp (\xc2\xb0"
                 "F),RH (%)\n03/14/2026 09:30:00 AM,63.5,54\n"},
        Spelling{"two-digit year", "Date Time;Temp C;RH %\n03/14/26 09:30 am;17.5;54\n"},
        Spelling{"offset", "time,temp_c,rh_percent\n2026-03-14T10:30:00+01:00,17.5,54\n"},
        Spelling{"Z and fractions", "time,temp_c,rh_percent\n2026-03-14T09:30:00.250Z,17.5,54\n"},
        Spelling{"basic format", "time,temp_c,rh_percent\n20260314T093000Z,17.5,54\n"},
        Spelling{"Unix seconds", "unix time,temp_c,rh_percent\n1773480600,17.5,54\n"},
        Spelling{"Unix milliseconds", "epoch,temp_c,rh_percent\n1773480600000,17.5,54\n"},
        Spelling{"offset in the header",
                 "\"#\",\"Date Time, GMT+02:00\",\"Temp, \xc2\xb0"
                 "C\",\"RH, %\"\n1,03/14/26 11:30:00 AM,17.5,54\n"},
        Spelling{"byte order mark and CRLF",
                 "\xef\xbb\xbftime;temperature C;humidity %\r\n2026-03-14 09:30;17,5;54\r\n"},
        Spelling{"quotes", "\"time\",\"temp C\",\"RH %\"\n\"2026-03-14 09:30\",\"17,5\",\"54\"\n"},
        Spelling{"lines above the table",
                 "Logger 7;cellar\nSerial;000\n\ntime;temp C;RH %\n2026-03-14 09:30;17.5;54\n"},
        Spelling{"a line of units", "time;temp;RH\n;degC;%\n2026-03-14 09:30;17.5;54\n"},
        Spelling{"units in the cells",
                 "time;temp;RH\n2026-03-14 09:30;17,5 \xc2\xb0"
                 "C;54 %\n"},
        Spelling{"shares of one", "time,temp C,RH [0-1]\n2026-03-14 09:30,17.5,0.54\n"},
        Spelling{"kelvin", "time,temp K,RH %\n2026-03-14 09:30,290.65,54\n"},
        Spelling{"dew point beside it",
                 "time,dew point C,temp C,abs. humidity g/m3,RH %\n"
                 "2026-03-14 09:30,8,17.5,9,54\n"},
        Spelling{"blanks and a last separator",
                 "time ; temp C ; RH % ;\n 2026-03-14 09:30 ; 17.5 ; 54 ;\n"}));

TEST(Readings, saysHowTheFileWasUnderstood) {
  const auto r = read_well(
      "Logger 7\ntime;battery;temp;RH;door\n13/03/2026 23:50;3,1;17,0;54;0\n"
      "14/03/2026 00:00;3,1;17,0;54;0\n");
  EXPECT_THAT(r.notes,
              ElementsAre("The table begins in line 2; what stands above it is passed over.",
                          "Columns not used: battery and door.",
                          "The temperature has no unit and is taken as degC.",
                          "The humidity has no unit and is taken as per cent.",
                          "Dates have the day first: a first number is above 12."));
}

std::string table(const std::string& rows) { return "time;temp C;RH %\n" + rows; }

TEST(Readings, leavesBadRowsOutAndTellsTheirLines) {
  const auto r =
      read_well(table("2026-03-14 09:00;17,0;54\n"
                      "2026-03-14 09:05;17,0;54\n"
                      "2026-03-14 09:10;17,0;5o\n"
                      "2026-03-14 09:20;;54\n"
                      "2026-03-14 09:30;17,0;540\n"
                      "2026-03-14 09:40;17,0;inf\n"
                      "2026-03-14 08:00;17,0;54\n"
                      "2026-03-14 09:00;17,0;54\n"
                      "yesterday;17,0;54\n"
                      "2026-03-14 09:50;\"17,0;54\n"
                      "2026-03-14 10:00;17,0;54;1;2\n"
                      "\n"
                      "2026-03-14 10:10;17,0;nan\n"
                      "2026-03-14 10:20;180;54\n"
                      "2026-03-14 10:30;17,2;55\n"));
  ASSERT_EQ(r.rows.size(), 3U);
  EXPECT_EQ(r.rows[0].line, 2);
  EXPECT_EQ(r.rows[2].line, 16);
  EXPECT_EQ(left_out(r), 11);
  std::vector<std::string> said;
  for (const auto& w : r.warnings) {
    EXPECT_EQ(w.file, "log.csv");
    said.push_back(std::to_string(w.where.line) + ":" + std::to_string(w.where.column) + " " +
                   w.what);
  }
  EXPECT_THAT(
      said,
      ElementsAre(
          "4:23 row left out: humidity \"5o\" is not a number; 3 rows like it: lines 4, 7 and 14",
          "5:18 row left out: there is no temperature in it",
          "6:23 row left out: a humidity of 540 % is outside 0 to 100 %; 2 rows like it: lines 6 "
          "and 15",
          "8:1 row left out: its time does not go on from the rows beside it",
          "9:1 row left out: its time is that of line 2",
          "10:1 row left out: \"yesterday\" is not a date with a time",
          "11:19 row left out: a quote is not closed; 2 rows like it: lines 11 and 12"));
}

TEST(Readings, oneWildTimeDoesNotCostTheRowsBehindIt) {
  const auto r =
      read_well(table("2026-03-14 09:00;17;54\n2096-01-01 00:00;17;54\n"
                      "2026-03-14 09:10;17;54\n2026-03-14 09:20;17;54\n"));
  EXPECT_EQ(r.rows.size(), 3U);
  EXPECT_EQ(r.left_out[0].lines, std::vector<int>{3});
}

TEST(Readings, takesALogWithTheNewestFirst) {
  const auto r =
      read_well(table("2026-03-14 09:20;18;54\n2026-03-14 09:10;17;54\n"
                      "2026-03-14 09:00;16;54\n"));
  ASSERT_EQ(r.rows.size(), 3U);
  EXPECT_NEAR(celsius(r.rows[0]), 16, 1e-9);
  EXPECT_THAT(r.notes, Contains(HasSubstr("newest reading stands first")));
}

TEST(Readings, findsGapsByTheUsualInterval) {
  const auto r =
      read_well(table("2026-03-14 09:00;17;54\n2026-03-14 09:10;17;54\n"
                      "2026-03-14 09:20;17;54\n2026-03-14 09:50;17;54\n"
                      "2026-03-14 10:21;17;54\n2026-03-14 10:30;17;54\n"
                      "2026-03-14 10:40;17;54\n"));
  EXPECT_EQ(r.interval, 10min);
  ASSERT_EQ(r.gaps.size(), 1U);  // half an hour is three intervals and no gap
  EXPECT_EQ(r.gaps[0].line_before, 5);
  EXPECT_EQ(r.gaps[0].line_after, 6);
  const auto hourly =
      read_well(table("2026-03-14 09:00;17;54\n2026-03-14 10:00;17;54\n"
                      "2026-03-14 11:00;17;54\n2026-03-14 13:00;17;54\n"));
  ASSERT_EQ(hourly.gaps.size(), 1U);
  EXPECT_EQ(hourly.gaps[0].line_before, 4);
}

// Clocks in Lisbon go from 01:00 to 02:00 on 29 March 2026 and from 02:00 back to 01:00 on 25
// October 2026 [the tz database, through zone.hpp].
TEST(Readings, leavesOutATimeThatNeverWas) {
  const auto r =
      read_well(table("2026-03-29 00:50;17;54\n2026-03-29 01:10;17;54\n"
                      "2026-03-29 02:10;17;54\n"));
  ASSERT_EQ(r.rows.size(), 2U);
  EXPECT_EQ(r.rows[1].at - r.rows[0].at, 20min);
  ASSERT_EQ(r.warnings.size(), 1U);
  EXPECT_EQ(r.warnings[0].where.line, 3);
  EXPECT_THAT(r.warnings[0].what, HasSubstr("the clocks go from 01:00 to 02:00"));
  EXPECT_THAT(r.warnings[0].help, HasSubstr("readings_zone"));
}

TEST(Readings, tellsTheHourThatComesTwiceApartByItsRows) {
  const auto r =
      read_well(table("2026-10-25 00:30;17;54\n2026-10-25 01:00;17;54\n"
                      "2026-10-25 01:30;17;54\n2026-10-25 01:00;18;54\n"
                      "2026-10-25 01:30;18;54\n2026-10-25 02:00;18;54\n"));
  ASSERT_EQ(r.rows.size(), 6U);
  for (std::size_t i = 1; i < r.rows.size(); ++i) {
    EXPECT_EQ(r.rows[i].at - r.rows[i - 1].at, 30min);
  }
  EXPECT_EQ(at(r.rows[1]), "2026-10-25T00:00:00+00:00");
  EXPECT_EQ(at(r.rows[3]), "2026-10-25T01:00:00+00:00");
  EXPECT_THAT(r.notes, Contains(HasSubstr("4 rows lie in the hour that comes twice")));
}

TEST(Readings, countsTimesInTheZoneAsked) {
  const auto r = read_well(table("2026-07-14 09:30;17;54\n"), {.zone = "Europe/Lisbon"});
  EXPECT_EQ(at(r.rows[0]), "2026-07-14T08:30:00+00:00");
  const auto utc = read_well(table("2026-07-14 09:30;17;54\n"), {.zone = "UTC"});
  EXPECT_EQ(at(utc.rows[0]), "2026-07-14T09:30:00+00:00");
}

// --- which number is the day -------------------------------------------------------------------

std::string first_day(const std::string& rows, const ReadingsOptions& options = lisbon) {
  return at(read_well(table(rows), options).rows[0]).substr(0, 10);
}

TEST(DateOrder, isDecidedByANumberAboveTwelveAnywhere) {
  EXPECT_EQ(first_day("11/03/2026 09:00;17;54\n12/03/2026 09:00;17;54\n13/03/2026 09:00;17;54\n"),
            "2026-03-11");
  EXPECT_EQ(first_day("03/11/2026 09:00;17;54\n03/12/2026 09:00;17;54\n03/13/2026 09:00;17;54\n"),
            "2026-03-11");
}

TEST(DateOrder, isDecidedByRowsThatFollowCloselyOverMidnight) {
  EXPECT_EQ(first_day("04/03/2026 23:50;17;54\n05/03/2026 00:00;17;54\n", {.zone = "UTC"}),
            "2026-03-04");
  EXPECT_EQ(first_day("03/04/2026 23:50;17;54\n03/05/2026 00:00;17;54\n", {.zone = "UTC"}),
            "2026-03-04");
}

TEST(DateOrder, isDecidedByTheDayOfTheSessionWhenNothingElseDoes) {
  const std::string rows = "04/03/2026 09:00;17;54\n04/03/2026 09:10;17;54\n";
  EXPECT_EQ(first_day(rows, {.zone = "UTC", .day = 2026y / 3 / 4}), "2026-03-04");
  EXPECT_EQ(first_day(rows, {.zone = "UTC", .day = 2026y / 4 / 3}), "2026-04-03");
  EXPECT_EQ(first_day("04/04/2026 09:00;17;54\n", {.zone = "UTC"}), "2026-04-04");
}

TEST(DateOrder, isRefusedWhenItCannotBeToldOrContradictsItself) {
  const auto open = refused(table("04/03/2026 09:00;17;54\n"));
  EXPECT_EQ(open.where.line, 2);
  EXPECT_THAT(open.what, HasSubstr("no number in its dates is above 12"));
  EXPECT_THAT(open.help, HasSubstr("year first"));
  const auto both = refused(table("14/03/2026 09:00;17;54\n03/14/2026 09:10;17;54\n"));
  EXPECT_THAT(both.what, HasSubstr("some dates have a number above 12 first"));
}

// --- files that are refused ----------------------------------------------------------------------

TEST(Readings, refusesUnitsThatCanBeTakenTwoWays) {
  EXPECT_THAT(refused("time;temp;RH %\n2026-03-14 09:30;63.5;54\n").help, HasSubstr("[degF]"));
  const auto bare = refused("time;temp C;RH\n2026-03-14 09:30;17.5;0.54\n");
  EXPECT_THAT(bare.what, HasSubstr("the humidity has no unit"));
  EXPECT_THAT(bare.help, HasSubstr("RH [%]"));
  const auto percent = refused("time;temp C;RH %\n2026-03-14 09:30;17.5;0.54\n");
  EXPECT_THAT(percent.what, HasSubstr("said to be in per cent"));
}

TEST(Readings, saysWhatAFileWithoutReadingsLacks) {
  for (const char* text : {"", "\n\n", "hello\n", "a,b,c\n1,2,3\n"}) {
    const auto e = refused(text);
    EXPECT_THAT(e.what, HasSubstr("no table of readings in it"));
    EXPECT_THAT(e.help, HasSubstr("time;temperature [degC];humidity [%]"));
  }
  const auto no_damp = refused("time,temp C,pressure\n2026-03-14 09:30,17,1013\n");
  EXPECT_EQ(no_damp.where.line, 1);
  EXPECT_THAT(no_damp.what, HasSubstr("no column of humidity in this header; its columns are"));
  EXPECT_THAT(refused("time;temp C;RH %\n").what, HasSubstr("not one row can be used"));
  const auto bad = refused(table("2026-03-14;17;54\n"));
  EXPECT_THAT(bad.what, HasSubstr("line 2: \"2026-03-14\" is not a date with a time"));
  EXPECT_THAT(bad.help, HasSubstr("2026-03-14 09:30;17.2;54"));
}

TEST(Readings, refusesWhatIsNoTextOrTooLarge) {
  EXPECT_TRUE(refused(std::string("PK\x03\x04rest", 8)).unreadable);
  EXPECT_TRUE(refused(std::string("t\0i\0m\0e\0", 8)).unreadable);
  EXPECT_TRUE(refused(std::string(largest_log + 1, '1')).unreadable);
  std::string many = table("");
  for (std::size_t i = 0; i <= most_readings; ++i) many += "1;1;1\n";
  EXPECT_THAT(refused(many).what, HasSubstr("more than 300000 rows"));
}

TEST(Readings, aLineWithoutEndIsARowLeftOut) {
  const auto r = read_well(table("2026-03-14 09:30;17;54\n" + std::string(5000, '7') + "\n"));
  EXPECT_EQ(r.rows.size(), 1U);
  EXPECT_THAT(r.warnings[0].what, HasSubstr("longer than 4096 bytes"));
}

}  // namespace
}  // namespace dampline::session
