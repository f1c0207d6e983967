#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <dampline/scheduling/check.hpp>
#include <dampline/scheduling/solve.hpp>

#include "scheduling/support.hpp"
#include "support/reference_table.hpp"

namespace dampline::scheduling {
namespace {

using dampline::tests::reference_table;
using testing::IsEmpty;

struct Known {
  std::string status;
  int lower = 0;
  int upper = 0;
};

// No claim that the published bounds contradict, whatever the budget allowed.
void expect_no_wrong_claim(const Known& known, const Problem& problem, const Result& result) {
  if (known.status == "infeasible") {
    EXPECT_NE(result.status, Status::optimal);
    EXPECT_NE(result.status, Status::feasible);
    return;
  }
  EXPECT_NE(result.status, Status::infeasible);
  EXPECT_LE(result.bound, known.upper);
  if (result.starts.empty()) return;
  EXPECT_THAT(check(problem, result.starts), IsEmpty());
  EXPECT_GE(result.makespan, known.lower);
  if (result.status == Status::optimal && known.status == "optimal") {
    EXPECT_EQ(result.makespan, known.upper);
  }
}

class Published : public testing::TestWithParam<std::string> {};

TEST_P(Published, isSolvedOrNotContradicted) {
  const auto table = reference_table("scheduling/optima.csv");
  int proved = 0;
  int closed = 0;
  for (const auto& row : table) {
    if (row.field[1] != GetParam()) continue;
    SCOPED_TRACE(row.field[0]);
    const Known known{row.field[2], static_cast<int>(row.cell[3]), static_cast<int>(row.cell[4])};
    const auto problem = tests::published(row.field[0]);
    const auto result = solve(problem, {.conflicts = 20000});
    expect_no_wrong_claim(known, problem, result);
    if (known.status != "open") ++closed;
    if (result.status == Status::optimal || result.status == Status::infeasible) ++proved;
  }
  EXPECT_GT(closed, 0);
  // Hard within this budget: one each of the j60 and j120 sets.
  const bool has_hard = GetParam() == "j60" || GetParam() == "j120";
  EXPECT_GE(proved, closed - (has_hard ? 1 : 0));
}

INSTANTIATE_TEST_SUITE_P(Sets, Published,
                         testing::Values("ubo10", "ubo20", "ubo50", "ubo100", "ubo200", "j30",
                                         "j60", "j120"),
                         [](const auto& set) { return set.param; });

TEST(Sessions, areProvedOptimal) {
  for (const auto& row : reference_table("scheduling/sessions.csv")) {
    SCOPED_TRACE(row.field[0]);
    const auto problem = tests::published(row.field[0]);
    const auto result = solve(problem, {.conflicts = 50000});
    EXPECT_EQ(result.status, Status::optimal);
    EXPECT_EQ(result.makespan, static_cast<int>(row.cell[1]));
    EXPECT_EQ(result.bound, result.makespan);
    EXPECT_THAT(check(problem, result.starts), IsEmpty());
  }
}

// A plan at once: the first schedule of a session takes hardly a conflict.
TEST(Sessions, haveAFirstScheduleAtOnce) {
  for (const auto& row : reference_table("scheduling/sessions.csv")) {
    SCOPED_TRACE(row.field[0]);
    long long conflicts = -1;
    Options options{.conflicts = 1000};
    options.progress = [&](const Progress& progress) {
      if (progress.makespan < 0) return true;
      conflicts = progress.conflicts;
      return false;
    };
    (void)solve(tests::published(row.field[0]), options);
    EXPECT_GE(conflicts, 0);
    EXPECT_LE(conflicts, 100);
  }
}

}  // namespace
}  // namespace dampline::scheduling
