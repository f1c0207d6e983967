#pragma once

#include <array>
#include <cstdio>
#include <cstdlib>
#include <fstream>
#include <iostream>
#include <optional>
#include <set>
#include <sstream>
#include <string>
#include <utility>
#include <vector>

#include <gtest/gtest.h>

#include <dampline/scheduling/objective.hpp>

/// A problem of the planner told to a general constraint solver that shares nothing with the
/// engine.
///
/// The clock is the planner's own half minutes: no number is rounded. Who goes first of two that
/// cannot go together is what the solver decides; once that is settled only differences of starts
/// are left, so that the length of the day costs it little.
namespace dampline::tests {

/// The earliest finish, and of schedules that end then the largest margin.
struct GecodeAnswer {
  enum class Kind { best, none, unknown } kind = Kind::unknown;
  int finish = -1;
  int margin = -1;
  std::vector<int> starts;
};

class GecodeModel {
 public:
  GecodeModel(const scheduling::Problem& problem, std::vector<scheduling::Window> windows)
      : p_(problem), windows_(std::move(windows)) {}

  [[nodiscard]] std::string text() {
    out_ << "include \"cumulative.mzn\";\ninclude \"disjunctive.mzn\";\nvar 0.." << p_.horizon
         << ": margin;\n";
    for (std::size_t i = 0; i < p_.activities.size(); ++i) {
      out_ << "var 0.." << p_.horizon << ": s" << i << ";\n";
    }
    rule(start(p_.source) + " = 0");
    for (const auto& lag : p_.lags) {
      rule((lag.to_end ? end(lag.to) : start(lag.to)) + " - " +
           (lag.from_end ? end(lag.from) : start(lag.from)) + " >= " + std::to_string(lag.least));
    }
    for (std::size_t r = 0; r < p_.resources.size(); ++r) resource(static_cast<int>(r));
    for (const auto& w : windows_) {
      const auto wait = start(w.to) + " - " + start(w.from);
      rule(wait + " >= " + std::to_string(w.least) + " + margin");
      rule(wait + " <= " + std::to_string(w.most) + " - margin");
    }
    if (windows_.empty()) rule("margin = 0");
    search();
    return out_.str();
  }

 private:
  static std::string start(int i) { return "s" + std::to_string(i); }
  [[nodiscard]] int duration(int i) const {
    return p_.activities[static_cast<std::size_t>(i)].duration;
  }
  [[nodiscard]] std::string end(int i) const {
    return "(" + start(i) + " + " + std::to_string(duration(i)) + ")";
  }
  void rule(const std::string& text) { out_ << "constraint " << text << ";\n"; }

  [[nodiscard]] int amount(int i, int r) const {
    int sum = 0;
    for (const auto& use : p_.activities[static_cast<std::size_t>(i)].uses) {
      if (use.resource == r) sum += use.amount;
    }
    return sum;
  }

  void resource(int r) {
    const auto& resource = p_.resources[static_cast<std::size_t>(r)];
    EXPECT_EQ(resource.kinds, 0) << "changeovers are not told";
    std::vector<int> users;
    for (int i = 0; i < static_cast<int>(p_.activities.size()); ++i) {
      EXPECT_FALSE(p_.activities[static_cast<std::size_t>(i)].may_pause) << "pauses are not told";
      if (amount(i, r) > 0 && duration(i) > 0) users.push_back(i);
    }
    int most = resource.capacity;
    for (const auto& step : resource.calendar) most = std::max(most, step.capacity);
    keep_hours(r, users, most);
    std::string starts, lengths, amounts;
    int sum = 0;
    for (std::size_t x = 0; x < users.size(); ++x) {
      const int i = users[x];
      sum += amount(i, r);
      starts += (x == 0 ? "" : ", ") + start(i);
      lengths += (x == 0 ? "" : ", ") + std::to_string(duration(i));
      amounts += (x == 0 ? "" : ", ") + std::to_string(amount(i, r));
      for (std::size_t y = x + 1; y < users.size(); ++y) {
        if (amount(i, r) + amount(users[y], r) > most) apart(i, users[y]);
      }
    }
    if (sum <= most) return;
    const auto lists = "([" + starts + "], [" + lengths + "]";
    rule(most == 1 ? "disjunctive" + lists + ")"
                   : "cumulative" + lists + ", [" + amounts + "], " + std::to_string(most) + ")");
  }

