#include <fstream>
#include <set>

#include <nlohmann/json.hpp>

#include "cli/plan_checks.hpp"
#include "cli/run_program.hpp"
#include "support/reference_table.hpp"
#include "support/scratch_folder.hpp"

// What is done is read from the journal of the day.

namespace dampline::tests {
namespace {

using ::testing::HasSubstr;

// "10:40:30"
std::string after(const std::string& clock, int half_minutes) {
  const auto part = [&](std::size_t at) { return std::stoi(clock.substr(at, 2)); };
  const int s = part(0) * 3600 + part(3) * 60 + part(6) + 30 * half_minutes;
  const auto two = [](int n) { return (n < 10 ? "0" : "") + std::to_string(n); };
  return two(s / 3600) + ":" + two(s / 60 % 60) + ":" + two(s % 60);
}

class LateJournal : public ScratchFolder {
 protected:
  void SetUp() override {
    ScratchFolder::SetUp();
    ::setenv("SOURCE_DATE_EPOCH", "1773584400", 1);  // the day after
    ::setenv("XDG_STATE_HOME", folder_.c_str(), 1);
    journal_ = path("journal.toml");
    list_ = path("done.txt");
    session_ = repository_file("data/sessions/salt-marsh.toml");
  }
  void TearDown() override {
    for (const char* name : {"XDG_STATE_HOME", "SOURCE_DATE_EPOCH"}) ::unsetenv(name);
    ScratchFolder::TearDown();
  }

  void entry(const std::string& clock, const std::string& rest,
             const std::string& title = "Salt marsh, two plates") {
    std::ofstream(journal_, std::ios::app)
        << "[[entry]]\nschema = 1\ntime = 2026-03-14T" << clock << "+00:00\nsession = \"" << title
        << "\"\nday = 2026-03-14\n"
        << rest << "\n\n";
  }
  void step(const std::string& kind, const std::string& clock, const std::string& id) {
    entry(clock, "kind = \"" + kind + "\"\nstep = \"" + id + "\"");
  }
  void spoiled(const std::string& clock, int print) {
    entry(clock, "kind = \"print\"\nprint = " + std::to_string(print) + "\nverdict = \"spoiled\"");
  }

  [[nodiscard]] json planned(std::vector<std::string> words, int status = 0) const {
    const auto r = run_program(words, session_);
    EXPECT_EQ(r.status, status) << r.err;
    return r.out.empty() ? json::object() : json::parse(r.out);
  }
  [[nodiscard]] json late(std::vector<std::string> words) const {
    words.insert(words.begin(), {"late", "-", "--json", "-"});
    return planned(std::move(words));
  }
  [[nodiscard]] json from_journal(std::vector<std::string> words = {}) const {
    words.insert(words.end(), {"--journal", journal_});
    return late(std::move(words));
  }
  [[nodiscard]] json morning() const { return planned({"plan", "-", "--json", "-"}); }

  // Every step over by then, so much later, as a list and as a journal.
  void write_down(const std::string& until, int half_minutes) {
    std::ofstream list(list_);
    const auto plan = morning();
    for (const auto& s : plan["steps"]) {
      const auto from = s["start"].get<std::string>().substr(11, 8);
      const auto end = s["end"].get<std::string>().substr(11, 8);
      if (s["kind"] == "soak" || s["kind"] == "break" || end > until) continue;
      const auto id = s["id"].get<std::string>();
      step("start", after(from, half_minutes), id);
      step("finish", after(end, half_minutes), id);
      list << id << ' ' << after(from, half_minutes).substr(0, 5) << ' '
           << after(end, half_minutes).substr(0, 5) << '\n';
    }
  }
  [[nodiscard]] static std::string notes(const json& plan) {
    std::string all;
    for (const auto& note : plan["late"]["notes"]) all += note.get<std::string>() + '\n';
    return all;
  }

