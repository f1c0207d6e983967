// The engine against a general constraint solver that shares nothing with it, through MiniZinc.
#include <array>
#include <cstdio>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <sstream>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <dampline/scheduling/check.hpp>
#include <dampline/scheduling/solve.hpp>

#include "scheduling/support.hpp"

namespace dampline::scheduling {
namespace {

using testing::IsEmpty;

constexpr int in_one_model = 10;  // many to a run, because each start takes a while

int amount_of(const Problem& problem, int i, int r) {
  int sum = 0;
  for (const auto& use : problem.activities[static_cast<std::size_t>(i)].uses) {
    if (use.resource == r) sum += use.amount;
  }
  return sum;
}

// Writes one problem. `none` gives way for every constraint, so that the model never fails: then
// the first solution of a search that tries none = 0 and the small makespans first holds, for each
// problem by itself, its least makespan or none = 1.
class Writer {
 public:
  Writer(const Problem& problem, int number, std::ostream& out)
      : p_(problem), k_(std::to_string(number)), out_(out) {}

  void write() {
    const int n = static_cast<int>(p_.activities.size());
    out_ << "var 0..1: none" << k_ << ";\n";
    for (int i = 0; i < n; ++i) write_activity(i);
    rule(start(p_.source) + " = 0");
    for (const auto& lag : p_.lags) {
      rule((lag.to_end ? end(lag.to) : start(lag.to)) + " - " +
           (lag.from_end ? end(lag.from) : start(lag.from)) + " >= " + std::to_string(lag.least));
    }
    for (int r = 0; r < static_cast<int>(p_.resources.size()); ++r) write_resource(r);
  }

  // Zero duration, no pauses: an end is start + duration. The rest is counted by the model itself.
  [[nodiscard]] std::string search() const {
    std::string starts;
    for (int i = 0; i < static_cast<int>(p_.activities.size()); ++i) {
      starts += (i == 0 ? "" : ", ") + start(i);
    }
    return "int_search([none" + k_ + ", " + start(p_.sink) +
           "], input_order, indomain_min), int_search([" + starts + "], first_fail, indomain_min)";
  }

  [[nodiscard]] std::string answer() const {
    return "show(none" + k_ + "), \" \", show(" + start(p_.sink) + "), \"\\n\"";
  }

 private:
  [[nodiscard]] std::string start(int i) const { return "s" + k_ + "_" + std::to_string(i); }
  [[nodiscard]] std::string end(int i) const { return "e" + k_ + "_" + std::to_string(i); }
  void rule(const std::string& text) {
    out_ << "constraint none" << k_ << " = 1 \\/ (" << text << ");\n";
  }

  [[nodiscard]] int latest() const { return p_.horizon + 40; }

  [[nodiscard]] bool works(int i, int t) const {
    for (int r = 0; r < static_cast<int>(p_.resources.size()); ++r) {
      if (capacity_at(p_.resources[static_cast<std::size_t>(r)], t) < amount_of(p_, i, r)) {
        return false;
      }
    }
    return true;
  }

  void write_activity(int i) {
    const auto& work = p_.activities[static_cast<std::size_t>(i)];
    out_ << "var 0.." << p_.horizon << ": " << start(i) << ";\n";
    out_ << "var 0.." << latest() << ": " << end(i) << ";\n";
    if (work.duration == 0) {
      rule(end(i) + " = " + start(i));
      return;
    }
    // How many instants have been worked before each one, from time 0.
    std::string worked = "0";
    int sum = 0;
    for (int t = 0; t < latest(); ++t) {
      sum += works(i, t) ? 1 : 0;
      worked += ", " + std::to_string(sum);
    }
    const std::string name = "w" + k_ + "_" + std::to_string(i);
    out_ << "array[0.." << latest() << "] of int: " << name << " = array1d(0.." << latest() << ", ["
         << worked << "]);\n";
    const std::string duration = std::to_string(work.duration);
    rule(name + "[" + end(i) + "] - " + name + "[" + start(i) + "] = " + duration);
    rule(name + "[" + start(i) + " + 1] - " + name + "[" + start(i) + "] = 1");
    rule(end(i) + " > 0 /\\ " + name + "[max(" + end(i) + " - 1, 0)] = " + name + "[" + end(i) +
         "] - 1");
    if (!work.may_pause) rule(end(i) + " = " + start(i) + " + " + duration);
  }

