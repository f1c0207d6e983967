#pragma once

#include <dampline/scheduling/model.hpp>
#include <dampline/scheduling/trail.hpp>

namespace dampline::scheduling {

/// Times between jobs that depend on their kinds, on resources that one job holds at a time.
///
/// Of two jobs one comes first. As soon as the bounds allow only one order (a detectable
/// precedence, [vilim2004] section 3), the later start is kept behind the earlier end and the
/// changeover time, and the other way round.
class Changeovers {
 public:
  explicit Changeovers(const Model& model);

  /// A bound of start x moved.
  void note(int x) {
    if (jobs_of_.empty()) return;
    for (const int k : jobs_of_[x]) {
      if (is_moved_[k] != 0) continue;
      is_moved_[k] = 1;
      moved_.push_back(k);
    }
  }

  [[nodiscard]] bool is_waiting() const { return !moved_.empty(); }

  /// False when a bound crossed the opposite one.
  bool propagate(Trail& trail);

  /// Forgets what was noted, after going back.
  void forget();

  /// Literals true before `place` that make the entry reach `value`.
  void explain(const Trail& trail, const Entry& entry, int place, int value,
               Flat<Literal>& out) const;

 private:
  [[nodiscard]] int gap(int first, int then) const;
  [[nodiscard]] bool may_precede(const Trail& trail, int first, int then) const;
  bool put_in_order(Trail& trail, int first, int then) const;

  const Model& model_;
  Flat<Flat<int>> jobs_of_;       ///< start -> jobs; empty when there are none at all
  Flat<int> first_of_, last_of_;  ///< job -> the range of jobs on its resource
  Flat<int> moved_;
  Flat<char> is_moved_;
};

}  // namespace dampline::scheduling
