#include <algorithm>

#include <dampline/planner/clash.hpp>
#include <dampline/planner/demands.hpp>
#include <dampline/scheduling/load.hpp>
#include <dampline/scheduling/solve.hpp>

namespace dampline::planner {
namespace {

using scheduling::Status;

Extent extent_of(const session::Session& s, int rounds, int batches) {
  Extent e;
  e.proofs = std::min(rounds, s.edition.proofs);
  e.prints = rounds - e.proofs;
  e.batches = batches;
  return e;
}

// The day drafted in every way that is tried, one problem each.
std::vector<DemandedDay> alternatives(const session::Session& s, const Craft& craft,
                                      const Treatment& t, int rounds) {
  std::vector<DemandedDay> days;
  const auto add = [&](const Extent& way, bool tub_is_passed) {
    days.push_back(demanded(s, craft, t, draft(s, craft, t, way), tub_is_passed));
  };
  const auto all = ways(s, t, rounds);
  const int least = all.front().batches;
  for (auto way : all) {  // all in one soak, in a tub that is too small
    if (least == 1 || way.batches != least) continue;
    way.batches = 1;
    add(way, true);
  }
  for (const auto& way : all) add(way, false);
  return days;
}

class Shrinking {
 public:
  Shrinking(std::vector<DemandedDay> days, const FitOptions& options)
      : days_(std::move(days)), options_(options) {}

  std::optional<std::vector<int>> run() {
    std::vector<bool> keeps(days_.front().demands.size(), false);
    scheduling::Options o;
    o.conflicts = options_.conflicts;
    o.seed = options_.seed;
    for (const auto& day : days_) {
      const auto found = scheduling::find_conflict(day.problem, day.demands, o);
      if (found.status != Status::infeasible) return std::nullopt;
      for (const int i : found.demands) keeps[static_cast<std::size_t>(i)] = true;
    }
    // One set that stops every number of soaks: of all that stop any, what is needed.
    for (std::size_t i = 0; i < keeps.size(); ++i) {
      if (!keeps[i]) continue;
      keeps[i] = false;
      const auto status = ask(keeps);
      if (status == Status::infeasible) continue;
      keeps[i] = true;
      is_minimal = is_minimal && status == Status::feasible;
    }
    std::vector<int> which;
    for (std::size_t i = 0; i < keeps.size(); ++i) {
      if (keeps[i]) which.push_back(static_cast<int>(i));
    }
    return which;
  }

  bool is_minimal = true;

 private:
  [[nodiscard]] Status ask(const std::vector<bool>& keeps) const {
    Status all = Status::infeasible;
    for (const auto& day : days_) {
      const auto status = ask(scheduling::relaxed(day.problem, day.demands, keeps));
      if (status == Status::feasible) return status;
      if (status == Status::unknown) all = status;
    }
    return all;
  }

  [[nodiscard]] Status ask(const scheduling::Problem& problem) const {
    if (scheduling::overloaded(problem) >= 0) return Status::infeasible;
    scheduling::Options o;
    o.conflicts = options_.conflicts;
    o.seed = options_.seed;
    o.progress = [](const auto& progress) { return !progress.has_schedule; };
    const auto result = scheduling::solve(problem, o);
    return result.starts.empty() ? result.status : Status::feasible;
  }

  std::vector<DemandedDay> days_;
  const FitOptions& options_;
};

// Paper and places to dry are counted, not scheduled.
std::optional<Clash> by_count(const session::Session& s, int rounds, const std::string& edition) {
  const int each = s.edition.sheet_each ? static_cast<int>(s.plates.size()) : 1;
  if (s.paper.sheets > 0 && rounds * each > s.paper.sheets) {
    return Clash{{edition, std::to_string(s.paper.sheets) + " sheets of paper"}, true};
  }
  if (s.equipment.drying_places && rounds * each > *s.equipment.drying_places) {
    return Clash{{edition, std::to_string(*s.equipment.drying_places) + " places to dry"}, true};
  }
  return std::nullopt;
}

}  // namespace

std::optional<Clash> clash(const session::Session& s, const Craft& craft, const Treatment& t,
                           int rounds, int planned, const FitOptions& options) {
  const int each = s.edition.sheet_each ? static_cast<int>(s.plates.size()) : 1;
  const auto extent = extent_of(s, rounds, 1);
  const auto edition = edition_words(extent.prints * each, extent.proofs * each);
  if (planned > 0) {
    if (auto counted = by_count(s, rounds, edition)) return counted;
  }
  auto days = alternatives(s, craft, t, rounds);
  std::vector<std::string> labels;
  for (const auto& demand : days.front().demands) labels.push_back(demand.label);
  Shrinking shrinking(std::move(days), options);
  const auto which = shrinking.run();
  if (!which) return std::nullopt;
  Clash out;
  out.is_minimal = shrinking.is_minimal;
  if (planned > 0) out.demands.push_back(edition);
  for (const int i : *which) out.demands.push_back(labels[static_cast<std::size_t>(i)]);
  return out;
}

}  // namespace dampline::planner
