#include <algorithm>
#include <optional>
#include <stdexcept>
#include <utility>

#include <dampline/planner/aims.hpp>
#include <dampline/planner/fit.hpp>
#include <dampline/planner/people.hpp>
#include <dampline/scheduling/check.hpp>
#include <dampline/scheduling/load.hpp>
#include <dampline/scheduling/solve.hpp>

namespace dampline::planner {
namespace {

using scheduling::Status;

constexpr int soaks_tried = 3;  // numbers of batches, from the fewest on
// Of the search budget, to each number of soaks: enough to prove both on days of one person.
constexpr long long share_for_margin = 10;
constexpr long long share_for_idle = 30;

int sheets_a_round(const session::Session& s) {
  return s.edition.sheet_each ? static_cast<int>(s.plates.size()) : 1;
}

struct Answer {
  Status status = Status::unknown;
  Fit fit;
};

class Fitting {
 public:
  Fitting(const session::Session& s, const Craft& craft, const Treatment& t,
          const FitOptions& options)
      : s_(s), craft_(craft), t_(t), options_(options) {}

  Fit run();
  /// Any plan of so many rounds; infeasible only if every number of batches tried is.
  [[nodiscard]] Answer any_plan(int rounds) const;

 private:
  [[nodiscard]] Answer drafted(const Extent& way) const;
  void ask(Answer& answer, int deadline, bool any) const;
  [[nodiscard]] std::vector<Fit> earliest_plans(int rounds, Answer known) const;
  scheduling::Reached aim(const scheduling::Objective& objective,
                          const scheduling::Problem& problem, long long share, Fit& fit) const;
  void keep_apart(Fit& fit, HalfMinutes finish) const;
  void wait_least(Fit& fit, HalfMinutes finish) const;
  [[nodiscard]] Fit best_of(std::vector<Fit> plans) const;

