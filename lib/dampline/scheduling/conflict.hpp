#pragma once

#include <string>
#include <vector>

#include <dampline/scheduling/problem.hpp>
#include <dampline/scheduling/solve.hpp>

namespace dampline::scheduling {

/// A part of a problem that somebody could give way on, with a name for it. Everything that is in
/// no demand always holds.
struct Demand {
  std::string label;
  std::vector<int> lags{};         ///< indices into the lags of the problem
  std::vector<int> resources{};    ///< whose capacities, calendars and changeovers it stands for
  std::vector<int> calendars{};    ///< resources whose calendars alone it stands for
  std::vector<int> changeovers{};  ///< resources whose changeover times alone it stands for
  bool finish = false;             ///< the horizon and the deadline
};

/// Why nothing fits.
struct Conflict {
  /// `infeasible`: the demands below cannot hold together. `feasible`: there is a schedule.
  Status status = Status::unknown;
  std::vector<int> demands;  ///< indices, in order
  bool is_minimal = false;   ///< proved: without any one of them there is a schedule
  /// When lags alone are to blame: indices of lags that close a cycle, in order, and the time they
  /// ask for beyond what they allow.
  std::vector<int> cycle;
  int excess = 0;
  long long conflicts = 0;
};

/// Finds a set of demands that cannot hold together and from which none can be left out, by
/// leaving out ever smaller parts and searching again ([marques2010]). The conflicts of the
/// options are the budget of all these searches; each gets a tenth of it at most. Throws
/// std::invalid_argument when the problem does not fit or a demand names what does not exist.
[[nodiscard]] Conflict find_conflict(const Problem& problem, const std::vector<Demand>& demands,
                                     const Options& options = {});

/// The problem without the demands for which `is_kept` is false.
[[nodiscard]] Problem relaxed(const Problem& problem, const std::vector<Demand>& demands,
                              const std::vector<bool>& is_kept);

}  // namespace dampline::scheduling
