#pragma once

#include <vector>

#include <dampline/planner/draft.hpp>
#include <dampline/scheduling/solve.hpp>

/// How much of the edition fits the day, and the schedule of it.
namespace dampline::planner {

struct FitOptions {
  long long conflicts = 60000;  ///< search budget for each question put to the engine
  unsigned seed = 1;
  HalfMinutes finish_tolerance{};  ///< the day may end so much later for what comes after
};

struct Fit {
  Extent extent;             ///< what is printed; zero prints and proofs when nothing fits
  bool most_proved = false;  ///< it is proved that not one more fits
  Draft draft;               ///< empty when nothing fits
  std::vector<int> starts;
  HalfMinutes finish{};
  HalfMinutes bound{};         ///< no plan of as many ends earlier
  HalfMinutes margin{};        ///< every pull keeps so far from either end of its window
  bool margin_proved = false;  ///< no plan that ends by then keeps further
  HalfMinutes idle_wet{};      ///< of all sheets and inked plates, as aims.hpp has it
  bool idle_proved = false;    ///< no plan that ends by then and keeps the margin has less
};

/// Objectives in their order: the most rounds (proofs first, then prints) that fit the day; of
/// plans of that many the earliest finish, with its bound; then the most margin; then the least
/// idle wet time. Soaks are split over as many batches as serve these best: ever more of them,
/// until more bring no earlier finish.
[[nodiscard]] Fit fit(const session::Session& session, const Craft& craft,
                      const Treatment& treatment, const FitOptions& options);

/// The ways in which so many rounds may be wetted and pulled, all of which are tried: in the fewest
/// soaks the tub allows and up to two more, each at one press and shared out over all there are
/// lanes() for.
[[nodiscard]] std::vector<Extent> ways(const session::Session& session, const Treatment& treatment,
                                       int rounds);

/// Is there a plan of so many rounds? `feasible`, `infeasible` (proved) or `unknown`.
[[nodiscard]] scheduling::Status rounds_fit(const session::Session& session, const Craft& craft,
                                            const Treatment& treatment, int rounds,
                                            const FitOptions& options);

/// The most rounds the paper and the drying places allow, whatever the clock says.
[[nodiscard]] int most_rounds(const session::Session& session);

}  // namespace dampline::planner
