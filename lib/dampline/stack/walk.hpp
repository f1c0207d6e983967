#pragma once

#include <vector>

#include <dampline/stack/kernel_si.hpp>
#include <dampline/stack/stack.hpp>

/// Steps through time, the same for one stack and for lanes: the worst lane sets the step.
namespace dampline::stack::kernel {

class Walk {
 public:
  /// From System::y. Throws std::runtime_error when most_steps are not enough.
  /// `looked_into`: `between` is to be as good as the ends of steps, which makes them shorter.
  Walk(System& system, double seconds, const Tolerance& tolerance, bool looked_into = false);

  /// Takes a step good enough: from System::y at `time` to System::next, `length` later. False when
  /// there is nothing left to walk.
  bool step();
  /// Accepts it.
  void go();

  /// State within the step, `later` seconds after its start, into System::seen.
  void between(double later);
  /// The step ends there instead, and the walk with it.
  void stop_at(double later);

  [[nodiscard]] double time() const { return time_; }
  [[nodiscard]] double length() const { return length_; }
  [[nodiscard]] bool film_ended() const { return film_ended_; }
  [[nodiscard]] bool stopped() const { return stopped_; }
  int taken = 0;
  int rejected = 0;

 private:
  void settle();

  [[nodiscard]] double next_length();

  System& k_;
  std::vector<double> drying_;  // at the start of the step; System::drying stands at its middle
  double seconds_;
  double allowed_;
  double inflated_;  // errors, where steps are looked into
  int most_steps_;
  double time_ = 0;
  double length_;
  double length_before_ = 0;
  double error_ = 0;
  double error_before_ = 1;
  bool film_ended_ = false;
  bool stopped_ = false;
};

}  // namespace dampline::stack::kernel
