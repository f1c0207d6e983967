#pragma once

#include <vector>

#include <dampline/planner/damping.hpp>
#include <dampline/planner/draft.hpp>

namespace dampline::planner {

/// What happens to one sheet, as stages on its own clock.
struct Timeline {
  HalfMinutes begins{};                 ///< on the clock of the day; negative: before it opens
  std::vector<method::Stage> stages;    ///< from first contact with water to its last pull
  std::vector<std::size_t> pull_after;  ///< the stage whose end is each pull, in order
};

/// A sheet through its soak, blotting, cover and pulls. The sheet lies in the open while it is laid
/// to the marks, is in the nip for a few seconds, and stays covered between its plates.
[[nodiscard]] Timeline timeline_of(const DraftSheet& sheet, const std::vector<DraftPull>& pulls,
                                   const Damping& damping, const std::vector<int>& starts);

/// The same up to a moment after it was covered: the pulls it has had, and its wait since.
[[nodiscard]] Timeline timeline_until(HalfMinutes at, const DraftSheet& sheet,
                                      const std::vector<DraftPull>& pulls, const Damping& damping,
                                      const std::vector<int>& starts);

/// The pulls of a sheet, by time.
[[nodiscard]] std::vector<DraftPull> pulls_of(const Draft& draft, int sheet,
                                              const std::vector<int>& starts);

}  // namespace dampline::planner
