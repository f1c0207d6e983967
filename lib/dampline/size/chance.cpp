#include <algorithm>
#include <cmath>

#include <dampline/size/chance.hpp>

namespace dampline::size {
namespace {

struct Interval {
  double from = -1e9;
  double to = 1e9;
};

// Of y, what all four corners allow at this x; from above to when nothing.
Interval allowed(const std::array<ShiftSi, 4>& shift, double tolerance, double x) {
  Interval interval;
  for (const auto& s : shift) {
    const double room = tolerance * tolerance - (s.x + x) * (s.x + x);
    if (room < 0) return {1, -1};
    interval.from = std::max(interval.from, -s.y - std::sqrt(room));
    interval.to = std::min(interval.to, -s.y + std::sqrt(room));
  }
  return interval;
}

}  // namespace

// Exact across, by small steps along.
double chance_within_si(const std::array<ShiftSi, 4>& shift, double placing, double tolerance) {
  if (placing <= 0) {
    const Interval interval = allowed(shift, tolerance, 0);
    return interval.from <= 0 && interval.to >= 0 ? 1 : 0;
  }
  const auto below = [&](double y) { return 0.5 * std::erfc(-y / (placing * std::sqrt(2.0))); };
  double low = -tolerance;
  double high = tolerance;
  for (const auto& s : shift) {
    low = std::max(low, -s.x - tolerance);
    high = std::min(high, -s.x + tolerance);
  }
  low = std::max(low, -6 * placing);
  high = std::min(high, 6 * placing);
  if (!(low < high)) return 0;
  // In the angle whose sine runs from low to high, the ends of the circles are smooth.
  constexpr int steps = 400;
  constexpr double pi = 3.14159265358979323846;
  const double middle = 0.5 * (low + high);
  const double half = 0.5 * (high - low);
  double sum = 0;
  for (int i = 0; i < steps; ++i) {
    const double angle = pi * ((i + 0.5) / steps - 0.5);
    const double x = middle + half * std::sin(angle);
    const Interval interval = allowed(shift, tolerance, x);
    if (interval.from >= interval.to) continue;
    const double density =
        std::exp(-0.5 * x * x / (placing * placing)) / (placing * std::sqrt(2 * pi));
    sum +=
        density * (below(interval.to) - below(interval.from)) * half * std::cos(angle) * pi / steps;
  }
  return std::clamp(sum, 0.0, 1.0);
}

}  // namespace dampline::size