  const session::Session& s_;
  const Craft& craft_;
  const Treatment& t_;
  const FitOptions& options_;
};

Answer Fitting::drafted(const Extent& way) const {
  Answer answer;
  answer.fit.extent = way;
  answer.fit.draft = draft(s_, craft_, t_, way);
  return answer;
}

// A plan that ends by the deadline: any, or the earliest. What is known already is the start.
void Fitting::ask(Answer& answer, int deadline, bool any) const {
  auto& fit = answer.fit;
  if (scheduling::overloaded(fit.draft.problem) >= 0) {
    answer.status = Status::infeasible;
    return;
  }
  scheduling::Options o;
  o.conflicts = options_.conflicts;
  o.seed = options_.seed;
  o.deadline = deadline;
  o.hint = fit.starts;
  if (any) o.progress = [](const auto& progress) { return !progress.has_schedule; };
  const auto result = scheduling::solve(fit.draft.problem, o);
  answer.status = result.status;
  fit.starts = result.starts;
  fit.finish = HalfMinutes(result.makespan);
  fit.bound = HalfMinutes(result.bound);
}

Answer Fitting::any_plan(int rounds) const {
  Status status = Status::infeasible;
  for (const auto& way : ways(s_, t_, rounds)) {
    auto answer = drafted(way);
    ask(answer, day_length(s_).count(), true);
    if (!answer.fit.starts.empty()) return answer;
    if (answer.status != Status::infeasible) status = answer.status;
  }
  return {status, {}};
}

// The earliest plans, one a way; `known` is some plan of as many rounds.
std::vector<Fit> Fitting::earliest_plans(int rounds, Answer known) const {
  std::vector<Fit> plans;
  std::optional<HalfMinutes> bound;
  HalfMinutes best = day_length(s_);
  for (const auto& way : ways(s_, t_, rounds)) {
    const auto& has = known.fit.extent;
    const bool same = way.batches == has.batches && way.presses == has.presses;
    auto answer = same ? std::move(known) : drafted(way);
    ask(answer, std::min(best + options_.finish_tolerance, day_length(s_)).count(), false);
    // Nothing by the deadline: its plans all end later.
    const HalfMinutes own = answer.status == Status::infeasible ? best : answer.fit.bound;
    bound = std::min(bound.value_or(own), own);
    if (answer.fit.starts.empty()) continue;
    best = std::min(best, answer.fit.finish);
    plans.push_back(std::move(answer.fit));
  }
  std::erase_if(plans, [&](const Fit& f) { return f.finish > best + options_.finish_tolerance; });
  for (auto& plan : plans) plan.bound = std::min(*bound, best);
  return plans;
}

scheduling::Reached Fitting::aim(const scheduling::Objective& objective,
                                 const scheduling::Problem& problem, long long share,
                                 Fit& fit) const {
  scheduling::Options o;
  o.seed = options_.seed;
  o.hint = fit.starts;
  o.conflicts = options_.conflicts / share;
  auto solution = scheduling::solve_in_order(problem, {objective}, o);
  if (solution.reached.empty()) {  // not even the start was looked at
    return {scheduling::value_of(problem, objective, fit.starts), 0, false};
  }
  fit.starts = std::move(solution.result.starts);
  return solution.reached.front();
}

void Fitting::keep_apart(Fit& fit, HalfMinutes finish) const {
  const auto margin = most_margin(fit.draft, t_);
  const auto reached = aim(margin, kept(fit.draft, t_, finish, fit.margin), share_for_margin, fit);
  fit.margin = HalfMinutes(static_cast<int>(reached.value));
  fit.margin_proved = reached.is_proved;
}

void Fitting::wait_least(Fit& fit, HalfMinutes finish) const {
  const auto problem = kept(fit.draft, t_, finish, fit.margin);
  fit.starts = wait_less(problem, fit.draft, fit.starts);
  fit.idle_proved = aim(least_idle_wet(fit.draft), problem, share_for_idle, fit).is_proved;
  fit.starts = wait_less(problem, fit.draft, fit.starts);
  fit.idle_wet = idle_wet(fit.draft, t_, fit.starts);
  fit.finish = HalfMinutes(fit.starts[static_cast<std::size_t>(problem.sink)]);
}

Fit Fitting::best_of(std::vector<Fit> plans) const {
  HalfMinutes finish = plans.front().finish;
  for (const auto& plan : plans) finish = std::min(finish, plan.finish);
  finish += options_.finish_tolerance;
  for (auto& plan : plans) keep_apart(plan, finish);
  HalfMinutes margin{};
  bool margin_proved = true;  // whatever the number of soaks
  bool idle_proved = true;
  for (const auto& plan : plans) {
    margin = std::max(margin, plan.margin);
    margin_proved = margin_proved && plan.margin_proved;
  }
  std::erase_if(plans, [&](const Fit& plan) { return plan.margin < margin; });
  for (auto& plan : plans) {
    wait_least(plan, finish);
    idle_proved = idle_proved && plan.idle_proved;
  }
  const auto waits_less = [](const Fit& a, const Fit& b) {
    return std::pair(a.idle_wet, a.finish) < std::pair(b.idle_wet, b.finish);
  };
  auto best = std::move(*std::min_element(plans.begin(), plans.end(), waits_less));
  best.margin_proved = margin_proved;
  best.idle_proved = idle_proved;
  return best;
}

Fit Fitting::run() {
  int fits = 0;
  int fails = most_rounds(s_) + 1;
  bool proved = true;
  Answer any;
  for (int rounds = fails - 1; fits + 1 < fails; rounds = (fits + fails) / 2) {
    auto answer = any_plan(rounds);
    if (answer.fit.starts.empty()) {
      fails = rounds;
      proved = answer.status == Status::infeasible;
    } else {
      fits = rounds;
      any = std::move(answer);
    }
  }
  Fit best;
  if (fits > 0) {
    best = best_of(earliest_plans(fits, std::move(any)));
    const auto wrong = scheduling::check(best.draft.problem, best.starts);
    if (!wrong.empty()) throw std::logic_error("schedule refused by the checker: " + wrong.front());
  }
  best.most_proved = proved;
  return best;
}

}  // namespace

int most_rounds(const session::Session& s) {
  int rounds = s.edition.prints + s.edition.proofs;
  const int each = sheets_a_round(s);
  if (s.paper.sheets > 0) rounds = std::min(rounds, s.paper.sheets / each);
  if (s.equipment.drying_places) rounds = std::min(rounds, *s.equipment.drying_places / each);
  return rounds;
}

std::vector<Extent> ways(const session::Session& s, const Treatment& t, int rounds) {
  const int sheets = rounds * sheets_a_round(s);
  const bool by_tub = t.in_tub && s.equipment.tub;
  const int least = by_tub ? (sheets + s.equipment.tub->sheets - 1) / s.equipment.tub->sheets : 1;
  const int most =
      t.before_day ? least : std::max(least, std::min(least + soaks_tried - 1, sheets));
  const int all_presses = static_cast<int>(lanes(s).size());
  std::vector<Extent> out;
  for (int batches = least; batches <= most; ++batches) {
    for (int presses = 1; presses <= all_presses; presses += std::max(1, all_presses - 1)) {
      Extent way;
      way.proofs = std::min(rounds, s.edition.proofs);
      way.prints = rounds - way.proofs;
      way.batches = batches;
      way.presses = presses;
      out.push_back(way);
    }
  }
  return out;
}

Fit fit(const session::Session& s, const Craft& craft, const Treatment& t,
        const FitOptions& options) {
  return Fitting(s, craft, t, options).run();
}

Status rounds_fit(const session::Session& s, const Craft& craft, const Treatment& t, int rounds,
                  const FitOptions& options) {
  const auto answer = Fitting(s, craft, t, options).any_plan(rounds);
  return answer.fit.starts.empty() ? answer.status : Status::feasible;
}

}  // namespace dampline::planner
