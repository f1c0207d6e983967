#include <cmath>
#include <stdexcept>

#include "validation/check.hpp"

namespace dampline::validation {
namespace {

bool has(double value) { return !std::isnan(value); }

double middle(const Check& check, const Point& p) {
  if (has(p.data)) return p.data;
  if (!has(p.data_low) || !has(p.data_high)) return absent;
  if (check.measure == Measure::difference || p.data_low <= 0) {
    return 0.5 * (p.data_low + p.data_high);
  }
  return std::sqrt(p.data_low * p.data_high);
}

bool is_inside(const Check& check, const Point& p) {
  double low = has(p.data_low) ? p.data_low : p.data;
  double high = has(p.data_high) ? p.data_high : p.data;
  if (check.measure == Measure::factor && check.allowed > 0) {
    low /= check.allowed;
    high *= check.allowed;
  } else if (check.measure == Measure::relative) {
    low *= 1 - check.allowed;
    high *= 1 + check.allowed;
  } else if (check.measure == Measure::difference) {
    low -= check.allowed;
    high += check.allowed;
  }
  return p.model >= low && p.model <= high;
}

// A relative bound of 5 % means model/data from 0.95 to 1.05, not e^0.05.
bool beyond(const Check& check, double deviation, double bound) {
  bound *= 1 + 1e-9;  // a value on the bound meets it
  if (check.measure == Measure::relative) return std::abs(std::expm1(deviation)) > bound;
  return std::abs(deviation) > bound;
}

double bound_of(const Check& check) {
  if (!(check.allowed > 0)) return 2 * check.own;
  return check.measure == Measure::factor ? std::log(check.allowed) : check.allowed;
}

}  // namespace

double deviation(const Check& check, const Point& p) {
  const double data = middle(check, p);
  if (check.measure == Measure::difference) return p.model - data;
  return std::log(p.model / data);
}

Verdict judge(const Check& check) {
  Verdict v;
  const double bound = bound_of(check);
  v.bound = bound > 0 || check.rule == Rule::inside;
  double sum = 0, squares = 0;
  for (const auto& series : check.series) {
    double series_squares = 0;
    int series_n = 0;
    for (const auto& p : series.points) {
      if (!has(middle(check, p))) continue;
      const double d = deviation(check, p);
      if (!std::isfinite(d)) throw std::runtime_error(check.id + ": no deviation at " + p.label);
      ++v.n;
      ++series_n;
      sum += d;
      squares += d * d;
      series_squares += d * d;
      if (std::abs(d) > 1.001 * std::abs(v.worst)) v.worst = d;  // a tie keeps its sign
      if (check.rule == Rule::each && v.bound && beyond(check, d, bound)) ++v.outside;
      if (check.rule == Rule::inside && !is_inside(check, p)) ++v.outside;
    }
    if (check.rule == Rule::rms && v.bound && series_n > 0 &&
        beyond(check, std::sqrt(series_squares / series_n), bound)) {
      ++v.outside;
    }
  }
  if (v.n == 0 && check.prediction) {
    v.bound = false;
    return v;
  }
  if (v.n == 0) throw std::runtime_error(check.id + " has no data");
  v.bias = sum / v.n;
  if (v.n > 2) v.scatter = std::sqrt(std::max(0.0, (squares - v.n * v.bias * v.bias) / (v.n - 1)));
  return v;
}

double model_scatter(const Check& check, const Verdict& v) {
  const double left = v.scatter * v.scatter - check.own * check.own;
  return std::sqrt(std::max(left, check.own * check.own));
}

std::string words(Basis basis) {
  switch (basis) {
    case Basis::measured:
      return "measured, published";
    case Basis::formula:
      return "published formula or table";
    case Basis::memory:
      return "from memory";
    case Basis::practice:
      return "common practice";
    case Basis::program:
      return "another program";
    case Basis::exact:
      return "exact solution";
    case Basis::computed:
      return "computed table";
  }
  return {};
}

}  // namespace dampline::validation
