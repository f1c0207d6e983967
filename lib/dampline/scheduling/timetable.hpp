#pragma once

#include <algorithm>
#include <cstdint>

#include <dampline/scheduling/model.hpp>
#include <dampline/scheduling/trail.hpp>

namespace dampline::scheduling {

/// What is certainly held of each resource at each instant, kept up to date with the trail.
///
/// A task that starts in [low, high] certainly holds its amount during [high, low + duration).
/// Starts whose task would then exceed the capacity are cut off, one instant at a time
/// ([schutt2011] section 4, pointwise explanations). What a calendar takes away counts as held;
/// work that may pause holds nothing in a pause of the resource.
class Timetable {
 public:
  explicit Timetable(const Model& model);

  /// Follows the bounds of start x; false when some instant is now overloaded.
  bool update(const Trail& trail, int x);

  /// A resource whose tasks wait to be filtered, or -1.
  [[nodiscard]] int waiting() const;

  /// Cuts starts of the tasks of one resource; false when a bound crossed the opposite one.
  bool filter(Trail& trail, int resource);

  void new_level() { marks_.push_back(log_.count()); }
  void back_to(int level);

  /// The overloaded instant, after update() returned false.
  struct Overload {
    int resource = 0;
    int instant = 0;
  };
  [[nodiscard]] Overload overload() const { return overload_; }

  [[nodiscard]] int resource_of(int task) const { return resource_of_[task]; }

  /// Is the instant within the part that the task certainly holds?
  [[nodiscard]] bool covers(int task, int instant) const {
    return part_[task].from <= instant && instant < part_[task].to && !stands_still(task, instant);
  }

  /// What the calendar takes away of a resource.
  [[nodiscard]] int missing(int resource, int instant) const {
    const auto& row = model_.missing[resource];
    return row.empty() ? 0 : row[instant];
  }

 private:
  struct Part {
    int from = 0;
    int to = 0;
  };
  struct Change {
    int task;
    int from;
    int to;
    Part before;
  };

  /// End of a task that starts at `start`, inside the span.
  [[nodiscard]] int end(const Model::Task& task, int start) const {
    if (task.stretch < 0) return start + task.duration;
    return std::min(model_.end_of(task, start), model_.span);
  }

  /// Is the instant a pause of the task's own resource in which it holds nothing?
  [[nodiscard]] bool stands_still(int k, int instant) const {
    const auto& task = model_.tasks[k];
    if (task.stretch < 0) return false;
    const int r = resource_of_[k];
    const auto& missing = model_.missing[r];
    return !missing.empty() && missing[instant] + task.amount > model_.capacity[r];
  }

  bool hold(int task, int from, int to);
  bool filter_low(Trail& trail, int task);
  bool filter_high(Trail& trail, int task);
  [[nodiscard]] std::uint64_t blocks(int from, int to) const;

  const Model& model_;
  int shift_ = 3;  ///< instants per block, as a power of two
  Flat<int> resource_of_;
  Flat<int> first_of_start_;  ///< start -> its tasks, compressed rows
  Flat<int> tasks_of_start_;
  Flat<Flat<int>> held_;  ///< resource, instant -> amount
  Flat<Part> part_;       ///< task -> what is certain of it
  Flat<Change> log_;
  Flat<int> marks_;
  Flat<std::uint64_t> raised_;  ///< resource -> blocks (modulo 64) where more is held now
  Flat<Flat<int>> moved_;       ///< resource -> tasks of which a bound moved
  Flat<char> is_moved_;
  Flat<int> work_;
  Overload overload_;
};

}  // namespace dampline::scheduling
