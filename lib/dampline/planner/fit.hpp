#pragma once

#include <vector>

#include <dampline/planner/draft.hpp>

/// How much of the edition fits the day, and the schedule of it.
namespace dampline::planner {

struct FitOptions {
  long long conflicts = 60000;  ///< search budget for each question put to the engine
  unsigned seed = 1;
};

struct Fit {
  Extent extent;             ///< what is printed; zero prints and proofs when nothing fits
  bool most_proved = false;  ///< it is proved that not one more fits
  Draft draft;               ///< empty when nothing fits
  std::vector<int> starts;
  HalfMinutes finish{};
  HalfMinutes bound{};
};

/// The most rounds (proofs first, then prints) that fit the day and, of plans of that many, the
/// earliest finish found, with its bound. Soaks are split over as many batches as finish earliest.
[[nodiscard]] Fit fit(const session::Session& session, const Craft& craft,
                      const Treatment& treatment, const FitOptions& options);

/// The most rounds the paper and the drying places allow, whatever the clock says.
[[nodiscard]] int most_rounds(const session::Session& session);

}  // namespace dampline::planner
