#include <gtest/gtest.h>

#include <dampline/scheduling/read.hpp>

#include "scheduling/support.hpp"
#include "support/reference_table.hpp"

namespace dampline::scheduling {
namespace {

const std::string small_sch =
    "1\t1\t0\t0\n"
    "0\t1\t1\t1\t[2]\n"
    "1\t1\t2\t2\t0\t[3]\t[-4]\n"
    "2\t1\t0\n"
    "0\t1\t0\t0\n"
    "1\t1\t3\t5\n"
    "2\t1\t0\t0\n"
    "6\n";

int line_of_error(const std::string& text, Problem (*read)(std::string_view)) {
  try {
    (void)read(text);
  } catch (const ReadError& error) {
    return error.line;
  }
  return 0;
}

std::string with(std::string text, const std::string& from, const std::string& to) {
  const auto at = text.find(from);
  if (at == std::string::npos) throw std::runtime_error("no " + from);
  return text.replace(at, from.size(), to);
}

TEST(ReadSch, takesLagsDemandsAndCapacities) {
  const auto problem = read_sch(small_sch);
  ASSERT_EQ(problem.activities.size(), 3U);
  EXPECT_EQ(problem.activities[1].duration, 3);
  ASSERT_EQ(problem.activities[1].uses.size(), 1U);
  EXPECT_EQ(problem.activities[1].uses[0].amount, 5);
  EXPECT_TRUE(problem.activities[2].uses.empty());
  ASSERT_EQ(problem.lags.size(), 3U);
  EXPECT_EQ(problem.lags[2].from, 1);
  EXPECT_EQ(problem.lags[2].to, 0);
  EXPECT_EQ(problem.lags[2].least, -4);
  EXPECT_EQ(problem.resources.at(0).capacity, 6);
  EXPECT_EQ(problem.source, 0);
  EXPECT_EQ(problem.sink, 2);
  EXPECT_EQ(problem.horizon, 5);  // 2 for the source, 3 for the activity
}

TEST(ReadSch, namesTheLineOfWhatIsMalformed) {
  EXPECT_EQ(line_of_error("", read_sch), 1);
  EXPECT_EQ(line_of_error(with(small_sch, "1\t1\t0\t0", "1\t1\t2\t0"), read_sch), 1);
  EXPECT_EQ(line_of_error(with(small_sch, "[2]", "2"), read_sch), 2);
  EXPECT_EQ(line_of_error(with(small_sch, "[-4]", "[-4"), read_sch), 3);
  EXPECT_EQ(line_of_error(with(small_sch, "[3]", "[3.5]"), read_sch), 3);
  EXPECT_EQ(line_of_error(with(small_sch, "\t2\t0\t[3]", "\t9\t0\t[3]"), read_sch), 3);
  EXPECT_EQ(line_of_error(with(small_sch, "2\t1\t0\n", "3\t1\t0\n"), read_sch), 4);
  EXPECT_EQ(line_of_error(with(small_sch, "1\t1\t3\t5", "1\t1\t-3\t5"), read_sch), 6);
  EXPECT_EQ(line_of_error(with(small_sch, "1\t1\t3\t5", "1\t1\t3\t5\t7"), read_sch), 6);
  EXPECT_EQ(line_of_error(with(small_sch, "6\n", "x\n"), read_sch), 8);
  EXPECT_EQ(line_of_error(with(small_sch, "6\n", ""), read_sch), 7);
  EXPECT_EQ(line_of_error(small_sch + "1\n", read_sch), 9);
  EXPECT_EQ(line_of_error("99999999999999999999\t1\t0\t0\n", read_sch), 1);
  EXPECT_EQ(line_of_error("2000000\t1\t0\t0\n", read_sch), 1);
}

TEST(ReadSm, successorsWaitForTheEnd) {
  const auto problem = tests::published("j30_j3042_7.sm");
  EXPECT_EQ(problem.activities.size(), 32U);
  EXPECT_EQ(problem.resources.size(), 4U);
  EXPECT_EQ(problem.activities.back().duration, 0);
  for (const auto& lag : problem.lags) {
    EXPECT_EQ(lag.least, problem.activities[static_cast<std::size_t>(lag.from)].duration);
  }
}

TEST(ReadSm, namesTheLineOfWhatIsMalformed) {
  const auto text = dampline::tests::repository_file("tests/reference/scheduling/j30_j3042_7.sm");
  EXPECT_EQ(line_of_error(text, read_sm), 0);
  EXPECT_EQ(line_of_error("", read_sm), 1);
  EXPECT_EQ(line_of_error(with(text, "jobs (incl. supersource/sink ):  32",
                               "jobs (incl. supersource/sink ):  many"),
                          read_sm),
            6);
  EXPECT_EQ(line_of_error(
                with(text, "- nonrenewable              :  0", "- nonrenewable              :  2"),
                read_sm),
            10);
  const auto cut = text.substr(0, text.find("RESOURCEAVAILABILITIES"));
  EXPECT_GT(line_of_error(cut, read_sm), 80);
}

// Whatever the bytes, an error or a problem that makes sense.
TEST(Read, neverFailsOtherwise) {
  std::mt19937 random(7);
  const auto sm = dampline::tests::repository_file("tests/reference/scheduling/j30_j3042_7.sm");
  for (int round = 0; round < 2000; ++round) {
    const bool is_sch = round % 2 == 0;
    std::string text = is_sch ? small_sch : sm;
    for (int change = 0; change < 3; ++change) {
      const auto at = random() % text.size();
      switch (random() % 3) {
        case 0:
          text[at] = static_cast<char>(random() % 256);
          break;
        case 1:
          text.erase(at, 1 + random() % 8);
          break;
        default:
          text.insert(at, 1, "0123456789-[]\t\n"[random() % 15]);
      }
      if (text.empty()) text = "\n";
    }
    try {
      EXPECT_EQ(misfit(is_sch ? read_sch(text) : read_sm(text)), "") << text;
    } catch (const ReadError& error) {
      EXPECT_GE(error.line, 1);
    }
  }
}

}  // namespace
}  // namespace dampline::scheduling