  std::string journal_;
  std::string list_;
  std::string session_;
};

TEST_F(LateJournal, whoeverCameEarlyIsNotRefused) {
  step("start", "09:20:00", "lay-out");
  step("finish", "09:40:00", "lay-out");
  const auto plan = from_journal({"--at", "09:45"});
  for (const auto& s : plan["steps"]) {
    if (s["id"] != "lay-out") continue;
    EXPECT_EQ(s["start"], "2026-03-14T09:30:00+00:00");
    EXPECT_EQ(s["end"], "2026-03-14T09:40:00+00:00");
  }
  EXPECT_THAT(plan["late"]["notes"].dump(), HasSubstr("before the studio opens at 09:30"));
}

TEST_F(LateJournal, isAsGoodAsTheSameStepsSaidByHand) {
  write_down("11:20:00", 40);
  const auto read = from_journal({"--at", "12:00"});
  const auto said = late({"--at", "12:00", "--done", "@" + list_});
  expect_nothing_double_booked(read);
  EXPECT_EQ(read["prints_planned"], said["prints_planned"]);
  EXPECT_EQ(read["late"]["steps_done"], said["late"]["steps_done"]);
  ASSERT_EQ(read["steps"].size(), said["steps"].size());
  for (std::size_t i = 0; i < read["steps"].size(); ++i) {
    EXPECT_EQ(read["steps"][i]["state"], said["steps"][i]["state"]) << read["steps"][i];
  }
  EXPECT_THAT(notes(read), HasSubstr("What is done is from " + journal_ + ", lines 1 to "));
}

TEST_F(LateJournal, stepsNobodyWroteDownAreDoneInBetweenTheOthers) {
  step("start", "09:45:00", "lay-out");
  step("finish", "10:02:00", "lay-out");
  step("finish", "12:30:00", "print-1");
  const auto plan = from_journal({"--at", "12:30"});
  expect_nothing_double_booked(plan);
  EXPECT_THAT(notes(plan), HasSubstr("not in the journal"));
  for (const auto& s : plan["steps"]) {
    if (s["id"] == "lay-out") {
      EXPECT_THAT(s["start"].get<std::string>(), HasSubstr("09:45:00"));
    }
    if (s["kind"] != "pull" && s["kind"] != "ink") continue;
    if (s["print"] == 1) {
      EXPECT_EQ(s["state"], "done") << s;
    } else if (s["kind"] == "pull") {
      EXPECT_EQ(s["state"], "planned") << s;
    }
  }
}

TEST_F(LateJournal, withoutATimeItIsTheLastEntryOnAnotherDay) {
  write_down("11:20:00", 0);
  entry("11:43:10", "kind = \"note\"\ntext = \"window opened\"");
  const auto plan = from_journal();
  EXPECT_EQ(plan["late"]["at"], "2026-03-14T11:43:00+00:00");
  ::setenv("SOURCE_DATE_EPOCH", "1773489900", 1);  // 12:05 of the day
  EXPECT_EQ(from_journal()["late"]["at"], "2026-03-14T12:05:00+00:00");
}

TEST_F(LateJournal, isNotReadWhenItIsSaidWhatIsDone) {
  spoiled("10:00:00", 1);
  const auto plan = from_journal({"--at", "12:30", "--done-until", "print-1"});
  EXPECT_EQ(notes(plan).find("journal.toml"), std::string::npos);
}

TEST_F(LateJournal, whatFitsNothingIsToldAndLeftOut) {
  write_down("10:30:00", 0);
  step("start", "10:31:00", "varnish");
  step("finish", "10:32:00", "varnish");
  entry("10:35:00", "kind = \"weigh\"\nstate = \"dry\"\nmass = \"60 g\"\nsheet = 1");
  entry("10:36:00", "kind = \"weigh\"\nstate = \"blotted\"\nmass = \"96 g\"\nsheet = 1");
  step("start", "10:20:00", "lay-out");  // of another day's title:
  entry("10:20:00", "kind = \"print\"\nprint = 1\nverdict = \"spoiled\"", "Another");
  const auto plan = from_journal({"--at", "10:40"});
  EXPECT_THAT(notes(plan), HasSubstr("\"varnish\" fits no step of the plan"));
  EXPECT_THAT(notes(plan), HasSubstr("sheet 1 weighed 96 g at 10:36, 0.60 g/g. The weight is not"));
  EXPECT_EQ(notes(plan).find("spoiled"), std::string::npos);
}

class LateSpoiled : public LateJournal {
 protected:
  // One proof and two prints; the second print is spoiled as it comes off the press.
  json spoil_the_last(const std::string& sheets, std::vector<std::string> words = {}) {
    session_ = replaced(session_, "prints = 10", "prints = 2");
    session_ = replaced(session_, "proofs = 2", "proofs = 1");
    session_ = replaced(session_, "sheets = 14", "sheets = " + sheets);
    std::string off;
    const auto day = morning();
    for (const auto& s : day["steps"]) {
      if (s["print"] == 2 && s["kind"] == "lay-away")
        off = s["end"].get<std::string>().substr(11, 8);
    }
    write_down(off, 0);
    spoiled(off, 2);
    words.insert(words.begin(), {"--at", after(off, 1).substr(0, 5)});
    if (after(off, 0).substr(6) != "00") words[1] = after(off, 2).substr(0, 5);
    return from_journal(words);
  }
  static std::set<int> pulled(const json& plan) {
    std::set<int> out;
    for (const auto& pull : plan["pulls"]) out.insert(pull["print"].get<int>());
    return out;
  }
};

TEST_F(LateSpoiled, aPrintIsPulledAgainOnASpareSheet) {
  const auto plan = spoil_the_last("14");
  expect_nothing_double_booked(plan);
  EXPECT_EQ(pulled(plan), (std::set<int>{1, 2, 3, 4}));
  EXPECT_EQ(plan["prints_planned"], 2);
  EXPECT_THAT(notes(plan), HasSubstr("print 4 takes its place, on a fresh sheet"));
}

TEST_F(LateSpoiled, aPrintIsLostWithoutTheTime) {
  const auto plan = spoil_the_last("14", {"--until", "15:30"});
  EXPECT_EQ(pulled(plan), (std::set<int>{1, 2, 3}));
  EXPECT_THAT(notes(plan), HasSubstr("there is a spare sheet, but no time left"));
}

TEST_F(LateSpoiled, aPrintIsLostWithoutASpareSheet) {
  const auto plan = spoil_the_last("3");
  EXPECT_EQ(pulled(plan), (std::set<int>{1, 2, 3}));
  EXPECT_EQ(plan["prints_planned"], 1);
  EXPECT_THAT(notes(plan), HasSubstr("there is no spare sheet to print it again"));
}

}  // namespace
}  // namespace dampline::tests