  void write_resource(int r) {
    const auto& resource = p_.resources[static_cast<std::size_t>(r)];
    const int n = static_cast<int>(p_.activities.size());
    for (int t = 0; t < latest(); ++t) {
      const int capacity = capacity_at(resource, t);
      std::string held;
      int most = 0;
      for (int i = 0; i < n; ++i) {
        const int amount = amount_of(p_, i, r);
        const int duration = p_.activities[static_cast<std::size_t>(i)].duration;
        if (amount == 0 || duration == 0 || capacity < amount) continue;
        most += amount;
        held += (held.empty() ? "" : " + ") + std::to_string(amount) + " * bool2int(" + start(i) +
                " <= " + std::to_string(t) + " /\\ " + end(i) + " > " + std::to_string(t) + ")";
      }
      if (most > capacity) rule(held + " <= " + std::to_string(capacity));
    }
    if (resource.kinds == 0) return;
    for (int i = 0; i < n; ++i) {
      for (int k = i + 1; k < n; ++k) write_changeover(r, i, k);
    }
  }

  void write_changeover(int r, int i, int k) {
    const auto& resource = p_.resources[static_cast<std::size_t>(r)];
    const auto& a = p_.activities[static_cast<std::size_t>(i)];
    const auto& b = p_.activities[static_cast<std::size_t>(k)];
    if (a.duration == 0 || b.duration == 0) return;
    for (const auto& x : a.uses) {
      for (const auto& y : b.uses) {
        if (x.resource != r || y.resource != r || x.amount == 0 || y.amount == 0) continue;
        const auto time = [&](int first, int then) {
          return std::to_string(
              resource.changeover[static_cast<std::size_t>(first * resource.kinds + then)]);
        };
        rule(start(k) + " >= " + end(i) + " + " + time(x.kind, y.kind) + " \\/ " + start(i) +
             " >= " + end(k) + " + " + time(y.kind, x.kind));
      }
    }
  }

  const Problem& p_;
  std::string k_;
  std::ostream& out_;
};

struct Answer {
  bool has_none = true;
  int makespan = -1;
};

// Answers in the order of the problems; none when the run failed.
std::vector<Answer> ask(const std::vector<Problem>& problems, const std::string& file) {
  std::ofstream out(file);
  std::string searches;
  std::string shown;
  int number = 0;
  for (const auto& problem : problems) {
    Writer writer(problem, number, out);
    writer.write();
    searches += (number == 0 ? "" : ",\n ") + writer.search();
    shown += (number == 0 ? "" : ", ") + writer.answer();
    ++number;
  }
  out << "solve :: seq_search([" << searches << "])\nsatisfy;\noutput [" << shown << "];\n";
  out.close();
  const std::string command = "minizinc --solver gecode '" + file + "' 2>/dev/null";
  std::string text;
  if (FILE* pipe = popen(command.c_str(), "r"); pipe != nullptr) {
    std::array<char, 4096> part{};
    while (const auto n = std::fread(part.data(), 1, part.size(), pipe))
      text.append(part.data(), n);
    pclose(pipe);
  }
  std::istringstream in(text);
  std::vector<Answer> answers;
  int none = 0;
  for (Answer answer; in >> none >> answer.makespan;) {
    answer.has_none = none == 1;
    answers.push_back(answer);
  }
  if (answers.size() != problems.size()) ADD_FAILURE() << command << " said: " << text;
  return answers;
}

TEST(Oracle, agreesWithAGeneralSolverUnderCalendarsAndChangeovers) {
  if (std::system("minizinc --version >/dev/null 2>&1") != 0) {
    GTEST_SKIP() << "minizinc is not installed: the engine is not compared with another solver";
  }
  const auto folder = std::filesystem::path(testing::TempDir());
  const std::string file = (folder / "dampline_oracle.mzn").string();
  std::mt19937 random(2001);
  int infeasible = 0;
  int conflicts = 0;
  for (int round = 0; round < 300 / in_one_model; ++round) {
    std::vector<Problem> problems;
    for (int k = 0; k < in_one_model; ++k) {
      auto problem = tests::random_problem(random, 6, 9);
      tests::add_calendars(problem, random);
      if (k % 3 == 0) tests::add_changeovers(problem, random);
      problems.push_back(problem);
    }
    const auto answers = ask(problems, file);
    if (answers.size() != problems.size()) break;
    for (std::size_t k = 0; k < problems.size(); ++k) {
      const auto result = solve(problems[k]);
      SCOPED_TRACE(round * in_one_model + static_cast<int>(k));
      conflicts += static_cast<int>(result.conflicts);
      if (answers[k].has_none) {
        ++infeasible;
        EXPECT_EQ(result.status, Status::infeasible);
        continue;
      }
      EXPECT_EQ(result.status, Status::optimal);
      EXPECT_EQ(result.makespan, answers[k].makespan);
      EXPECT_THAT(check(problems[k], result.starts), IsEmpty());
    }
  }
  std::filesystem::remove(file);
  EXPECT_GT(infeasible, 20);
  EXPECT_LT(infeasible, 280);
  EXPECT_GT(conflicts, 20);
}

}  // namespace
}  // namespace dampline::scheduling
