#pragma once

#include <vector>

#include <dampline/planner/damping.hpp>
#include <dampline/planner/draft.hpp>
#include <dampline/planner/plan.hpp>
#include <dampline/planner/registering.hpp>
#include <dampline/readiness/judge.hpp>

/// Every sheet simulated through the day as scheduled, with its own waits.
namespace dampline::planner {

/// What a pull finds, and what the expected sheet is judged to be.
struct CheckedPull {
  Pull pull;
  readiness::Judgement judgement;
  HalfMinutes waited{};  ///< since the sheet was covered
};

/// The pulls of a schedule, by time.
[[nodiscard]] std::vector<CheckedPull> check_pulls(const session::Session& session,
                                                   const PaperCase& paper, const Damping& damping,
                                                   const Registering& registering,
                                                   const Draft& draft,
                                                   const std::vector<int>& starts);

/// The batches of a schedule with their moisture over the day.
[[nodiscard]] std::vector<Batch> follow_batches(const PaperCase& paper, const Damping& damping,
                                                const Draft& draft, const std::vector<int>& starts);

}  // namespace dampline::planner
