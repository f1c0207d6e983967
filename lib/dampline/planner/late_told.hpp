#pragma once

#include <vector>

#include <dampline/planner/late.hpp>
#include <dampline/planner/late_search.hpp>

/// A late day in words and as a plan.
namespace dampline::planner {

/// A sheet in the open that goes under cover: how long it stays printable so, and how long it would
/// have otherwise.
[[nodiscard]] Rescue cover_at_once(const LateCase& late, const WetSheet& sheet,
                                   const Waits& covered);
/// A sheet that neither mist nor blotters bring back today.
[[nodiscard]] Rescue past_mending(const LateCase& late, const WetSheet& sheet);

struct LateOutcome {
  const LateCase& late;
  const LateFit& fitted;
  const std::vector<CheckedPull>& pulls;
  const std::vector<WetSheet>& wet;  ///< and waiting for their pulls, as they are now
  std::vector<Rescue> rescues;
  const LateNews& news;
};
[[nodiscard]] Plan told(const LateOutcome& outcome);

}  // namespace dampline::planner
