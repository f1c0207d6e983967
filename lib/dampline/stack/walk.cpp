#include <algorithm>
#include <cmath>
#include <stdexcept>

#include <dampline/stack/bounds.hpp>
#include <dampline/stack/walk.hpp>

namespace dampline::stack::kernel {

namespace {

// Three hundredfold the allowance at the starting rate; the first steps grow eightfold each.
double first_step(const System& k, double seconds) {
  double worst = 0;
  for (int i = 0; i < k.cells * k.lanes; ++i) {
    worst = std::max(worst, std::abs(k.rate[i]) / k.allowed[i % k.lanes]);
  }
  const double h = worst > 0 ? 300 / worst : seconds;
  return std::clamp(h, 1e-9 * seconds, seconds);
}

double fourth_root(double x) { return std::sqrt(std::sqrt(x)); }

}  // namespace

Walk::Walk(System& system, double seconds, const Tolerance& tolerance)
    : k_(system),
      seconds_(seconds),
      allowed_(tolerance.moisture),
      most_steps_(tolerance.most_steps) {
  std::fill_n(k_.allowed, k_.lanes, allowed_);
  drying_.assign(k_.drying, k_.drying + k_.layers * k_.lanes);
  bring_inside(k_, k_.y);
  k_.run->rates_and_slopes(k_, k_.y, k_.rate);
  length_ = first_step(k_, seconds_);
}

bool Walk::step() {
  if (stopped_ || !(time_ < seconds_)) return false;
  for (;;) {
    if (taken + rejected > most_steps_) {
      throw std::runtime_error("the stack solver needs more steps than it was given");
    }
    length_ = std::min(length_, seconds_ - time_);
    const Judged judged = k_.run->step(k_, k_.y, length_, k_.next);
    error_ = judged.error;
    const bool known = std::isfinite(error_);
    // The clock cannot tell shorter steps apart.
    const bool smallest = length_ < 1e-13 + 1e-15 * time_ && known;
    if (!(length_ > 1e-16)) throw std::runtime_error("the stack solver lost its footing");
    const bool outside = judged.film > 2 * gone + allowed_ * 0.1 ||
                         (judged.moisture > 20 * allowed_ && excess(k_, k_.next) > 20 * allowed_);
    if (smallest || (error_ <= 1 && !outside)) {
      ++taken;
      settle();
      if (film_ended_ || judged.moisture > 0) bring_inside(k_, k_.next);
      after_known_ = false;
      return true;
    }
    ++rejected;
    length_ *= !known        ? 0.1
               : error_ <= 1 ? 0.4
                             : std::clamp(0.85 * fourth_root(1 / error_), 0.1, 0.9);
  }
}

void Walk::settle() {
  film_ended_ = false;
  for (int j = 0; j < k_.joints; ++j) {
    for (int lane = 0; lane < k_.lanes; ++lane) {
      if (settle_film(k_, k_.next, j, lane)) film_ended_ = true;
    }
  }
}

// The step to come by the error of the last one, an error that has just grown holding it back, and
// by half an order the change of length before: along a front steps grow all the while.
double Walk::next_length() {
  const double error = std::max(error_, 1e-9);
  const double eased = fourth_root(error_before_ / error);
  double change = 0.85 * std::clamp(eased, 0.7, 1.0) / fourth_root(error);
  if (length_before_ > 0) {
    change *= std::pow(std::clamp(length_ / length_before_ * eased, 0.5, 2.0), 0.7);
  }
  length_before_ = length_;
  error_before_ = std::max(error_, 1e-4);
  return std::min(length_ * std::clamp(change, 0.3, 8.0), seconds_ - time_);
}

void Walk::go() {
  std::copy(drying_.begin(), drying_.end(), k_.drying);
  k_.run->scan(k_, k_.y, k_.next, 1);
  std::copy_n(k_.drying, drying_.size(), drying_.begin());
  time_ += length_;
  if (seconds_ - time_ < 1e-12 * seconds_) time_ = seconds_;
  std::swap(k_.y, k_.next);
  if (stopped_ || !(time_ < seconds_)) return;
  const double before = length_;
  length_ = next_length();
  // The branches stay where they are expected half way through the step, which makes them second
  // order: as the last step went on, and by no more than half of what it did.
  k_.run->scan(k_, k_.next, k_.y, 0.5 * std::min(1.0, length_ / before));
  k_.run->rates_and_slopes(k_, k_.y, k_.rate);
}

// Cubic between the two states and their rates.
void Walk::between(double later) {
  if (!after_known_) k_.run->rates(k_, k_.next, k_.rate_after);
  after_known_ = true;
  const double s = later / length_;
  const double b1 = s * s * (3 - 2 * s);
  const double b0 = 1 - b1;
  const double d0 = length_ * s * (1 - s) * (1 - s);
  const double d1 = -length_ * s * s * (1 - s);
  for (int i = 0; i < k_.size() * k_.lanes; ++i) {
    k_.seen[i] = b0 * k_.y[i] + b1 * k_.next[i] + d0 * k_.rate[i] + d1 * k_.rate_after[i];
  }
}

void Walk::stop_at(double later) {
  between(later);
  bring_inside(k_, k_.seen);
  std::swap(k_.next, k_.seen);
  after_known_ = false;
  length_ = later;
  stopped_ = true;
}

}  // namespace dampline::stack::kernel
