#pragma once

#include <dampline/planner/draft.hpp>

/// What the ties of a draft stand for in the studio.
namespace dampline::planner {

/// Why one thing holds another where it is.
enum class Ground {
  opening,    ///< nothing begins before the studio opens
  set_time,   ///< the session gives its time: breaks and short rests
  order,      ///< one thing after the other
  soak,       ///< least time under water
  tub_limit,  ///< longest time under water
  rest,       ///< a sheet is not printable sooner after it is covered
  keeps,      ///< nor later
  ink_waits,  ///< an inked plate waits so long at most
  between,    ///< a sheet comes back for its next plate before it has changed too much
  plate,      ///< the plate is still at the press
  tub,        ///< the tub is full
  hands,      ///< somebody's hands, a press or a place are taken
  changing,   ///< time to change between two kinds of work
  away,       ///< somebody or something is not there
  finish      ///< everything is done
};

/// What a lag of at least `least` from the start of activity `from` to the start of `to` is for;
/// below 0 it is the longest that `from` may come after `to`.
[[nodiscard]] Ground ground_of(const Draft& draft, int from, int to, int least);

/// Of a lag of the problem.
[[nodiscard]] Ground ground_of(const Draft& draft, const scheduling::Lag& lag);

/// Is the activity a break, or a short rest?
[[nodiscard]] bool is_break(const Draft& draft, int activity);

/// The pull of the draft that is made in this activity, the first of several; none: null.
[[nodiscard]] const DraftPull* pull_in(const Draft& draft, int activity);

}  // namespace dampline::planner
