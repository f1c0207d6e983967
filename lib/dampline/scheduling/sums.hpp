#pragma once

#include <dampline/scheduling/model.hpp>
#include <dampline/scheduling/trail.hpp>

namespace dampline::scheduling {

/// Weighted sums of starts with a limit: what objectives other than the finish are made of.
class Sums {
 public:
  explicit Sums(const Model& model);

  /// The bound of a half moved.
  void note(int half) {
    if (sums_of_.empty()) return;
    for (const int s : sums_of_[half]) {
      if (is_moved_[s] != 0) continue;
      is_moved_[s] = 1;
      moved_.push_back(s);
    }
  }

  /// False when a bound crossed the opposite one.
  bool propagate(Trail& trail);

  /// Forgets what was noted, after going back.
  void forget();

  /// Literals true before `place` that make the entry reach `value`, as weak as the sum allows.
  void explain(const Trail& trail, const Entry& entry, int place, int value,
               Flat<Literal>& out) const;

 private:
  bool tighten(Trail& trail, int s) const;

  const Model& model_;
  Flat<Flat<int>> sums_of_;  ///< half -> sums; empty when there are none at all
  Flat<int> moved_;
  Flat<char> is_moved_;
};

}  // namespace dampline::scheduling
