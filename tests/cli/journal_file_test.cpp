#include "journal_file.hpp"

#include <cerrno>
#include <sstream>
#include <thread>

#include <gmock/gmock.h>
#include <sys/file.h>
#include <sys/resource.h>
#include <sys/stat.h>
#include <sys/wait.h>
#include <unistd.h>

#include <dampline/journal/blocks.hpp>
#include <dampline/journal/read.hpp>
#include <dampline/journal/write.hpp>

#include "support/scratch_folder.hpp"

namespace dampline::cli {
namespace {

namespace fs = std::filesystem;
using testing::HasSubstr;

std::string block(const std::string& text) {
  journal::Entry e;
  e.time.at = std::chrono::sys_days(std::chrono::year(2026) / 3 / 14);
  e.day = std::chrono::year(2026) / 3 / 14;
  e.record = journal::Note{text};
  return journal::written(e);
}

class JournalFile : public tests::ScratchFolder {
 protected:
  [[nodiscard]] std::string journal() const { return path("journal.toml"); }
  [[nodiscard]] std::string side() const { return journal() + ".torn"; }
  [[nodiscard]] std::size_t entries() const {
    const auto found = journal::read(get(journal()), "j");
    EXPECT_TRUE(found.errors.empty());
    EXPECT_FALSE(found.torn);
    return found.entries.size();
  }
  JournalText shown() {
    std::istringstream in;
    std::ostringstream out;
    Streams io{.in = in, .out = out, .err = out};
    return read_journal_text(journal(), io);
  }
  template <class Act>
  static Failure failure_of(Act act) {
    try {
      act();
    } catch (const Failure& e) {
      return e;
    }
    return {0, "nothing failed"};
  }
};

TEST_F(JournalFile, isBegunAndAddedTo) {
  EXPECT_FALSE(append_to_journal(journal(), block("one")));
  EXPECT_FALSE(append_to_journal(journal(), block("two")));
  EXPECT_EQ(get(journal()), std::string(journal::preamble()) + block("one") + block("two"));
}

TEST_F(JournalFile, aTornTailIsSetAsideByTheNextEntryAndTheRestIsKept) {
  append_to_journal(journal(), block("one"));
  append_to_journal(journal(), block("two"));
  const auto whole = get(journal());
  const auto last = whole.rfind("[[entry]]");
  for (const std::size_t cut : {last + 3, last + 9, last + 15, last + 30, whole.size() - 2}) {
    fs::remove(side());
    put(journal(), whole.substr(0, cut));
    const auto aside = append_to_journal(journal(), block("three"));
    ASSERT_TRUE(aside) << cut;
    EXPECT_EQ(aside->file, side());
    EXPECT_EQ(aside->bytes, cut - last);
    EXPECT_EQ(get(side()), "# cut off at line " + std::to_string(aside->line) + "\n" +
                               whole.substr(last, cut - last) + "\n");
    EXPECT_EQ(get(journal()), whole.substr(0, last) + block("three"));
    EXPECT_THAT(told(journal(), *aside), HasSubstr("journal.toml.torn now; every entry before"));
  }
}

TEST_F(JournalFile, aTornTailIsSetAsideByReadingToo) {
  append_to_journal(journal(), block("one"));
  const auto whole = get(journal());
  put(journal(), whole + "\n[[entry]]\nschema = 1 # {\ntime = 20");
  const auto text = shown();
  ASSERT_TRUE(text.set_aside);
  EXPECT_EQ(text.text, whole + "\n");
  EXPECT_EQ(get(journal()), whole + "\n");
  EXPECT_FALSE(shown().set_aside);
  // A second tail is added to the first.
  const auto first = get(side());
  put(journal(), whole + "\n[[entry]]\nschema = 1 # {\nti");
  EXPECT_TRUE(shown().set_aside);
  EXPECT_EQ(get(side()).rfind(first, 0), 0U);
  EXPECT_GT(get(side()).size(), first.size());
}

// Killed after the copy and before the cut: the tail stands in both files.
TEST_F(JournalFile, aTailCopiedAlreadyIsNotCopiedTwice) {
  append_to_journal(journal(), block("one"));
  const auto torn = get(journal()) + "\n[[entry]]\nschema = 1 # {\ntime = 20";
  put(journal(), torn);
  EXPECT_TRUE(shown().set_aside);
  const auto copied = get(side());
  put(journal(), torn);
  EXPECT_TRUE(shown().set_aside);
  EXPECT_EQ(get(side()), copied);
}

TEST_F(JournalFile, aFileOfAnotherKindIsNeitherReadNorTouched) {
  for (const char* text : {"title = \"Salt marsh\"\n", "garbage"}) {
    put(journal(), text);
    EXPECT_EQ(failure_of([&] { append_to_journal(journal(), block("x")); }).status(), 65);
    EXPECT_EQ(failure_of([&] { (void)shown(); }).status(), 65);
    EXPECT_EQ(get(journal()), text);
    EXPECT_FALSE(fs::exists(side()));
  }
}

TEST_F(JournalFile, wordsTypedAtTheEndByHandStayAndAreContinuedOnALineOfTheirOwn) {
  append_to_journal(journal(), block("one"));
  put(journal(), get(journal()) +
                     "\n[[entry]]\nschema = 1\ntime = 2026-03-14T10:00:00Z\n"
                     "kind = \"note\"\ntext = \"no line end\"");
  EXPECT_FALSE(append_to_journal(journal(), block("three")));
  EXPECT_EQ(entries(), 3U);
}

TEST_F(JournalFile, placesThatCannotBeWrittenAreOneErrorEach) {
  EXPECT_EQ(failure_of([&] { append_to_journal(path("no/such/j.toml"), block("x")); }).status(),
            73);
  EXPECT_EQ(failure_of([&] { append_to_journal(folder_.string(), block("x")); }).status(), 73);
  EXPECT_EQ(failure_of([&] { append_to_journal("/dev/full", block("x")); }).status(), 73);
  EXPECT_EQ(failure_of([&] { append_to_journal("-", block("x")); }).status(), 2);
  EXPECT_EQ(failure_of([&] { (void)shown(); }).status(), 66);
}

// Runs in a process of its own; its exit status is what it returns.
template <class Act>
pid_t forked(Act act) {
  const auto child = ::fork();
  if (child == 0) ::_exit(act());
  return child;
}

int exit_status_of(pid_t child) {
  int status = 0;
  ::waitpid(child, &status, 0);
  return WIFEXITED(status) ? WEXITSTATUS(status) : 1000 + WTERMSIG(status);
}

TEST_F(JournalFile, readOnlyAJournalIsReadAndNotChanged) {
  append_to_journal(journal(), block("one"));
  put(journal(), get(journal()) + "\n[[entry]]\nschema = 1 # {\ntime = 20");
  const auto before = get(journal());
  ASSERT_EQ(::chmod(journal().c_str(), 0444), 0);
  const auto child = forked([&] {
    // root may write anything
    if (::geteuid() == 0 && ::setuid(65534) != 0) return 1;
    const auto e = failure_of([&] { append_to_journal(journal(), block("x")); });
    const auto text = shown();
    const auto seen = journal::read(text.text, "j").entries.size();
    return e.status() == 73 && text.torn_line && !text.set_aside && seen == 1 ? 0 : 2;
  });
  EXPECT_EQ(exit_status_of(child), 0);
  EXPECT_EQ(get(journal()), before);
  EXPECT_FALSE(fs::exists(side()));
}

// A limit on the size of files stands in for a full disk: the write is cut short, then refused.
TEST_F(JournalFile, onAFullDiskItIsAsItWas) {
  append_to_journal(journal(), block("one"));
  const auto before = get(journal());
  for (const std::size_t room : {std::size_t{0}, std::size_t{1}, block("two").size() - 1}) {
    const auto child = forked([&] {
      const rlim_t most = before.size() + room;
      const rlimit limit{most, most};
      if (::setrlimit(RLIMIT_FSIZE, &limit) != 0) return 1;
      const auto e = failure_of([&] { append_to_journal(journal(), block("two")); });
      return e.status() == 74 && std::string(e.what()).find("broke off") != std::string::npos &&
                     e.help().find("as it was") != std::string::npos
                 ? 0
                 : 2;
    });
    EXPECT_EQ(exit_status_of(child), 0);
    EXPECT_EQ(get(journal()), before) << room;
  }
  const auto fresh = path("fresh.toml");
  const auto child = forked([&] {
    const rlimit limit{10, 10};
    if (::setrlimit(RLIMIT_FSIZE, &limit) != 0) return 1;
    return failure_of([&] { append_to_journal(fresh, block("x")); }).status();
  });
  EXPECT_EQ(exit_status_of(child), 74);
  EXPECT_FALSE(fs::exists(fresh));
}

TEST_F(JournalFile, aJournalReplacedWhileItsLockIsAwaitedIsWrittenToByItsName) {
  append_to_journal(journal(), block("one"));
  FILE* held = std::fopen(journal().c_str(), "r");
  ASSERT_NE(held, nullptr);
  ASSERT_EQ(::flock(::fileno(held), LOCK_EX), 0);
  const auto child = forked([&] {
    ::close(::fileno(held));  // the lock is the parent's alone
    return failure_of([&] { append_to_journal(journal(), block("two")); }).status();
  });
  std::this_thread::sleep_for(std::chrono::milliseconds(50));
  put(path("edited"), get(journal()));
  fs::rename(path("edited"), journal());
  std::fclose(held);
  EXPECT_EQ(exit_status_of(child), 0);
  EXPECT_EQ(entries(), 2U);
}

}  // namespace
}  // namespace dampline::cli
