// Whole small sessions: what the planner makes of them against a general constraint solver.
#include <algorithm>
#include <filesystem>
#include <future>
#include <random>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <dampline/planner/aims.hpp>
#include <dampline/planner/fit.hpp>

#include "planner/gecode_model.hpp"
#include "planner/scheduled.hpp"

namespace dampline::planner {
namespace {

using tests::GecodeAnswer;

constexpr int seconds_each = 3;  // a question; most take a tenth of one

struct Asked {
  session::Session session;
  Treatment treatment;
};

class Dice {
 public:
  explicit Dice(unsigned seed) : random_(seed) {}
  // From `least` to `most`; the same everywhere, unlike a standard distribution.
  int from(int least, int most) {
    return least + static_cast<int>(random_() % static_cast<unsigned>(most - least + 1));
  }
  bool one_in(int n) { return from(1, n) == 1; }

 private:
  std::mt19937 random_;
};

void equip(session::Session& s, Dice& dice) {
  using std::chrono::minutes;
  s.day.until = s.day.from + minutes(15 * dice.from(8, 24));
  if (dice.one_in(3)) {
    s.day.breaks.clear();
  } else {
    s.day.breaks[0] = {s.day.from + minutes(5 * dice.from(6, 18)),
                       units::minutes(5 * dice.from(2, 6))};
  }
  if (dice.one_in(2)) {
    s.people.push_back(s.people[0]);
    s.people[1].name = "B";
    if (dice.one_in(2)) s.people[1].inks = false;
    if (dice.one_in(3)) s.people[1].pace = 0.1 * dice.from(8, 14);
    if (dice.one_in(4)) s.people[1].until = s.day.until - minutes(5 * dice.from(1, 8));
  }
  if (s.people.size() == 2 && dice.one_in(2)) {
    s.people.push_back(s.people[1]);
    s.people[2].name = "C";
    s.people[2].inks = false;
    s.people[2].until.reset();
  }
  if (s.people.size() > 1 || dice.one_in(3)) {
    s.equipment.presses.push_back(s.equipment.presses[0]);
    s.equipment.presses[1].name = "second press";
    if (dice.one_in(3)) s.equipment.presses[1].from = s.day.from + minutes(5 * dice.from(6, 30));
  }
  if (dice.one_in(4)) s.equipment.presses[0].square_after = 2;
  s.equipment.tub = session::Tub{dice.from(1, 3), units::celsius(18)};
  s.equipment.blotters = dice.from(1, 2) * 4;
  s.equipment.hot_plate = !dice.one_in(3);
  if (dice.one_in(5)) s.day.rests = session::Rests{units::minutes(90), units::minutes(5)};
}

void choose_plates(session::Session& s, Dice& dice) {
  const auto process = [&] { return std::string(dice.one_in(2) ? "relief" : "etching"); };
  s.plates = {tests::plate("tone", process())};
  if (dice.one_in(3)) s.plates.push_back(tests::plate("key", process()));
  s.edition.order.clear();
  for (auto& plate : s.plates) {
    s.edition.order.push_back(plate.name);
    if (dice.one_in(3)) plate.copies = 2;
    if (dice.one_in(4)) plate.times["wipe"] = units::minutes(0.5 * dice.from(4, 30));
    if (dice.one_in(5)) plate.extras = {dice.one_in(2) ? "chine colle" : "roll over"};
  }
  s.edition.proofs = dice.from(0, 1);
  s.edition.prints = dice.from(2, s.plates.size() > 1 ? 2 : 3) - s.edition.proofs;
  if (s.plates.size() > 1 && dice.one_in(3)) s.edition.between = session::Between::released;
}

Asked random_session(Dice& dice) {
  Asked a;
  auto& s = a.session = tests::solo_day();
  auto& t = a.treatment = tests::soaked();
  equip(s, dice);
  choose_plates(s, dice);
  t.in_tub = !dice.one_in(4);
  t.drawn_singly = t.in_tub && dice.one_in(4);
  t.soak = HalfMinutes(dice.from(10, 60));
  t.soak_most = t.soak + HalfMinutes(dice.from(20, 120));
  t.blots = dice.from(1, 4);
  t.left_alone = HalfMinutes(dice.one_in(4) ? dice.from(1, 20) : 0);
  t.opens = HalfMinutes(dice.from(10, 60));
  t.closes = t.opens + HalfMinutes(dice.from(40, 240));
  if (!t.in_tub && dice.one_in(2)) {
    t.before_day = HalfMinutes(14 * 120);
    t.opens = *t.before_day + HalfMinutes(dice.from(0, 120));
    t.closes = t.opens + HalfMinutes(dice.from(120, 480));
  }
  if (dice.one_in(5)) t.catcher_lasts = 2;
  return a;
}

GecodeAnswer answer_for(const Asked& a, const Extent& way, const std::string& file) {
  const auto d = draft(a.session, tests::craft(), a.treatment, way);
  return tests::ask_gecode(d.problem, most_margin(d, a.treatment).windows, file, seconds_each);
}

struct Counts {
  int compared = 0, planned = 0, fewer = 0, none = 0, ways_none = 0, at_two_presses = 0,
      unknown = 0;
};

// The best of all ways: the earliest finish, then the largest margin.
GecodeAnswer best_of(const std::vector<GecodeAnswer>& answers) {
  GecodeAnswer best;
  best.kind = GecodeAnswer::Kind::none;
  for (const auto& answer : answers) {
    if (answer.kind == GecodeAnswer::Kind::unknown) return answer;
    if (answer.kind == GecodeAnswer::Kind::none) continue;
    const bool better =
        best.kind == GecodeAnswer::Kind::none ||
        std::pair(answer.finish, -answer.margin) < std::pair(best.finish, -best.margin);
    if (better) best = answer;
  }
  return best;
}

class Comparing {
 public:
  explicit Comparing(std::string folder) : folder_(std::move(folder)) {}

