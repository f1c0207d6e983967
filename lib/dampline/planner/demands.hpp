#pragma once

#include <vector>

#include <dampline/planner/draft.hpp>
#include <dampline/scheduling/conflict.hpp>

/// A day's problem cut into what somebody could give way on, each part in the session's words.
namespace dampline::planner {

struct DemandedDay {
  scheduling::Problem problem;  ///< the draft's, with breaks and rests held apart from the hands
  std::vector<scheduling::Demand> demands;
};

/// The demands come in the same order, under the same labels, for every draft of a session; some
/// may stand for nothing. `tub_is_passed` says that the draft puts more sheets under water at once
/// than the tub holds: then there is no schedule as long as the tub is demanded.
[[nodiscard]] DemandedDay demanded(const session::Session& session, const Craft& craft,
                                   const Treatment& treatment, const Draft& draft,
                                   bool tub_is_passed);

/// "10 prints and 2 proofs"
[[nodiscard]] std::string edition_words(int prints, int proofs);

/// "09:30"
[[nodiscard]] std::string clock_words(session::ClockTime time);

}  // namespace dampline::planner
