#pragma once

#include <dampline/planner/why.hpp>
#include <dampline/scheduling/justify.hpp>

/// The ties of a schedule in the words of why.hpp; used by why() only.
namespace dampline::planner {

class Ties {
 public:
  Ties(const Draft& draft, const std::vector<int>& starts, const std::vector<Step>& steps)
      : d_(draft), starts_(starts), steps_(steps) {}

  /// The activity a step is part of; -1: none.
  [[nodiscard]] int activity_of(const std::string& step) const;
  /// The step that stands for an activity: its last. Null: source and sink have none.
  [[nodiscard]] const Step* step_of(int activity) const;
  [[nodiscard]] std::string name_of(int activity) const;

  /// `then` is held from below by `first`, or `first` from above by `then`, for all of these
  /// reasons; told from the one that is held.
  [[nodiscard]] WhyLink link(const std::vector<scheduling::Hold>& reasons, int held, int other,
                             bool from_above) const;

 private:
  [[nodiscard]] Ground ground(const scheduling::Hold& reason, int first, int then) const;
  void measure(int first, int then, WhyLink& link) const;
  void measure_cover(int covering, int pulling, bool longest, WhyLink& link) const;
  [[nodiscard]] HalfMinutes under_water(int loading, int lifting, bool longest) const;
  [[nodiscard]] HalfMinutes inked(int charging, int pulling) const;
  [[nodiscard]] std::string plate_of(const DraftPull& pull) const;
  [[nodiscard]] HalfMinutes end_of(int activity) const;

  const Draft& d_;
  const std::vector<int>& starts_;
  const std::vector<Step>& steps_;
};

}  // namespace dampline::planner
