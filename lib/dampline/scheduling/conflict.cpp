#include <algorithm>
#include <stdexcept>

#include <dampline/scheduling/conflict.hpp>
#include <dampline/scheduling/load.hpp>
#include <dampline/scheduling/model.hpp>

namespace dampline::scheduling {
namespace {

constexpr int last_time = 1 << 24;

void refuse_unknown(const Problem& problem, const std::vector<Demand>& demands) {
  const auto within = [](const std::vector<int>& which, std::size_t n) {
    return std::all_of(which.begin(), which.end(),
                       [&](int i) { return i >= 0 && static_cast<std::size_t>(i) < n; });
  };
  for (const auto& demand : demands) {
    if (!within(demand.lags, problem.lags.size()) ||
        !within(demand.resources, problem.resources.size()) ||
        !within(demand.calendars, problem.resources.size()) ||
        !within(demand.changeovers, problem.resources.size())) {
      throw std::invalid_argument(demand.label + " names what does not exist");
    }
  }
}

/// As much as all activities together could hold.
void make_plenty(Problem& problem, int r) {
  long long sum = 0;
  for (const auto& activity : problem.activities) {
    for (const auto& use : activity.uses) sum += use.resource == r ? use.amount : 0;
  }
  auto& resource = problem.resources[static_cast<std::size_t>(r)];
  resource.capacity = static_cast<int>(std::min<long long>(sum, last_time));
  resource.calendar.clear();
  resource.changeover.clear();
  resource.kinds = 0;
}

void open_always(Resource& resource) {
  int most =
      resource.calendar.empty() || resource.calendar.front().from > 0 ? resource.capacity : 0;
  for (const auto& step : resource.calendar) most = std::max(most, step.capacity);
  resource.capacity = most;
  resource.calendar.clear();
}

/// Leaves out demands while what is left stays infeasible.
class Shrinking {
 public:
  Shrinking(const Problem& problem, const std::vector<Demand>& demands, const Options& options)
      : problem_(problem), demands_(demands), options_(options) {
    is_kept_.assign(demands.size(), true);
  }

  Conflict run() {
    conflict_.status = ask(is_kept_);
    if (conflict_.status != Status::infeasible) return std::move(conflict_);
    conflict_.is_minimal = true;
    for (std::size_t part = std::max<std::size_t>(kept().size() / 2, 1);; part /= 2) {
      leave_out(part);
      if (part <= 1) break;
    }
    conflict_.demands = kept();
    return std::move(conflict_);
  }

 private:
  [[nodiscard]] std::vector<int> kept() const {
    std::vector<int> which;
    for (std::size_t i = 0; i < is_kept_.size(); ++i) {
      if (is_kept_[i]) which.push_back(static_cast<int>(i));
    }
    return which;
  }

  /// Tries to do without each run of `part` demands.
  void leave_out(std::size_t part) {
    const auto which = kept();
    for (std::size_t first = 0; first < which.size(); first += part) {
      auto trial = is_kept_;
      bool leaves_any = false;
      for (std::size_t i = first; i < std::min(first + part, which.size()); ++i) {
        const auto demand = static_cast<std::size_t>(which[i]);
        leaves_any = leaves_any || trial[demand];
        trial[demand] = false;
      }
      if (!leaves_any) continue;
      const auto status = ask(trial);
      if (status == Status::unknown && part == 1) conflict_.is_minimal = false;
    }
  }

  /// Is there a schedule that keeps these demands? When there is none, the rest is left out for
  /// good, and with it, when lags alone are to blame, all that is not on their cycle.
  Status ask(const std::vector<bool>& keeps) {
    Problem trial = relaxed(problem_, demands_, keeps);
    const bool keeps_finish = keeps_the_finish(keeps);
    if (options_.deadline && keeps_finish) {
      at_most(trial, trial.source, trial.sink, *options_.deadline);
    }
    const auto built = build(trial);
    Status status = Status::infeasible;
    if (built.is_possible && overloaded(trial) < 0) {
      Options here;
      const long long left = options_.conflicts - conflict_.conflicts;
      here.conflicts = std::min(left, std::max<long long>(options_.conflicts / 10, 1));
      here.seed = options_.seed;
      here.stop = options_.stop;
      here.progress = [](const Progress& progress) { return !progress.has_schedule; };
      if (here.conflicts <= 0) return Status::unknown;
      const auto result = solve(trial, here);
      conflict_.conflicts += result.conflicts;
      status = result.starts.empty() ? result.status : Status::feasible;
    }
    if (status != Status::infeasible) return status;
    is_kept_ = keeps;
    conflict_.cycle.clear();
    conflict_.excess = built.excess;
    if (!built.cycle.empty()) keep_cycle(built, keeps);
    return status;
  }

