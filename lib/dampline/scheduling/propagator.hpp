#pragma once

#include <utility>

#include <dampline/scheduling/changeovers.hpp>
#include <dampline/scheduling/clauses.hpp>
#include <dampline/scheduling/model.hpp>
#include <dampline/scheduling/sums.hpp>
#include <dampline/scheduling/timetable.hpp>
#include <dampline/scheduling/trail.hpp>
#include <dampline/scheduling/unary.hpp>

namespace dampline::scheduling {

/// The bounds of all starts and everything that follows from them: lags, calendars, learnt clauses,
/// what is certainly held of the resources, changeovers and the sums that objectives ask for.
class Propagator {
 public:
  explicit Propagator(const Model& model);

  /// How propagate() failed. crossed: the last trail entry passes the opposite bound; clause: all
  /// literals of the clause at `place` are false; overload: see the timetable; crowded: see
  /// Unary.
  enum class Flaw { none, crossed, clause, overload, crowded };

  /// Draws every consequence; false when there is a flaw.
  bool propagate();

  [[nodiscard]] Flaw flaw() const { return flaw_; }
  [[nodiscard]] int broken_clause() const { return broken_; }

  void decide(Literal l) {
    timetable.new_level();
    trail.decide(l);
  }

  /// Undoes everything above a level.
  void back_to(int level);

  /// Arcs that hold while a literal is true, in the place of those set before. Only at level 0
  /// and while that literal is not true.
  void set_links(Flat<Flat<Model::Arc>> rows, Literal while_true) {
    links_ = std::move(rows);
    links_hold_ = while_true;
  }
  [[nodiscard]] Literal links_hold() const { return links_hold_; }

  const Model& model;
  Trail trail;
  Clauses clauses;
  Timetable timetable;
  Changeovers changeovers;
  Sums sums;
  Unary unary;

 private:
  bool follow_lags(const Entry& entry);
  bool follow_calendar(const Entry& entry);
  bool follow_links(int half);
  bool fail(Flaw flaw) {
    flaw_ = flaw;
    return false;
  }

  int head_ = 0;       ///< first trail entry not yet followed by lags and clauses
  int time_head_ = 0;  ///< the same for the timetable
  Flaw flaw_ = Flaw::none;
  int broken_ = -1;
  bool has_calendars_ = false;
  Flat<Flat<Model::Arc>> links_;
  Literal links_hold_;
};

/// The literal that makes entry `entry`, moved by a gate or a bend, reach `value`.
[[nodiscard]] Literal bent_reason(const Model& model, const Entry& entry, int value);

}  // namespace dampline::scheduling
