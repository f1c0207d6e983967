#include <algorithm>
#include <stdexcept>

#include <dampline/planner/fit.hpp>
#include <dampline/scheduling/check.hpp>
#include <dampline/scheduling/justify.hpp>
#include <dampline/scheduling/solve.hpp>

namespace dampline::planner {
namespace {

using scheduling::Status;

int sheets_a_round(const session::Session& s) {
  return s.edition.sheet_each ? static_cast<int>(s.plates.size()) : 1;
}

Extent extent_of(const session::Session& s, int rounds, int batches) {
  Extent e;
  e.proofs = std::min(rounds, s.edition.proofs);
  e.prints = rounds - e.proofs;
  e.batches = batches;
  return e;
}

struct Answer {
  Status status = Status::unknown;
  Fit fit;
};

// Later soaks and later inking wait less; the finish stays.
std::vector<int> wait_less(const Draft& d, const std::vector<int>& starts) {
  auto moved = scheduling::justify(d.problem, starts, d.movable_later, scheduling::Direction::late);
  return scheduling::check(d.problem, moved).empty() ? moved : starts;
}

// Some one person or press has more to do than the day holds: no search needed.
bool overloaded(const scheduling::Problem& p) {
  std::vector<long long> load(p.resources.size());
  for (const auto& activity : p.activities) {
    for (const auto& use : activity.uses) {
      load[static_cast<std::size_t>(use.resource)] +=
          static_cast<long long>(use.amount) * activity.duration;
    }
  }
  for (std::size_t r = 0; r < load.size(); ++r) {
    if (load[r] > static_cast<long long>(p.resources[r].capacity) * p.horizon) return true;
  }
  return false;
}

Answer ask(const session::Session& s, const Craft& craft, const Treatment& t, const Extent& extent,
           const FitOptions& options) {
  Answer answer;
  answer.fit.extent = extent;
  answer.fit.draft = draft(s, craft, t, extent);
  if (overloaded(answer.fit.draft.problem)) {
    answer.status = Status::infeasible;
    return answer;
  }
  scheduling::Options o;
  o.conflicts = options.conflicts;
  o.seed = options.seed;
  o.deadline = day_length(s).count();
  const auto result = scheduling::solve(answer.fit.draft.problem, o);
  answer.status = result.status;
  if (!result.starts.empty()) {
    answer.fit.starts = result.starts;
    answer.fit.finish = HalfMinutes(result.makespan);
    answer.fit.bound = HalfMinutes(result.bound);
  }
  return answer;
}

int least_batches(const session::Session& s, const Treatment& t, int rounds) {
  if (!t.in_tub || !s.equipment.tub) return 1;
  const int sheets = rounds * sheets_a_round(s);
  return (sheets + s.equipment.tub->sheets - 1) / s.equipment.tub->sheets;
}

// The best answer over a few numbers of batches; infeasible only if every number is.
Answer ask_with_batches(const session::Session& s, const Craft& craft, const Treatment& t,
                        int rounds, const FitOptions& options) {
  const int least = least_batches(s, t, rounds);
  const bool may_split = !t.before_day;
  const int most = may_split ? std::min(least + 2, rounds * sheets_a_round(s)) : least;
  Answer best;
  bool all_refuted = true;
  HalfMinutes bound{};
  for (int batches = least; batches <= std::max(most, least); ++batches) {
    auto answer = ask(s, craft, t, extent_of(s, rounds, batches), options);
    if (answer.status != Status::infeasible) all_refuted = false;
    if (answer.fit.starts.empty()) continue;
    const bool first = best.fit.starts.empty();
    bound = first ? answer.fit.bound : std::min(bound, answer.fit.bound);
    if (first || answer.fit.finish < best.fit.finish) best = std::move(answer);
  }
  best.fit.bound = std::min(bound, best.fit.finish);
  if (best.fit.starts.empty()) best.status = all_refuted ? Status::infeasible : Status::unknown;
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

Fit fit(const session::Session& s, const Craft& craft, const Treatment& t,
        const FitOptions& options) {
  int fits = 0;
  int fails = most_rounds(s) + 1;
  bool proved = true;
  Answer best;
  for (int rounds = fails - 1; fits + 1 < fails; rounds = (fits + fails) / 2) {
    auto answer = ask_with_batches(s, craft, t, rounds, options);
    if (answer.fit.starts.empty()) {
      fails = rounds;
      proved = answer.status == Status::infeasible;
    } else {
      fits = rounds;
      best = std::move(answer);
    }
  }
  Fit out = std::move(best.fit);
  out.most_proved = proved;
  if (fits > 0) {
    out.starts = wait_less(out.draft, out.starts);
    const auto wrong = scheduling::check(out.draft.problem, out.starts);
    if (!wrong.empty()) throw std::logic_error("schedule refused by the checker: " + wrong.front());
  }
  return out;
}

}  // namespace dampline::planner
