#pragma once

#include <map>
#include <set>
#include <vector>

#include <dampline/planner/remaining.hpp>
#include <dampline/planner/rescue.hpp>
#include <dampline/planner/worked_day.hpp>

/// The most of what is left of a day's prints that still fits.
namespace dampline::planner {

/// A day that has begun, as it is now.
struct LateCase {
  const session::Session& session;
  const Knowledge& knowledge;
  const WorkedDay& worked;
  Morning morning;
  History history;
  HalfMinutes until{};
  FitOptions options;
  Damping damping;               ///< with the windows of the sheets that are wet
  std::map<int, Mend> mends;     ///< by sheet: out of its band, and what brings it back
  std::set<int> beyond_mending;  ///< sheets
  std::map<int, std::vector<Tending>> tended;  ///< by sheet: how it has waited, and waits from now
};

/// What is left of a day, scheduled.
struct LateFit {
  Fit fit;  ///< no starts when there is none
  Remaining rest;
  std::set<int> lost;  ///< prints
  bool over = false;   ///< it ends after the day does
  bool given_up = false;
};

/// How many spoiled prints there is a spare sheet for. Proofs are not pulled again, nor prints of a
/// class, where every plate is an edition of its own.
[[nodiscard]] int replacements(const LateCase& late);

[[nodiscard]] LateFit fit_the_rest(const LateCase& late);

}  // namespace dampline::planner
