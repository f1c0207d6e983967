#pragma once

#include <vector>

#include <dampline/scheduling/clock.hpp>
#include <dampline/scheduling/flat.hpp>
#include <dampline/scheduling/problem.hpp>

namespace dampline::scheduling {

/// What is held of each resource at each instant of a schedule that is being moved about.
class Held {
 public:
  Held(const Problem& problem, const std::vector<int>& starts);

  void add(int activity, int start, int sign);

  /// With everything added: does the activity find its calendar open and capacity enough?
  [[nodiscard]] bool is_within(int activity, int start) const;

  [[nodiscard]] int at(int resource, int instant) const { return held_[resource][instant]; }
  [[nodiscard]] int offered(int resource, int instant) const {
    const auto& row = offered_[resource];
    return row.empty() ? problem_.resources[static_cast<std::size_t>(resource)].capacity
                       : row[instant];
  }

  /// When an activity ends that starts at `start`, and the least start that ends at `end` or later.
  [[nodiscard]] int end(int activity, int start) const;
  [[nodiscard]] int reach(int activity, int end) const;

  /// May the activity start there, by the calendars alone?
  [[nodiscard]] bool is_open(int activity, int start) const;

  /// The least start of the later activity of a lag, and the greatest one of the earlier.
  [[nodiscard]] int forward(const Lag& lag, int start) const;
  [[nodiscard]] int backward(const Lag& lag, int start) const;

 private:
  [[nodiscard]] bool stands_still(const Use& use, int activity, int instant) const {
    return stretch_of_[activity] >= 0 && offered(use.resource, instant) < use.amount;
  }

  const Problem& problem_;
  int span_;
  Flat<Flat<int>> held_;
  Flat<Flat<int>> offered_;  ///< empty rows: no calendar
  Flat<Stretch> stretches_;
  Flat<int> stretch_of_;
};

/// The time one job needs after another where both use a resource with changeover times, and 0
/// where they do not.
[[nodiscard]] int changeover_time(const Problem& problem, int first, int then);

}  // namespace dampline::scheduling
