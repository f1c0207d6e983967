#pragma once

#include <dampline/scheduling/flat.hpp>
#include <dampline/scheduling/problem.hpp>

namespace dampline::scheduling {

/// Later than any time, and earlier; far from the limits of an int.
constexpr int never = 1 << 28;
constexpr int before_all = -never;

/// The instants at which an activity can be worked on, by the calendars alone.
class Working {
 public:
  Working(const Problem& problem, const Activity& activity, int span);

  [[nodiscard]] bool at(int instant) const {
    return instant < works_.count() ? works_[instant] != 0 : works_.back() != 0;
  }
  [[nodiscard]] const Flat<char>& table() const { return works_; }

 private:
  Flat<char> works_;  ///< by instant; the last one stands for all later ones
};

/// Does any resource that the activity holds have a calendar?
[[nodiscard]] bool has_calendar(const Problem& problem, const Activity& activity);

/// All calendars are over, and every start is past, before this instant.
[[nodiscard]] int span_of(const Problem& problem);

/// The clock ends of work that may pause, as a function of its start ([franck2001]). It never
/// falls: a start in a pause counts as one at the end of the pause.
class Stretch {
 public:
  Stretch(const Working& working, int duration);

  /// End of the work; `never` when too few working instants are left.
  [[nodiscard]] int end(int start) const {
    if (start < 0) return before_all;
    if (start < end_.count()) return end_[start];
    return goes_on_ ? start + duration_ : never;
  }

  /// The least start whose end is at least `end`.
  [[nodiscard]] int reach(int end) const;

 private:
  Flat<int> end_;
  int duration_;
  bool goes_on_;  ///< work goes on after the last step of the calendar
};

/// The values a start may take, by the calendars alone.
class Gate {
 public:
  explicit Gate(const Flat<char>& is_open);  ///< by value, from 0

  /// The least open value at or after v; one past the last value when there is none.
  [[nodiscard]] int next(int v) const {
    return v >= next_.count() ? next_.count() : next_[v < 0 ? 0 : v];
  }
  /// The greatest open value at or before v; -1 when there is none.
  [[nodiscard]] int previous(int v) const {
    return v < 0 ? -1 : (v >= previous_.count() ? previous_.back() : previous_[v]);
  }

 private:
  Flat<int> next_;
  Flat<int> previous_;
};

}  // namespace dampline::scheduling
