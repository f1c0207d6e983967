#include <map>

#include <dampline/planner/aims.hpp>
#include <dampline/planner/lay_out.hpp>
#include <dampline/scheduling/check.hpp>
#include <dampline/scheduling/justify.hpp>

namespace dampline::planner {
namespace {

const DraftSheet& sheet_of(const Draft& draft, const DraftPull& pull) {
  return draft.sheets[static_cast<std::size_t>(pull.sheet - 1)];
}

// From first contact with water to the moment the last pull begins, by sheet.
std::map<int, Moment> last_pulls(const Draft& draft) {
  std::map<int, Moment> last;
  for (const auto& pull : draft.pulls) last[pull.sheet] = pull.pulled;
  return last;
}

}  // namespace

scheduling::Objective most_margin(const Draft& draft, const Treatment& treatment) {
  std::vector<scheduling::Window> windows;
  for (const auto& pull : draft.pulls) {
    const int source = draft.problem.source;
    if (pull.pulled.activity == source) continue;  // it has been
    if (const auto own = treatment.of_sheet.find(pull.sheet); own != treatment.of_sheet.end()) {
      const auto [from, until] = own->second;
      windows.push_back({source, pull.pulled.activity, (from - pull.pulled.offset).count(),
                         (until - pull.pulled.offset).count()});
      continue;
    }
    const auto& covered = sheet_of(draft, pull).covered;
    const HalfMinutes shift = covered.offset - pull.pulled.offset;
    windows.push_back({covered.activity, pull.pulled.activity, (treatment.opens + shift).count(),
                       (treatment.closes + shift).count()});
  }
  return scheduling::most_margin("margin", std::move(windows));
}

scheduling::Objective least_idle_wet(const Draft& draft) {
  std::vector<scheduling::Wait> waits;
  for (const auto& [number, pulled] : last_pulls(draft)) {
    const auto& wet = draft.sheets[static_cast<std::size_t>(number - 1)].wet;
    waits.push_back({wet.activity, pulled.activity, 1});
  }
  for (const auto& pull : draft.pulls) {
    if (pull.pulled.activity == pull.inked.activity) continue;  // it has been
    waits.push_back({pull.inked.activity, pull.pulled.activity, 1});
  }
  return scheduling::least_waiting("idle wet", waits);
}

HalfMinutes idle_wet(const Draft& draft, const Treatment& treatment,
                     const std::vector<int>& starts) {
  HalfMinutes sum{};
  for (const auto& [number, pulled] : last_pulls(draft)) {
    const auto& sheet = draft.sheets[static_cast<std::size_t>(number - 1)];
    sum += when(pulled, starts) - when(sheet.covered, starts) - treatment.opens;
    if (treatment.in_tub)
      sum += when(sheet.lifted, starts) - when(sheet.wet, starts) - treatment.soak;
  }
  for (const auto& pull : draft.pulls) sum += when(pull.pulled, starts) - when(pull.inked, starts);
  return sum;
}

scheduling::Problem kept(const Draft& draft, const Treatment& treatment, HalfMinutes finish,
                         HalfMinutes margin) {
  auto problem = draft.problem;
  scheduling::at_most(problem, problem.source, problem.sink, finish.count());
  for (const auto& w : most_margin(draft, treatment).windows) {
    scheduling::at_least(problem, w.from, w.to, w.least + margin.count());
    scheduling::at_most(problem, w.from, w.to, w.most - margin.count());
  }
  return problem;
}

std::vector<int> wait_less(const scheduling::Problem& problem, const Draft& draft,
                           const std::vector<int>& starts) {
  const auto late = scheduling::Direction::late;
  auto moved = scheduling::justify(problem, starts, draft.movable_later, late);
  return scheduling::check(problem, moved).empty() ? moved : starts;
}

}  // namespace dampline::planner