  // Somebody is there or is not: no work meets a time at which they are not.
  void keep_hours(int r, const std::vector<int>& users, int most) {
    const auto& resource = p_.resources[static_cast<std::size_t>(r)];
    int from = 0;
    int capacity = resource.capacity;
    const auto away = [&](int until) {
      EXPECT_TRUE(capacity == 0 || capacity == most) << "part of a resource away is not told";
      if (capacity > 0 || from >= until) return;
      for (const int i : users) {
        rule(end(i) + " <= " + std::to_string(from) + " \\/ " + start(i) +
             " >= " + std::to_string(until));
      }
    };
    for (const auto& step : resource.calendar) {
      away(step.from);
      from = step.from;
      capacity = step.capacity;
    }
    away(3 * p_.horizon + 1);
  }

  void apart(int i, int k) {
    if (!told_.emplace(i, k).second) return;
    const auto first = "b" + std::to_string(told_.size());
    out_ << "var bool: " << first << ";\n";
    rule(first + " -> " + end(i) + " <= " + start(k));
    rule("not " + first + " -> " + end(k) + " <= " + start(i));
  }

  void search() {
    std::string starts, order, shown;
    for (int i = 0; i < static_cast<int>(p_.activities.size()); ++i) {
      starts += (i == 0 ? "" : ", ") + start(i);
      shown += ", \" \", show(" + start(i) + ")";
    }
    for (std::size_t b = 1; b <= told_.size(); ++b) {
      order += (b == 1 ? "b" : ", b") + std::to_string(b);
    }
    // The first schedule found has the least finish, and of those the largest margin.
    out_ << "solve :: seq_search([int_search([" << start(p_.sink)
         << "], input_order, indomain_split), int_search([margin], input_order, "
            "indomain_reverse_split), ";
    if (!order.empty()) out_ << "bool_search([" << order << "], dom_w_deg, indomain_max), ";
    out_ << "int_search([" << starts << "], smallest, indomain_min)]) satisfy;\n";
    out_ << "output [show(" << start(p_.sink) << "), \" \", show(margin)" << shown << "];\n";
  }

  const scheduling::Problem& p_;
  std::vector<scheduling::Window> windows_;
  std::set<std::pair<int, int>> told_;
  std::ostringstream out_;
};

/// Asks it; `unknown` when it has no answer within the time.
inline GecodeAnswer ask_gecode(const scheduling::Problem& problem,
                               const std::vector<scheduling::Window>& windows,
                               const std::string& file, int seconds) {
  std::ofstream(file) << GecodeModel(problem, windows).text();
  const std::string command = "minizinc --solver gecode --time-limit " +
                              std::to_string(seconds * 1000) + " '" + file + "' 2>/dev/null";
  std::string text;
  if (FILE* pipe = popen(command.c_str(), "r"); pipe != nullptr) {
    std::array<char, 4096> part{};
    while (const auto n = std::fread(part.data(), 1, part.size(), pipe)) {
      text.append(part.data(), n);
    }
    pclose(pipe);
  }
  GecodeAnswer answer;
  if (text.find("UNSATISFIABLE") != std::string::npos) {
    answer.kind = GecodeAnswer::Kind::none;
    return answer;
  }
  std::istringstream in(text);
  if (!(in >> answer.finish >> answer.margin)) return answer;
  for (int start = 0; in >> start;) answer.starts.push_back(start);
  answer.kind = GecodeAnswer::Kind::best;
  return answer;
}

}  // namespace dampline::tests
