#include <nlohmann/json.hpp>

#include <dampline/journal/kinds.hpp>

#include "run_program.hpp"
#include "support/scratch_folder.hpp"
#include "support/source_tree.hpp"

namespace dampline::tests {
namespace {

using nlohmann::json;
using ::testing::AllOf;
using ::testing::HasSubstr;
using ::testing::Not;

class Log : public ScratchFolder {
 protected:
  void SetUp() override {
    ScratchFolder::SetUp();
    ::setenv("XDG_STATE_HOME", folder_.c_str(), 1);
    ::setenv("SOURCE_DATE_EPOCH", "1773498000", 1);  // 2026-03-14 14:20 UTC
    ::setenv("TZ", "UTC", 1);
  }
  void TearDown() override {
    for (const char* name : {"XDG_STATE_HOME", "SOURCE_DATE_EPOCH", "TZ"}) ::unsetenv(name);
    ScratchFolder::TearDown();
  }
  static Outcome log(std::vector<std::string> words, const std::string& input = "") {
    words.insert(words.begin(), "log");
    return run_program(words, input);
  }
  // Stored well, at a time of a day.
  static void at(const char* day, const char* time, std::vector<std::string> words) {
    words.insert(words.end(), {"--on", day, "--at", time, "--session", std::string("S ") + day});
    const auto r = log(words);
    EXPECT_EQ(r.status, 0) << r.err;
    EXPECT_EQ(r.err, "");
  }
  [[nodiscard]] std::string journal() const { return path("dampline/journal.toml"); }
  static json exported(std::vector<std::string> words = {}) {
    words.insert(words.begin(), {"export", "--json", "-"});
    const auto r = log(words);
    EXPECT_EQ(r.status, 0) << r.err;
    return json::parse(r.out)["entries"];
  }
};

TEST_F(Log, storesEveryKindByItsOwnExample) {
  for (const auto& kind : journal::kinds()) {
    // As a shell would take it apart.
    std::vector<std::string> words{""};
    bool quoted = false;
    for (const char c : kind.example) {
      if (c == '"') {
        quoted = !quoted;
      } else if (c == ' ' && !quoted) {
        words.emplace_back();
      } else {
        words.back() += c;
      }
    }
    const auto r = log(words);
    EXPECT_EQ(r.status, 0) << kind.example << r.err;
    EXPECT_EQ(r.err, "") << kind.example;
    EXPECT_THAT(r.out, HasSubstr("logged 14:20  " + std::string(kind.name) + " "));
  }
  const auto all = exported();
  ASSERT_EQ(all.size(), journal::kinds().size());
  for (std::size_t i = 0; i < all.size(); ++i) {
    EXPECT_EQ(all[i]["kind"], journal::kinds()[i].name);
    EXPECT_EQ(all[i]["time"], "2026-03-14T14:20:00+00:00");
  }
  EXPECT_EQ(all[2]["mass_g"], 64.2);
  EXPECT_EQ(all[2]["state"], "blotted");
  EXPECT_EQ(all[2]["sheet"], 3);
  EXPECT_EQ(all[3]["length_mm"], 303.5);
  EXPECT_EQ(all[4]["verdict"], "too dry");
  EXPECT_EQ(all[5]["humidity_percent"], 52);
  EXPECT_EQ(all[6]["left"], 3.2);
  EXPECT_EQ(all[8]["what"], "bone black, 3 drops of oil");
  EXPECT_EQ(all[10]["text"], "window opened, sun on the bench");
}

TEST_F(Log, everyWordExplainsItselfIn80Columns) {
  std::vector<std::string> words{"list", "card", "compare", "export"};
  for (const auto& kind : journal::kinds()) words.emplace_back(kind.name);
  for (const auto& word : words) {
    const auto r = log({word, "--help"});
    EXPECT_EQ(r.status, 0);
    EXPECT_EQ(r.err, "");
    EXPECT_THAT(r.out, AllOf(HasSubstr("usage: dampline log " + word), HasSubstr("\nexamples\n")));
    EXPECT_THAT(log({"--help"}).out, HasSubstr("\n  " + word));
    std::istringstream lines(r.out);
    for (std::string line; std::getline(lines, line);) EXPECT_LE(line.size(), 80U) << line;
  }
}

struct Refusal {
  std::vector<std::string> words;
  int status;
  std::string what;
  std::string help;
};

TEST_F(Log, refusesWithTheMend) {
  const std::vector<Refusal> cases{
      {{}, 2, "missing WORD", "--help"},
      {{"nite"}, 2, "\"nite\" is nothing that can be logged", "did you mean note?"},
      {{"--journal", "x", "note"}, 2, "before the word", "behind it"},
      {{"weigh", "dry", "64"}, 2, "MASS \"64\": bare number for a weight", "\"64 g\""},
      {{"weigh", "blotetd", "64 g"}, 2, "STATE \"blotetd\"", "did you mean \"blotted\"?"},
      {{"weigh", "dry"}, 2, "MASS is missing: what the scale shows", "\"64.2 g\""},
      {{"weigh", "dry", "64 g", "--shet", "3"}, 2, "unknown option --shet", "--sheet?"},
      {{"weigh", "dry", "64 g", "--sheet", "x"}, 2, "--sheet \"x\": not a whole number", "\"3\""},
      {{"touch", "moist"}, 2, "VERDICT \"moist\"", "\"too wet\""},
      {{"air"}, 2, "no reading of the air", "wet bulb"},
      {{"air", "-t", "12 degC", "--wet-bulb", "14 degC"}, 2, "warmer than the air", ""},
      {{"note", "x", "--at", "25:00"}, 2, "--at \"25:00\": not a time of day", "--at 14:20"},
      {{"note", "x", "--at", "23:00"}, 2, "still to come today", "--on 2026-03-14"},
      {{"note", "x", "--on", "2026-03-13"}, 2, "--on without --at", "--at 14:20"},
      {{"note", "x", "--on", "31.2.2026", "--at", "9:00"}, 2, "--on \"31.2.2026\": not a day", ""},
      {{"note", "x", "--on", "2026-03-29", "--at", "01:30", "--zone", "Europe/Lisbon"},
       2,
       "put forward",
       "afterwards"},
      {{"note", "x", "--zone", "Europe/Lisbona"}, 2, "no time zone", "Europe/Lisbon"},
      {{"note", "\xff"}, 2, "not UTF-8", ""},
      {{"note", std::string(4001, 'x')}, 2, "longer than 4000 characters", ""},
      {{"note", "x", "--session", "no-such.toml"}, 66, "no-such.toml", ""},
      {{"note", "x", "--session", std::string(201, 'x')}, 2, "longer than 200", ""},
      {{"note", "x", "--journal", "/dev/full"}, 73, "not an ordinary file", "--journal FILE"},
      {{"list"}, 66, "there is no journal", "begins one"},
      {{"export"}, 2, "neither --json nor --csv", "--json -"},
  };
  for (const auto& c : cases) {
    const auto r = log(c.words);
    EXPECT_EQ(r.status, c.status) << c.what;
    EXPECT_EQ(r.out, "") << c.what;
    EXPECT_THAT(r.err, AllOf(HasSubstr("dampline log: "), HasSubstr(c.what), HasSubstr("help: "),
                             HasSubstr(c.help)));
  }
  EXPECT_FALSE(std::filesystem::exists(journal()));
}

TEST_F(Log, anEntryGoesOnWithTheSessionOfTheDay) {
  log({"weigh", "dry", "48 g", "--session", "Salt marsh", "--stock", "cotton"});
  log({"weigh", "soaked", "90 g"});
  log({"note", "another day", "--on", "2026-03-01", "--at", "9:00"});
  const auto all = exported();
  EXPECT_EQ(all[1]["session"], "Salt marsh");
  EXPECT_EQ(all[1]["stock"], "cotton");
  EXPECT_FALSE(all[2].contains("session"));
  EXPECT_EQ(all[2]["day"], "2026-03-01");
}

TEST_F(Log, aSessionFileGivesTitleDayPaperAndZone) {
  const auto file = in_source_tree("data/sessions/heron-drypoint.toml");
  const auto r = log({"start", "soak", "--session", file, "--on", "2026-10-08", "--at", "20:15"});
  EXPECT_EQ(r.status, 0) << r.err;
  const auto all = exported();
  EXPECT_EQ(all[0]["session"], "Heron, drypoint");
  EXPECT_EQ(all[0]["day"], "2026-10-09");  // wetted the evening before
  EXPECT_EQ(all[0]["time"], "2026-10-08T20:15:00+02:00");
  EXPECT_EQ(all[0]["stock"], "soft etching, mould-made cotton, 250 g/m2");
}

TEST_F(Log, takesTheListThatThePageWrites) {
  const std::string list =
      "# what was done: Salt marsh, two plates\nlay-out 09:30 09:45\nsoak-1 09:51 10:07  # late\n"
      "ink-1-key 10:55\n";
  const std::vector<std::string> words{"import", "-", "--session",
                                       in_source_tree("data/sessions/salt-marsh.toml")};
  const auto first = log(words, list);
  EXPECT_EQ(first.status, 0) << first.err;
  EXPECT_EQ(first.out, "logged 5 entries\n");
  const auto entries = exported();
  ASSERT_EQ(entries.size(), 5U);
  EXPECT_EQ(entries[0]["kind"], "start");
  EXPECT_EQ(entries[0]["step"], "lay-out");
  EXPECT_EQ(entries[3]["kind"], "finish");
  EXPECT_EQ(entries[3]["step"], "soak-1");
  EXPECT_EQ(entries[3]["time"], "2026-03-14T10:07:00+00:00");
  EXPECT_EQ(entries[4]["kind"], "start");  // being done: no end
  EXPECT_EQ(entries[4]["session"], "Salt marsh, two plates");
  // The tablet is emptied a second time later in the day.
  EXPECT_EQ(log(words, list + "wipe 11:00 11:10\n").out, "logged 2 entries, 5 there already\n");
  EXPECT_EQ(exported().size(), 7U);
}

TEST_F(Log, aListThatCannotBeReadLeavesTheJournalAsItWas) {
  const std::vector<std::string> words{"import", "-", "--session", "S", "--on", "2026-03-14"};
  const auto bad = log(words, "lay-out 09:30 09:45\nsoak-1 9.51 oclock\n");
  EXPECT_EQ(bad.status, 65);
  EXPECT_THAT(bad.err, HasSubstr(":2: "));
  EXPECT_EQ(log(words, "lay-out 09:30 09:45 10:00\n").status, 65);
  EXPECT_EQ(log({"import", "-", "--at", "09:30"}, "").status, 2);
  EXPECT_EQ(log(words, "lay-out\n").out, "logged 0 entries, 1 without a time left out\n");
}

TEST_F(Log, aTimeMaySayItsOwnDayAndOffset) {
  EXPECT_EQ(log({"note", "x", "--at", "2026-03-02T09:30:15-05:00"}).status, 0);
  EXPECT_EQ(log({"note", "x", "--at", "9:30:15 pm", "--on", "1.3.2026"}).status, 0);
  EXPECT_EQ(exported()[0]["time"], "2026-03-02T09:30:15-05:00");
  EXPECT_EQ(exported()[1]["time"], "2026-03-01T21:30:15+00:00");
}

TEST_F(Log, linesAndControlCharactersAreStoredAndShownSafely) {
  const std::string wild = "first\nsecond \x1b[31mred\x07 \"quoted\" \\ \u202eback\n";
  EXPECT_EQ(log({"note", "-"}, wild + "\n\n").status, 0);
  const auto stored = get(journal());
  const auto listed = log({"list"});
  const auto carded = log({"card"});
  for (const auto* text : {&stored, &listed.out, &carded.out}) {
    EXPECT_EQ(text->find('\x1b'), std::string::npos);
    EXPECT_EQ(text->find('\x07'), std::string::npos);
    EXPECT_EQ(text->find("\u202e"), std::string::npos);
    EXPECT_THAT(*text, HasSubstr("second"));
  }
  EXPECT_EQ(exported()[0]["text"], wild.substr(0, wild.size() - 1));
  const auto csv = log({"export", "--csv", "-"});
  EXPECT_EQ(csv.out.find('\x1b'), std::string::npos);
  const auto ascii = log({"note", "Gr\u00f6\u00dfe", "--ascii"});
  EXPECT_THAT(ascii.out, HasSubstr("note Gro"));
}

TEST_F(Log, listsWhatIsAskedFor) {
  at("2026-03-09", "9:00", {"weigh", "dry", "48 g"});
  at("2026-03-09", "8:00", {"note", "early", "written", "down", "late"});
  at("2026-03-12", "9:00", {"weigh", "dry", "47 g"});
  const auto all = log({"list"});
  EXPECT_EQ(all.err, "");
  EXPECT_EQ(all.out,
            "S 2026-03-09, Monday 9 March 2026\n"
            "  08:00  note    early written down late\n"
            "  09:00  weigh   dry 48 g\n"
            "\n"
            "S 2026-03-12, Thursday 12 March 2026\n"
            "  09:00  weigh   dry 47 g\n");
  EXPECT_EQ(exported({"--kind", "weigh"}).size(), 2U);
  EXPECT_EQ(exported({"--since", "2026-03-10"}).size(), 1U);
  EXPECT_EQ(exported({"--until", "10.3.2026"}).size(), 2U);
  EXPECT_EQ(exported({"--session", "S 2026-03-12"}).size(), 1U);
  EXPECT_THAT(log({"list", "--kind", "touch"}).err, HasSubstr("no such entries"));
  EXPECT_THAT(log({"list", "--kind", "wiegh"}).err, HasSubstr("did you mean weigh?"));
  EXPECT_THAT(log({"list", "--since", "3/9/2026"}).err, HasSubstr("not a day"));
  EXPECT_EQ(run_program({"log", "list", "--journal", "-"}, get(journal())).out, all.out);
}

TEST_F(Log, cardAndComparisonTellTheDaysApart) {
  at("2026-03-09", "9:00", {"air", "-t", "17 degC", "-u", "58 %"});
  at("2026-03-09", "10:00", {"press", "3.2", "3.2"});
  at("2026-03-09", "11:00", {"print", "1", "good"});
  at("2026-03-12", "9:00", {"air", "-t", "17 degC", "-u", "38 %"});
  at("2026-03-12", "10:00", {"press", "3.2", "3.3"});
  at("2026-03-12", "11:00", {"print", "1", "spoiled", "--why", "grey"});
  const auto card = log({"card", "2026-03-09"});
  EXPECT_EQ(card.status, 0);
  EXPECT_THAT(card.out, AllOf(HasSubstr("S 2026-03-09, Monday 9 March 2026\n  3 entries, 09:00"),
                              HasSubstr("\nPrints\n  1 good, 0 spoiled\n"),
                              HasSubstr("left 3.2 right 3.2: the ends alike")));
  EXPECT_THAT(log({"card"}).out, HasSubstr("1 spoiled, why grey"));
  EXPECT_EQ(log({"card", "S 2026-03-09"}).out, card.out);
  const auto c = log({"compare", "2026-03-09", "2026-03-12"});
  EXPECT_EQ(c.status, 0) << c.err;
  EXPECT_THAT(c.out, HasSubstr("-20 points"));
  EXPECT_LT(c.out.find("humidity"), c.out.find("press, right"));
  EXPECT_THAT(c.out, HasSubstr("2 things alike, not shown"));
  for (const char* word : {"pressure", "tighten", "loosen"}) {
    EXPECT_THAT(c.out + card.out, Not(HasSubstr(word)));  // readings are kept, never advice
  }
  EXPECT_THAT(log({"card", "2026-03-10"}).err, HasSubstr("2026-03-09, 2026-03-12"));
  EXPECT_THAT(log({"card", "S 2026-03-08"}).err, HasSubstr("did you mean \"S 2026-03-09\"?"));
}

TEST_F(Log, aDayOfTwoSessionsIsComparedByTitle) {
  at("2026-03-09", "9:00", {"note", "x"});
  log({"note", "y", "--on", "2026-03-09", "--at", "15:00", "--session", "Heron"});
  const auto r = log({"compare", "2026-03-09", "2026-03-09"});
  EXPECT_EQ(r.status, 2);
  EXPECT_THAT(r.err, AllOf(HasSubstr("2 sessions on 2026-03-09"), HasSubstr("\"Heron\"")));
  EXPECT_EQ(log({"compare", "Heron", "S 2026-03-09"}).status, 0);
  EXPECT_THAT(log({"card", "2026-03-09"}).out, HasSubstr("Heron, Monday"));
}

TEST_F(Log, aTornTailIsToldOfAndTheRestIsShown) {
  log({"note", "whole"});
  put(journal(), get(journal()) + "\n[[entry]]\nschema = 1 # {\ntime = 20");
  const auto r = log({"list"});
  EXPECT_EQ(r.status, 0);
  EXPECT_THAT(r.out, HasSubstr("whole"));
  EXPECT_THAT(r.err, AllOf(HasSubstr("journal.toml:13: warning: the last entry was cut off"),
                           HasSubstr("journal.toml.torn")));
  EXPECT_EQ(log({"list"}).err, "");
  put(journal(), get(journal()) + "[[entry]]\nsch");
  const auto next = log({"note", "next"});
  EXPECT_EQ(next.status, 0);
  EXPECT_THAT(next.err, HasSubstr("cut off"));
  EXPECT_EQ(exported().size(), 2U);
}

TEST_F(Log, nonsenseInTheMiddleIsToldOfAndTheRestIsShown) {
  log({"note", "one"});
  put(journal(), get(journal()) + "\n[[entry]]\nschema = 1\nkind = note\n");
  log({"note", "two"});
  // The broken block was the last, so it was set aside; one in the middle stays.
  auto text = get(journal());
  text.insert(text.find("\n[[entry]]") + 1, "[[entry]]\nschema = 1\nkind = note\n\n");
  put(journal(), text);
  const auto r = log({"list"});
  EXPECT_EQ(r.status, 0);
  EXPECT_THAT(r.out, AllOf(HasSubstr("one"), HasSubstr("two")));
  EXPECT_THAT(r.err, AllOf(HasSubstr("journal.toml:7:8: "), HasSubstr("warning: "),
                           HasSubstr("\nhelp: "), HasSubstr("stays in the journal")));
  EXPECT_EQ(get(journal()), text);
}

TEST_F(Log, whatANewerVersionWroteIsListedAsSuch) {
  log({"note", "one"});
  put(journal(), get(journal()) +
                     "\n[[entry]]\nschema = 2 # {\ntime = 2026-03-14T15:00:00+00:00\n"
                     "kind = \"hymn\"\nverse = 3\n# }\n");
  const auto r = log({"list"});
  EXPECT_EQ(r.status, 0);
  EXPECT_THAT(r.out, HasSubstr("15:00  hymn   ?verse 3"));
  EXPECT_THAT(r.err, HasSubstr("does not know"));
  EXPECT_EQ(exported({"--kind", "hymn"})[0]["other"]["verse"], "3");
  EXPECT_THAT(log({"card"}).out, HasSubstr("Not known to this version\n  15:00  hymn: verse 3"));
}

TEST_F(Log, aStepNearlyKnownIsStoredWithADoubt) {
  const auto r = log({"start", "wipee"});
  EXPECT_EQ(r.status, 0);
  EXPECT_THAT(r.err, HasSubstr("did you mean wipe?"));
  EXPECT_EQ(log({"start", "hang the flags"}).err, "");
  EXPECT_EQ(exported().size(), 2U);
}

TEST_F(Log, anExportIsNoJournal) {
  log({"note", "one"});
  const auto r = log({"export", "--csv", journal()});
  EXPECT_EQ(r.status, 73);
  EXPECT_THAT(get(journal()), HasSubstr("[[entry]]"));
  EXPECT_EQ(log({"export", "--csv", path("a.csv"), "--json", path("a.json")}).status, 0);
  EXPECT_EQ(json::parse(get(path("a.json")))["format"], "dampline-journal");
  EXPECT_EQ(log({"export", "--csv", "-", "--json", "-"}).status, 2);
}

TEST_F(Log, explainTellsTheWordsOfTheJournal) {
  const auto kind = run_program({"explain", "weigh"});
  EXPECT_EQ(kind.status, 0) << kind.err;
  EXPECT_THAT(kind.out, AllOf(HasSubstr("what a sheet weighs"), HasSubstr("dampline log weigh"),
                              HasSubstr("mass")));
  const auto field = run_program({"explain", "wet_bulb"});
  EXPECT_THAT(field.out, AllOf(HasSubstr("studio.wet_bulb"), HasSubstr("log air")));
  EXPECT_THAT(run_program({"explain", "wiegh"}).err, HasSubstr("did you mean weigh?"));
  EXPECT_THAT(run_program({"paths"}).out, HasSubstr(journal()));
}

}  // namespace
}  // namespace dampline::tests
