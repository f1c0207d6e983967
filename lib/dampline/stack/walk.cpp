#include <algorithm>
#include <cmath>
#include <stdexcept>

#include <dampline/stack/bounds.hpp>
#include <dampline/stack/rosenbrock.hpp>
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

// Within a step the result is one order lower: held to the error of the ends by shorter steps.
constexpr double within_step = 5;

// How far a layer may pass from branch to branch in a step, which it does between steps.
constexpr double most_turned = 0.05;

double fourth_root(double x) { return std::sqrt(std::sqrt(x)); }

}  // namespace

Walk::Walk(System& system, double seconds, const Tolerance& tolerance, bool looked_into)
    : k_(system),
      seconds_(seconds),
      allowed_(tolerance.moisture),
      inflated_(looked_into ? within_step : 1),
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
    error_ = inflated_ * judged.error;
    const bool known = std::isfinite(error_);
    // The clock cannot tell shorter steps apart.
    const bool smallest = length_ < 1e-13 + 1e-15 * time_ && known;
    if (!(length_ > 1e-16)) throw std::runtime_error("the stack solver lost its footing");
    const bool outside = judged.film > 2 * gone + allowed_ * 0.1 ||
                         (judged.moisture > 2 * allowed_ && excess(k_, k_.next) > 2 * allowed_);
    if (smallest || (error_ <= 1 && !outside)) {
      ++taken;
      settle();
      if (film_ended_ || judged.moisture > 0) bring_inside(k_, k_.next);
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
  double turned = 0;
  for (std::size_t i = 0; i < drying_.size(); ++i) {
    turned = std::max(turned, std::abs(k_.drying[i] - drying_[i]));
    drying_[i] = k_.drying[i];
  }
  time_ += length_;
  if (seconds_ - time_ < 1e-12 * seconds_) time_ = seconds_;
  std::swap(k_.y, k_.next);
  if (stopped_ || !(time_ < seconds_)) return;
  const double before = length_;
  length_ = next_length();
  if (turned > 0) length_ = std::min(length_, before * most_turned / turned);
  // The branches stay where they are expected half way through the step, which makes them second
  // order: as the last step went on, and by no more than half of what it did.
  k_.run->scan(k_, k_.next, k_.y, 0.5 * std::min(1.0, length_ / before));
  k_.run->rates_and_slopes(k_, k_.y, k_.rate);
}

// The method's own result within the step, and its share of what was put right at the end of it.
void Walk::between(double later) {
  const double s = later / length_;
  const int n = k_.size() * k_.lanes;
  double within[Rosenbrock::stages];
  for (int j = 0; j < Rosenbrock::stages; ++j) {
    const auto& d = rosenbrock.dense;
    within[j] = s * (d[0][j] + s * (d[1][j] + s * d[2][j]) - rosenbrock.result[j]);
  }
  for (int i = 0; i < n; ++i) {
    double sum = k_.y[i] + s * (k_.next[i] - k_.y[i]);
    for (int j = 0; j < Rosenbrock::stages; ++j) sum += within[j] * k_.stage[j][i];
    k_.seen[i] = sum;
  }
}

void Walk::stop_at(double later) {
  between(later);
  bring_inside(k_, k_.seen);
  std::swap(k_.next, k_.seen);
  length_ = later;
  stopped_ = true;
}

}  // namespace dampline::stack::kernel
