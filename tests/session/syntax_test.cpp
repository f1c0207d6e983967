#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <dampline/session/document.hpp>

namespace dampline::session {
namespace {

using testing::HasSubstr;

struct Slip {
  const char* text;
  int line;
  int column;
  const char* what;
  const char* help;
};

std::ostream& operator<<(std::ostream& out, const Slip& s) { return out << s.text; }

class Syntax : public testing::TestWithParam<Slip> {};

TEST_P(Syntax, saysWhatToWriteInstead) {
  const auto& slip = GetParam();
  const auto found = parse_document(slip.text, "marsh.toml");
  ASSERT_TRUE(std::holds_alternative<InputError>(found));
  const auto& e = std::get<InputError>(found);
  EXPECT_TRUE(e.unreadable);
  EXPECT_THAT(e.what, HasSubstr(slip.what));
  EXPECT_THAT(e.help, HasSubstr(slip.help));
  EXPECT_EQ(e.where.line, slip.line);
  EXPECT_EQ(e.where.column, slip.column);
}

INSTANTIATE_TEST_SUITE_P(
    Slips, Syntax,
    testing::Values(
        Slip{"[paper]\ngrammage = 300gsm\n", 2, 12, "a quantity without quotes",
             "grammage = \"300gsm\""},
        Slip{"humidity = 52 %  # by the bench\n", 1, 12, "a quantity without quotes",
             "humidity = \"52 %\""},
        Slip{"sheet = 38 x 56 cm\n", 1, 9, "a quantity without quotes", "sheet = \"38 x 56 cm\""},
        Slip{"grain = long\n", 1, 9, "text without quotes", "grain = \"long\""},
        Slip{"from = 9:30\n", 1, 8, "a clock time without quotes", "from = \"9:30\""},
        Slip{"from = 09:30\n", 1, 8, "a clock time without quotes", "from = \"09:30\""},
        Slip{"date = 2026-02-30\n", 1, 8, "not a date there is", "2026-03-14"},
        Slip{"date = 2026-3-14\n", 1, 8, "not a date there is", "two digits"},
        Slip{"hot_plate = yes\n", 1, 13, "\"yes\" is not a value", "hot_plate = true"},
        Slip{"hot_plate = False\n", 1, 13, "\"False\" is not a value", "hot_plate = false"},
        Slip{"pace = 1,7\n", 1, 8, "a comma in a number", "1.7"},
        Slip{"a = 1\na = 2\n", 2, 1, "a stands here for the second time", "keep one"},
        Slip{"[paper]\n[paper]\n", 2, 1, "[paper] stands here for the second time", "[[plates]]"},
        Slip{"title = \"Salt marsh\n", 1, 9, "without its closing quote", "\"...\""},
        Slip{"title = \"C:\\new\\qq\"\n", 1, 17, "a backslash", "twice"},
        Slip{"[paper\nx = 1\n", 1, 7, "not closed", "[paper]"},
        Slip{"order = [\"a\", \"b\"\nprints = 3\n", 2, 1, "a list is not closed", "]"},
        Slip{"tub = { sheets = 3\n", 1, 19, "in braces is not closed", "one line"},
        Slip{"prints 3\n", 1, 8, "not a line of the form key = value", "equals sign"},
        Slip{"prints: 3\n", 1, 7, "not a line of the form key = value", "equals sign"},
        Slip{"prints =\n", 1, 9, "no value after the equals sign", "prints"},
        Slip{"= 3\n", 1, 1, "no key", "grain"},
        Slip{"title = \u201cSalt\u201d\n", 1, 9, "curly quotation mark", "straight quotes"},
        Slip{"title = \"Salt\" marsh\n", 1, 16, "after the closing quote", "#"}));

}  // namespace
}  // namespace dampline::session
