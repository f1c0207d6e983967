#include <algorithm>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <dampline/journal/blocks.hpp>
#include <dampline/journal/kinds.hpp>
#include <dampline/journal/read.hpp>
#include <dampline/journal/write.hpp>

#include "sample_entries.hpp"

namespace dampline::journal {
namespace {

using testing::HasSubstr;

std::string three() {
  return std::string(preamble()) + written(tests::entry_at(0, Note{"one"})) +
         written(tests::entry_at(1, Note{"two"})) +
         written(tests::entry_at(
             2, Weighing{Weighing::When::soaked, units::grams(92.4), units::minutes(20), 3}));
}

const std::string by_hand =
    "\n[[entry]]\nschema = 1\ntime = 2026-03-14T10:00:00Z\nkind = \"note\"\ntext = \"by hand\"\n";

int line_at(std::string_view text, std::size_t byte) {
  return static_cast<int>(std::count(text.begin(), text.begin() + static_cast<long>(byte), '\n')) +
         1;
}

TEST(JournalRead, emptyTextIsAJournalWithoutEntries) {
  for (const char* text : {"", "\n\n", "# nothing yet\n", "\xEF\xBB\xBF"}) {
    const auto j = read(text, "j");
    EXPECT_TRUE(j.entries.empty());
    EXPECT_TRUE(j.errors.empty());
    EXPECT_FALSE(j.torn);
  }
}

// Killed at any byte: what was whole before is whole, the last entry is whole or torn, never less
// than it was.
TEST(JournalRead, aTailCutAtAnyByteIsTornAndTheRestIsKept) {
  const auto text = three();
  const auto last = text.rfind("\n[[entry]]") + 1;
  for (auto cut = last + 1; cut < text.size(); ++cut) {
    SCOPED_TRACE(cut);
    const auto j = read(std::string_view(text).substr(0, cut), "j");
    EXPECT_TRUE(j.errors.empty());
    const bool whole = cut == text.size() - 1;  // all but the last line's end
    EXPECT_EQ(j.entries.size(), whole ? 3U : 2U);
    ASSERT_EQ(j.torn.has_value(), !whole);
    if (!j.torn) continue;
    EXPECT_EQ(j.torn->begin, last);
    EXPECT_EQ(j.torn->line, line_at(text, last));
  }
}

TEST(JournalRead, theFirstEntryOfAllMayBeTornToo) {
  const auto text = std::string(preamble()) + written(tests::entry_at(0, Note{"one"}));
  for (auto cut = preamble().size() + 1; cut + 1 < text.size(); ++cut) {
    const auto part = std::string_view(text).substr(0, cut);
    EXPECT_TRUE(is_journal(part)) << cut;
    const auto j = read(part, "j");
    EXPECT_TRUE(j.errors.empty()) << cut;
    EXPECT_TRUE(j.entries.empty()) << cut;
    EXPECT_EQ(j.torn.has_value(), cut > preamble().size() + 1) << cut;
  }
}

TEST(JournalRead, zerosAndGarbageAtTheEndAreTorn) {
  for (const auto& tail : {std::string(100, '\0'), std::string("\xff\xfe"), std::string("garbage"),
                           std::string("[[entry]]\nschema = 1\nti"),
                           std::string("[[entry]]\nschema = 1\nkind = \"wei\n")}) {
    const auto j = read(three() + tail, "j");
    EXPECT_EQ(j.entries.size(), 3U);
    EXPECT_TRUE(j.errors.empty());
    ASSERT_TRUE(j.torn);
    EXPECT_EQ(j.torn->begin, three().size());
  }
}

TEST(JournalRead, anEntryTypedByHandIsOneWhereverItStands) {
  for (const auto& text : {three() + by_hand, by_hand + three()}) {
    const auto j = read(text, "j");
    EXPECT_TRUE(j.errors.empty());
    EXPECT_FALSE(j.torn);
    EXPECT_EQ(j.entries.size(), 4U);
  }
  auto windows = three() + by_hand;
  for (std::size_t at = 0; (at = windows.find('\n', at)) != std::string::npos; at += 2) {
    windows.insert(at, "\r");
  }
  EXPECT_EQ(read(windows, "j").entries.size(), 4U);
}

struct Spoiled {
  const char* what;
  std::string block;
  int line;  // of the fault, the block's first being 1
  const char* says;
};

TEST(JournalRead, nonsenseInTheMiddleIsNamedByItsLineAndTheRestIsKept) {
  const std::string head = "[[entry]]\nschema = 1\ntime = 2026-03-14T10:00:00Z\n";
  const std::vector<Spoiled> cases{
      {"no TOML", head + "kind = note\n", 4, ""},
      {"no time", "[[entry]]\nschema = 1\nkind = \"note\"\ntext = \"x\"\n", 1, "no time"},
      {"no schema", "[[entry]]\ntime = 2026-03-14T10:00:00Z\nkind = \"note\"\ntext = \"x\"\n", 1,
       "no schema"},
      {"no offset", "[[entry]]\nschema = 1\ntime = 2026-03-14T10:00:00\nkind = \"note\"\n", 3,
       "UTC"},
      {"no kind", head, 1, "no kind"},
      {"bare number", head + "kind = \"weigh\"\nstate = \"dry\"\nmass = 64\n", 6, "bare number"},
      {"no such word", head + "kind = \"touch\"\nverdict = \"moist\"\n", 5, "not one of"},
      {"wrong type", head + "kind = \"note\"\ntext = \"x\"\nsession = 3\n", 6, "session"},
      {"far year", "[[entry]]\nschema = 1\ntime = 0001-03-14T10:00:00Z\nkind = \"note\"\n", 3,
       "1970"},
      {"a table inside", head + "kind = \"note\"\ntext = \"x\"\n[other]\na = 1\n", 1, "tables"},
      {"stray text", "this was never TOML\n", 1, "belongs to no entry"},
      {"too long", head + "kind = \"note\"\ntext = \"" + std::string(40000, 'x') + "\"\n", 1,
       "32 KiB"},
  };
  const auto before = std::string(preamble()) + written(tests::entry_at(0, Note{"one"})) +
                      written(tests::entry_at(1, Note{"two"})) + "\n";
  for (const auto& c : cases) {
    SCOPED_TRACE(c.what);
    const auto j = read(before + c.block + written(tests::entry_at(3, Note{"three"})), "j");
    EXPECT_EQ(j.entries.size(), 2U + 1U);
    EXPECT_FALSE(j.torn);
    ASSERT_GE(j.errors.size(), 1U);
    const auto& e = j.errors.front();
    EXPECT_EQ(e.where.line, line_at(before, before.size()) + c.line - 1);
    EXPECT_EQ(e.file, "j");
    EXPECT_THAT(e.what, HasSubstr(c.says));
    EXPECT_FALSE(e.help.empty());
    EXPECT_FALSE(e.unreadable);
  }
}

TEST(JournalRead, whatANewerVersionWroteIsKept) {
  const auto j = read(
      "[[entry]]\nschema = 1\ntime = 2026-03-14T10:00:00Z\nkind = \"hymn\"\nverse = 3\n"
      "lines = [1, 2]\n\n"
      "[[entry]]\nschema = 1\ntime = 2026-03-14T10:00:00Z\nkind = \"note\"\ntext = \"x\"\n"
      "mood = \"fair\"\n\n"
      "[[entry]]\nschema = 2\ntime = 2026-03-14T10:00:00Z\nkind = \"weigh\"\nmass = \"3 stones\"\n",
      "j");
  EXPECT_TRUE(j.errors.empty());
  ASSERT_EQ(j.entries.size(), 3U);
  EXPECT_EQ(kind_name(j.entries[0].record), "hymn");
  EXPECT_EQ(summary(j.entries[0]), "verse 3, lines (a list)");
  EXPECT_EQ(kind_name(j.entries[1].record), "note");
  EXPECT_EQ(summary(j.entries[1]), "x, mood fair");
  EXPECT_EQ(kind_name(j.entries[2].record), "weigh");
  EXPECT_TRUE(std::holds_alternative<Unknown>(j.entries[2].record));
  EXPECT_EQ(summary(j.entries[2]), "mass 3 stones");
}

TEST(JournalRead, anotherFileIsNoJournal) {
  for (const char* text :
       {"title = \"Salt marsh\"\n", "garbage", "[entry]\nschema = 1\n", "[[entries]]\n"}) {
    const auto j = read(text, "j");
    EXPECT_FALSE(is_journal(text));
    ASSERT_EQ(j.errors.size(), 1U);
    EXPECT_TRUE(j.errors[0].unreadable);
    EXPECT_FALSE(j.torn);
  }
}

// toml++ 3.3.0 overruns its stack on such keys.
TEST(JournalRead, keysOfManyPartsAreRefusedBeforeTheTomlReader) {
  std::string key = "a";
  for (int i = 0; i < 15000; ++i) key += ".a";
  const auto j = read("[[entry]]\nschema = 1\n" + key + " = 1\n" + by_hand, "j");
  EXPECT_EQ(j.entries.size(), 1U);
  ASSERT_EQ(j.errors.size(), 1U);
  EXPECT_THAT(j.errors[0].what, HasSubstr("full stops"));
}

}  // namespace
}  // namespace dampline::journal