  [[nodiscard]] bool keeps_the_finish(const std::vector<bool>& keeps) const {
    for (std::size_t i = 0; i < demands_.size(); ++i) {
      if (demands_[i].finish && !keeps[i]) return false;
    }
    return true;
  }

  void keep_cycle(const Built& built, const std::vector<bool>& keeps) {
    // The lags of the trial are those of the problem less the ones left out, in the same order.
    std::vector<bool> is_out(problem_.lags.size(), false);
    for (std::size_t i = 0; i < demands_.size(); ++i) {
      if (keeps[i]) continue;
      for (const int lag : demands_[i].lags) is_out[static_cast<std::size_t>(lag)] = true;
    }
    std::vector<int> number;
    for (std::size_t i = 0; i < is_out.size(); ++i) {
      if (!is_out[i]) number.push_back(static_cast<int>(i));
    }
    bool needs_finish = built.cycle_lags.size() < built.cycle.size();  // a limit is on the cycle
    for (const int lag : built.cycle_lags) {
      if (static_cast<std::size_t>(lag) < number.size()) {
        conflict_.cycle.push_back(number[static_cast<std::size_t>(lag)]);
      } else {
        needs_finish = true;  // the deadline
      }
    }
    for (std::size_t i = 0; i < demands_.size(); ++i) {
      const auto& lags = demands_[i].lags;
      const bool is_on = std::any_of(lags.begin(), lags.end(), [&](int lag) {
        return std::find(conflict_.cycle.begin(), conflict_.cycle.end(), lag) !=
               conflict_.cycle.end();
      });
      is_kept_[i] = keeps[i] && (is_on || (demands_[i].finish && needs_finish));
    }
  }

  const Problem& problem_;
  const std::vector<Demand>& demands_;
  const Options& options_;
  std::vector<bool> is_kept_;
  Conflict conflict_;
};

}  // namespace

Problem relaxed(const Problem& problem, const std::vector<Demand>& demands,
                const std::vector<bool>& is_kept) {
  Problem result = problem;
  std::vector<bool> is_out(problem.lags.size(), false);
  bool may_finish_late = false;
  for (std::size_t i = 0; i < demands.size(); ++i) {
    if (is_kept[i]) continue;
    for (const int lag : demands[i].lags) is_out[static_cast<std::size_t>(lag)] = true;
    for (const int r : demands[i].calendars) {
      open_always(result.resources[static_cast<std::size_t>(r)]);
    }
    for (const int r : demands[i].changeovers) {
      result.resources[static_cast<std::size_t>(r)].changeover.clear();
      result.resources[static_cast<std::size_t>(r)].kinds = 0;
    }
    for (const int r : demands[i].resources) make_plenty(result, r);
    may_finish_late = may_finish_late || demands[i].finish;
  }
  result.lags.clear();
  for (std::size_t i = 0; i < problem.lags.size(); ++i) {
    if (!is_out[i]) result.lags.push_back(problem.lags[i]);
  }
  if (may_finish_late) result.horizon = std::max(result.horizon, safe_horizon(problem));
  return result;
}

Conflict find_conflict(const Problem& problem, const std::vector<Demand>& demands,
                       const Options& options) {
  if (const auto wrong = misfit(problem); !wrong.empty()) throw std::invalid_argument(wrong);
  refuse_unknown(problem, demands);
  return Shrinking(problem, demands, options).run();
}

}  // namespace dampline::scheduling
