#include <cerrno>
#include <chrono>
#include <csignal>
#include <cstdlib>
#include <random>
#include <set>
#include <thread>

#include <sys/wait.h>
#include <unistd.h>

#include <dampline/journal/kinds.hpp>
#include <dampline/journal/read.hpp>
#include <dampline/journal/write.hpp>

#include "journal_file.hpp"
#include "support/scratch_folder.hpp"

// Two processes append at once and are killed (SIGKILL) at any moment. What a process was told is
// stored must be there, and nothing half written may stay.
//   DAMPLINE_KILL_RUNS=100 tests/dampline_cli_tests --gtest_filter='JournalKill.*'

namespace dampline::cli {
namespace {

constexpr int writers = 2;
constexpr int appends = 500;

struct Writer {
  pid_t process = 0;
  int acknowledgements = -1;  // a pipe: four bytes for each entry said to be stored
};

std::string block_of(int writer, int number) {
  journal::Entry e;
  e.time.at = std::chrono::sys_days(std::chrono::year(2026) / 3 / 14);
  e.day = std::chrono::year(2026) / 3 / 14;
  e.session = "writer " + std::to_string(writer);
  // Long texts now and then, so that some entries go over several pages of the file.
  const auto length = static_cast<std::size_t>(number % 7 == 0 ? 3900 : 40);
  e.record =
      journal::Print{number, journal::Print::Verdict::spoiled, std::string(length, 'x'), {}, {}};
  return journal::written(e);
}

Writer begun(const std::string& path, int writer, int round) {
  int ends[2] = {-1, -1};
  EXPECT_EQ(::pipe(ends), 0);
  const auto process = ::fork();
  if (process == 0) {
    ::close(ends[0]);
    for (int i = 0; i < appends; ++i) {
      const int number = 1 + round * appends + i;
      append_to_journal(path, block_of(writer, number));
      if (::write(ends[1], &number, sizeof number) != sizeof number) ::_exit(1);
    }
    ::_exit(0);
  }
  ::close(ends[1]);
  return {process, ends[0]};
}

std::vector<int> acknowledged(const Writer& writer) {
  std::vector<int> out;
  for (int number = 0; ::read(writer.acknowledgements, &number, sizeof number) == sizeof number;) {
    out.push_back(number);
  }
  ::close(writer.acknowledgements);
  return out;
}

int runs() {
  const char* stated = std::getenv("DAMPLINE_KILL_RUNS");
  return stated == nullptr ? 3 : std::atoi(stated);
}

class JournalKill : public tests::ScratchFolder {};

TEST_F(JournalKill, losesNothingThatWasAcknowledgedAndKeepsNothingTorn) {
  // The first run is left to end, and says how long one takes.
  std::mt19937 random(20260314);
  std::chrono::microseconds whole_run{0};
  int killed = 0;
  int torn = 0;
  std::size_t stored = 0;
  for (int round = 0; round <= runs(); ++round) {
    const auto journal = path("journal-" + std::to_string(round) + ".toml");
    std::set<std::pair<std::string, int>> told_stored;
    const auto start = std::chrono::steady_clock::now();
    std::vector<Writer> all;
    for (int w = 0; w < writers; ++w) all.push_back(begun(journal, w, round));
    if (round > 0) {
      const auto share = static_cast<double>(random()) / static_cast<double>(random.max());
      std::this_thread::sleep_for(share * whole_run);
      for (const auto& w : all) ::kill(w.process, SIGKILL);
    }
    for (int w = 0; w < writers; ++w) {
      for (const int number : acknowledged(all[static_cast<std::size_t>(w)])) {
        told_stored.emplace("writer " + std::to_string(w), number);
      }
      int status = 0;
      ::waitpid(all[static_cast<std::size_t>(w)].process, &status, 0);
      killed += WIFSIGNALED(status) ? 1 : 0;
      ASSERT_TRUE(round > 0 || status == 0);
    }
    if (round == 0) {
      whole_run = std::chrono::duration_cast<std::chrono::microseconds>(
          std::chrono::steady_clock::now() - start);
      ASSERT_EQ(told_stored.size(), static_cast<std::size_t>(writers * appends));
    }
    torn += journal::torn_tail(get(journal)).has_value() ? 1 : 0;
    append_to_journal(journal, block_of(writers, round + 1));
    told_stored.emplace("writer " + std::to_string(writers), round + 1);

    const auto found = journal::read(get(journal), journal);
    ASSERT_TRUE(found.errors.empty()) << session::rendered(found.errors.front());
    ASSERT_FALSE(found.torn);
    std::set<std::pair<std::string, int>> there;
    for (const auto& e : found.entries) {
      const auto& print = std::get<journal::Print>(e.record);
      ASSERT_TRUE(there.emplace(e.session, print.print).second) << "twice: " << print.print;
      const auto written = journal::written(e);
      ASSERT_EQ(written, block_of(e.session.back() - '0', print.print));
    }
    for (const auto& one : told_stored) {
      ASSERT_TRUE(there.contains(one)) << one.first << ", " << one.second << " is lost";
    }
    stored += told_stored.size();
  }
  RecordProperty("killed", killed);
  RecordProperty("torn", torn);
  std::printf("%d processes killed, %d tails torn, %zu entries acknowledged, none lost\n", killed,
              torn, stored);
  EXPECT_TRUE(runs() == 0 || killed > 0);
}

}  // namespace
}  // namespace dampline::cli
