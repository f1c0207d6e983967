#include <algorithm>
#include <cmath>

#include <dampline/size/register.hpp>
#include <dampline/units/out_of_range.hpp>

namespace dampline::size {

using units::in_si;
using units::metres;

namespace {

struct Point {
  double x;  // m, along the sheet's long side
  double y;
};

// The four corners of the image, measured from what stays put.
std::array<Point, 4> corners(const RegisterCase& c) {
  const double w = in_si(c.long_side);
  const double h = in_si(c.short_side);
  const double margin = in_si(c.margin);
  double x = margin;
  double y = margin;
  if (c.locate != Locate::corner) x = -w / 2;
  if (c.locate == Locate::centre) y = -h / 2;
  return {{{x, y}, {x + w, y}, {x, y + h}, {x + w, y + h}}};
}

double change(units::Strain first, units::Strain later) {
  return (later.parts_of_one() - first.parts_of_one()) / (1 + first.parts_of_one());
}

// Chance that a normal placing error of s.d. `placing` leaves every corner within `tolerance`: the
// error must lie in the intersection of four circles. Exact across, by small steps along.
double chance_within(const std::array<Point, 4>& shift, double placing, double tolerance) {
  const auto allowed = [&](double x) {  // the interval of y that all four corners allow
    Point interval{-1e9, 1e9};
    for (const auto& s : shift) {
      const double room = tolerance * tolerance - (s.x + x) * (s.x + x);
      if (room < 0) return Point{1, -1};
      interval.x = std::max(interval.x, -s.y - std::sqrt(room));
      interval.y = std::min(interval.y, -s.y + std::sqrt(room));
    }
    return interval;
  };
  if (placing <= 0) {
    const Point interval = allowed(0);
    return interval.x <= 0 && interval.y >= 0 ? 1 : 0;
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
    const Point interval = allowed(x);
    if (interval.x >= interval.y) continue;
    const double density =
        std::exp(-0.5 * x * x / (placing * placing)) / (placing * std::sqrt(2 * pi));
    sum += density * (below(interval.y) - below(interval.x)) * half * std::cos(angle) * pi / steps;
  }
  return std::clamp(sum, 0.0, 1.0);
}

// Changes along the sheet's long and short side, and the misfit they make.
Misfit with_changes(const RegisterCase& c, double long_change, double short_change) {
  Misfit m;
  std::array<Point, 4> shift{};
  const auto at = corners(c);
  double long_most = 0;
  double short_most = 0;
  double worst = 0;
  for (std::size_t i = 0; i < 4; ++i) {
    shift[i] = {long_change * at[i].x, short_change * at[i].y};
    m.corner[i] = {metres(shift[i].x), metres(shift[i].y)};
    long_most = std::max(long_most, std::abs(shift[i].x));
    short_most = std::max(short_most, std::abs(shift[i].y));
    worst = std::max(worst, std::hypot(shift[i].x, shift[i].y));
  }
  m.along = metres(long_most);  // the caller swaps them where the grain runs the other way
  m.across = metres(short_most);
  m.worst = metres(worst);
  m.within = units::Chance(chance_within(shift, in_si(c.placing), in_si(c.tolerance)));
  return m;
}

Misfit grain_long(const RegisterCase& c) {
  return with_changes(c, change(c.first.along, c.later.along),
                      change(c.first.across, c.later.across));
}

Misfit grain_short(const RegisterCase& c) {
  Misfit m =
      with_changes(c, change(c.first.across, c.later.across), change(c.first.along, c.later.along));
  std::swap(m.along, m.across);
  m.grain_across_long = true;
  return m;
}

void check(const RegisterCase& c) {
  const auto require = [](const char* what, units::Length l, double low_mm, double high_mm) {
    const double mm = units::in_millimetres(l);
    if (!(mm >= low_mm && mm <= high_mm)) throw units::OutOfRange(what, mm, low_mm, high_mm, "mm");
  };
  require("image side", c.long_side, 1, 3000);
  require("image side", c.short_side, 1, 3000);
  require("placing", c.placing, 0, 100);
  require("tolerance", c.tolerance, 0.001, 100);
  require("margin", c.margin, 0, 3000);
}

}  // namespace

Misfit misfit(const RegisterCase& c) {
  check(c);
  switch (c.grain) {
    case Grain::along_long_side:
      return grain_long(c);
    case Grain::along_short_side:
      return grain_short(c);
    case Grain::none: {
      const double mean =
          0.5 * (change(c.first.along, c.later.along) + change(c.first.across, c.later.across));
      return with_changes(c, mean, mean);
    }
    case Grain::unknown:
      break;
  }
  const Misfit a = grain_long(c);
  const Misfit b = grain_short(c);
  return b.worst > a.worst ? b : a;
}

std::optional<units::Moisture> allowed_moisture_difference(const RegisterCase& c,
                                                           const SheetSize& sheet,
                                                           units::Moisture first, bool drier) {
  constexpr double wettest = 1.5;
  const double start = first.parts_of_one();
  RegisterCase trial = c;
  trial.first = growth(sheet, first);
  const auto out_by = [&](double u) {
    trial.later = growth(sheet, units::Moisture(u));
    return in_si(misfit(trial).worst) - in_si(c.tolerance);
  };
  double inside = start;
  double outside = drier ? 0 : std::max(start, wettest);
  if (out_by(outside) <= 0) return std::nullopt;
  for (int i = 0; i < 60; ++i) {  // the misfit rises steadily with the difference
    const double middle = 0.5 * (inside + outside);
    (out_by(middle) <= 0 ? inside : outside) = middle;
  }
  return units::Moisture(std::abs(inside - start));
}

}  // namespace dampline::size
