#include <cmath>
#include <limits>

#include <gtest/gtest.h>

#include <dampline/report/json.hpp>

namespace dampline::report {
namespace {

TEST(Json, writesKeysInTheOrderGivenTwoSpacesALevel) {
  JsonWriter w;
  w.begin_object().member("format", "dampline-plan").member("version", 1);
  w.key("steps").begin_array();
  w.begin_object(Layout::row).member("id", 3).member("done", true).end_object();
  w.begin_object(Layout::row).member("at", std::optional<double>()).end_object();
  w.end_array().key("none").begin_array().end_array().end_object();
  EXPECT_EQ(w.take(),
            "{\n  \"format\": \"dampline-plan\",\n  \"version\": 1,\n  \"steps\": [\n"
            "    {\"id\": 3, \"done\": true},\n    {\"at\": null}\n  ],\n  \"none\": []\n}\n");
}

TEST(Json, numbersReadBackAndOthersAreNull) {
  JsonWriter w;
  w.begin_array(Layout::row).value(0.1).value(1e300).value(-0.0).value(5L);
  w.value(std::nan("")).value(std::numeric_limits<double>::infinity()).end_array();
  EXPECT_EQ(w.take(), "[0.1, 1e+300, -0, 5, null, null]\n");
}

// RFC 8259 section 7: quotation mark, reverse solidus and U+0000 to U+001F must be escaped.
TEST(Json, escapesWhatTheStandardAsksFor) {
  EXPECT_EQ(json_quoted("a\"b\\c\n\t\r\x01\x7f"), R"("a\"b\\c\n\t\r\u0001\u007f")");
  EXPECT_EQ(json_quoted(std::string_view("\0", 1)), R"("\u0000")");
}

TEST(Json, keepsWellFormedUtf8AndReplacesTheRest) {
  EXPECT_EQ(json_quoted("\u00e9\u20ac\U0001F4A7"), "\"\u00e9\u20ac\U0001F4A7\"");
  EXPECT_EQ(json_quoted("caf\xe9"), "\"caf\uFFFD\"");                // Latin-1
  EXPECT_EQ(json_quoted("\xc0\xaf"), "\"\uFFFD\uFFFD\"");            // overlong
  EXPECT_EQ(json_quoted("\xed\xa0\x80"), "\"\uFFFD\uFFFD\uFFFD\"");  // surrogate
}

TEST(Json, refusesToWriteWhatIsNotJson) {
  EXPECT_THROW(JsonWriter().begin_object().value(1), std::logic_error);
  EXPECT_THROW(JsonWriter().begin_array().key("a"), std::logic_error);
  EXPECT_THROW(JsonWriter().begin_object().key("a").end_object(), std::logic_error);
  EXPECT_THROW(JsonWriter().begin_object().end_array(), std::logic_error);
  EXPECT_THROW(JsonWriter().value(1).value(2), std::logic_error);
  EXPECT_THROW(static_cast<void>(JsonWriter().begin_array().take()), std::logic_error);
}

}  // namespace
}  // namespace dampline::report