  // All ways of so many rounds, two questions at a time.
  [[nodiscard]] std::vector<GecodeAnswer> ask(const Asked& a, int rounds) const {
    const auto all = ways(a.session, a.treatment, rounds);
    std::vector<GecodeAnswer> answers(all.size());
    const auto every_other = [&](std::size_t first) {
      const auto file = folder_ + "/dampline_session_" + std::to_string(first) + ".mzn";
      for (std::size_t i = first; i < all.size(); i += 2) answers[i] = answer_for(a, all[i], file);
    };
    auto other = std::async(std::launch::async, [&] { every_other(1); });
    every_other(0);
    other.get();
    return answers;
  }

  void compare(const Asked& a) {
    const auto found = fit(a.session, tests::craft(), a.treatment, {});
    const int rounds = found.extent.proofs + found.extent.prints;
    ASSERT_TRUE(found.most_proved);
    if (rounds < most_rounds(a.session)) {
      const auto more = ask(a, rounds + 1);
      const auto best = best_of(more);
      if (best.kind == GecodeAnswer::Kind::unknown) return void(++counts.unknown);
      EXPECT_EQ(best.kind, GecodeAnswer::Kind::none) << "one round more fits";
      counts.ways_none += static_cast<int>(more.size());
      ++(rounds == 0 ? counts.none : counts.fewer);
    }
    if (rounds > 0 && !compare_plan(a, found, rounds)) return void(++counts.unknown);
    ++counts.compared;
  }

  [[nodiscard]] bool compare_plan(const Asked& a, const Fit& found, int rounds) {
    const auto all = ways(a.session, a.treatment, rounds);
    const auto answers = ask(a, rounds);
    const auto best = best_of(answers);
    if (best.kind == GecodeAnswer::Kind::unknown) return false;
    ++counts.planned;
    counts.at_two_presses += found.extent.presses > 1 ? 1 : 0;
    EXPECT_EQ(found.finish, HalfMinutes(best.finish));
    EXPECT_EQ(found.bound, HalfMinutes(best.finish));
    EXPECT_EQ(found.margin, HalfMinutes(best.margin));
    EXPECT_TRUE(found.margin_proved);
    expect_sound(a, found.draft, found.starts);
    for (std::size_t i = 0; i < all.size(); ++i) {
      const auto d = draft(a.session, tests::craft(), a.treatment, all[i]);
      const auto alone = scheduling::solve(d.problem, {});
      if (answers[i].kind == GecodeAnswer::Kind::none) {
        ++counts.ways_none;
        EXPECT_EQ(alone.status, scheduling::Status::infeasible);
        continue;
      }
      EXPECT_EQ(alone.status, scheduling::Status::optimal);
      EXPECT_EQ(alone.makespan, answers[i].finish);
      EXPECT_THAT(scheduling::check(d.problem, answers[i].starts), testing::IsEmpty());
    }
    return true;
  }

  // The checker accepts it, and what a plan shows of it holds by plain counting.
  static void expect_sound(const Asked& a, const Draft& draft, const std::vector<int>& starts) {
    EXPECT_THAT(scheduling::check(draft.problem, starts), testing::IsEmpty());
    const tests::Day day{draft, starts, lay_out(draft, tests::craft(), starts)};
    tests::expect_nothing_double_booked(day);
    for (const auto& step : day.steps) EXPECT_LE(step.end, day_length(a.session)) << step.id;
    for (const auto& pull : draft.pulls) {
      const auto& sheet = draft.sheets[static_cast<std::size_t>(pull.sheet - 1)];
      const auto waited = when(pull.pulled, starts) - when(sheet.covered, starts);
      EXPECT_GE(waited, a.treatment.opens);
      EXPECT_LE(waited, a.treatment.closes);
      EXPECT_GE(when(pull.laid, starts), when(pull.inked, starts));
    }
  }

  Counts counts;

 private:
  std::string folder_;
};

TEST(SessionOracle, agreesOnSmallRandomSessionsInPrintsFinishAndMargin) {
  if (std::system("minizinc --version >/dev/null 2>&1") != 0) {
    GTEST_SKIP() << "minizinc is not installed: sessions are not compared with another solver";
  }
  const char* asked = std::getenv("DAMPLINE_SESSIONS");  // more of them, by hand
  const int sessions = asked != nullptr ? std::atoi(asked) : 44;
  const auto folder = std::filesystem::path(testing::TempDir()) / "dampline_session_oracle";
  std::filesystem::create_directories(folder);
  Comparing comparing(folder.string());
  Dice dice(2011);
  for (int i = 0; i < sessions; ++i) {
    SCOPED_TRACE("session " + std::to_string(i));
    comparing.compare(random_session(dice));
  }
  std::filesystem::remove_all(folder);
  const auto& c = comparing.counts;
  std::cout << c.compared << " compared, " << c.unknown << " not decided by the other solver; "
            << c.planned << " with a plan, " << c.at_two_presses << " of them at two presses, "
            << c.fewer << " of fewer prints than asked, " << c.none << " of none; " << c.ways_none
            << " ways that nothing fits\n";
  EXPECT_GE(c.compared, 40);
  EXPECT_GE(c.planned, 20);
  EXPECT_GE(c.fewer, 3);
  EXPECT_GE(c.none, 1);
  EXPECT_GE(c.at_two_presses, 1);
}

}  // namespace
}  // namespace dampline::planner
