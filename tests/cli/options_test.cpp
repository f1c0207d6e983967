#include "options.hpp"

#include <sstream>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

namespace dampline::cli {
namespace {

using testing::ElementsAre;
using testing::HasSubstr;

struct Read {
  bool json = false;
  std::optional<std::string> output;
  std::optional<std::string> air;
  std::optional<units::Temperature> temperature;
  std::vector<units::Duration> at;
  int samples = 512;
  double pace = 1;
  std::vector<std::string> files;
  std::string complaint;
  std::string help;
  std::string shown;
  bool go_on = false;
};

Read read(const std::vector<std::string>& words) {
  Read r;
  Options options({.command = "try", .purpose = "tries", .usage = "FILE...", .examples = {"try"}});
  options.flag("json,j", r.json, "as JSON")
      .text("output,o", r.output, "FILE", "where to")
      .word("air", r.air, {"still", "ordinary", "fan"}, "movement of the air")
      .quantity("temperature", r.temperature, units::parse_temperature, "17 degC", "of the air")
      .quantities("at", r.at, units::parse_duration, "35 min", "when")
      .whole("samples", r.samples, 1, 10000, "how many")
      .real("pace", r.pace, 0.1, 10, "time over typical")
      .operands("FILE", r.files, "files");
  std::istringstream in;
  std::ostringstream out;
  Streams io{.in = in, .out = out, .err = out};
  try {
    r.go_on = options.parse(words, io);
  } catch (const Failure& e) {
    EXPECT_EQ(e.status(), 2);
    r.complaint = e.what();
    r.help = e.help();
    EXPECT_FALSE(r.help.empty());
  }
  r.shown = out.str();
  return r;
}

TEST(Options, readsEveryForm) {
  const auto r = read({"a.toml", "-j", "--temperature", "17 degC", "--at=35 min", "--at", "1 h",
                       "-ox.html", "--samples", "9", "--air=fan", "-", "--", "--weird.toml"});
  EXPECT_TRUE(r.go_on) << r.complaint;
  EXPECT_TRUE(r.json);
  EXPECT_EQ(r.output, "x.html");
  EXPECT_EQ(r.air, "fan");
  EXPECT_NEAR(units::in_celsius(*r.temperature), 17, 1e-9);
  EXPECT_EQ(r.at.size(), 2U);
  EXPECT_EQ(r.samples, 9);
  EXPECT_THAT(r.files, ElementsAre("a.toml", "-", "--weird.toml"));
}

TEST(Options, bundlesShortFlags) {
  const auto r = read({"-jo", "x"});
  EXPECT_TRUE(r.json);
  EXPECT_EQ(r.output, "x");
}

TEST(Options, aValueMayBeginWithAMinus) {
  EXPECT_NEAR(units::in_celsius(*read({"--temperature=-5 degC"}).temperature), -5, 1e-9);
}

TEST(Options, helpComesBeforeAnyComplaint) {
  const auto r = read({"--samples", "many", "--help"});
  EXPECT_FALSE(r.go_on);
  EXPECT_EQ(r.complaint, "");
  EXPECT_THAT(r.shown, HasSubstr("\n  FILE "));
  EXPECT_THAT(r.shown, HasSubstr("--samples N"));
  EXPECT_THAT(r.shown, HasSubstr("(1 to 10000; default 512)"));
  EXPECT_THAT(r.shown, HasSubstr("--temperature \"17 degC\""));
}

TEST(Options, refusesAbbreviations) {
  EXPECT_THAT(read({"--sam", "3"}).complaint, HasSubstr("unknown option --sam"));
}

TEST(Options, suggestsTheOptionMeant) {
  EXPECT_EQ(read({"--jsno"}).help, "did you mean --json?");
  EXPECT_EQ(read({"--tempreature=3"}).help, "did you mean --temperature?");
  EXPECT_EQ(read({"--zzzzz"}).help, "dampline try --help");
}

TEST(Options, refusesNotANumberInfinityAndEmpty) {
  for (const char* value : {"nan", "inf", "-inf", "1,5", "1.5x", "11", "-1", "1e999"}) {
    EXPECT_THAT(read({std::string("--pace=") + value}).complaint, HasSubstr("from 0.1 to 10"))
        << value;
  }
  EXPECT_THAT(read({"--samples=1.5"}).complaint, HasSubstr("not a whole number from 1 to 10000"));
  EXPECT_THAT(read({"--temperature", "nan degC"}).complaint, HasSubstr("measured"));
  EXPECT_THAT(read({"--pace="}).complaint, HasSubstr("needs a value"));
  EXPECT_THAT(read({"--pace", ""}).complaint, HasSubstr("needs a value"));
  EXPECT_THAT(read({"--pace"}).complaint, HasSubstr("needs a value"));
  EXPECT_THAT(read({""}).complaint, HasSubstr("empty word"));
  EXPECT_THAT(read({"--json=3"}).complaint, HasSubstr("takes no value"));
  EXPECT_THAT(read({"--pace", "1", "--pace", "2"}).complaint, HasSubstr("given twice"));
}

TEST(Options, quantitiesAreRefusedInTheWordsOfTheUnits) {
  const auto r = read({"--temperature", "17"});
  EXPECT_EQ(r.complaint, "--temperature \"17\": bare number for a temperature");
  EXPECT_THAT(r.help, HasSubstr("17 degC"));
}

TEST(Options, wordsAreChecked) {
  const auto r = read({"--air", "stil"});
  EXPECT_THAT(r.complaint, HasSubstr("--air \"stil\""));
  EXPECT_THAT(r.help, HasSubstr("did you mean still?"));
}

}  // namespace
}  // namespace dampline::cli
