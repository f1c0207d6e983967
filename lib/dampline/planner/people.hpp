#pragma once

#include <vector>

#include <dampline/session/session.hpp>

/// Who does what: fixed before scheduling, so that a person's pace is known and a plate stays in
/// one pair of hands.
namespace dampline::planner {

/// The hands one plate is printed by.
struct Team {
  int inker = 0;    ///< index into Session::people: inks and wipes
  int handler = 0;  ///< handles paper and runs the press; may be the same person
  int press = 0;    ///< index into Equipment::presses
  [[nodiscard]] bool alone() const { return inker == handler; }
};

/// A team for each plate. One who is down for ink only inks; among several able, the first inks and
/// the next handles paper. Plates with a `printer` are that person's from ink to lay away. Plates
/// that share a sheet share a handler and, unless it is released between them, a press.
[[nodiscard]] std::vector<Team> teams(const session::Session& session);

/// A press and the pair of hands that lays and pulls there.
struct Lane {
  int press = 0;    ///< index into Equipment::presses
  int handler = 0;  ///< index into Session::people
};

/// Where the prints of one edition can be pulled side by side: first at the press of the teams,
/// then at every other press that takes the sheet and for which there is another pair of hands for
/// paper that inks nothing today. The first alone where every plate is an edition of its own, or a
/// plate names its press or its printer.
[[nodiscard]] std::vector<Lane> lanes(const session::Session& session);

/// Everyone able to handle paper, and everyone able to ink; never empty for a session that reads.
[[nodiscard]] std::vector<int> paper_hands(const session::Session& session);
[[nodiscard]] std::vector<int> inky_hands(const session::Session& session);

}  // namespace dampline::planner
