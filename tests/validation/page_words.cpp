#include "validation/page_words.hpp"

#include <cmath>

#include <dampline/units/text.hpp>

namespace dampline::validation {
namespace {

std::string unit_of(const Check& check) { return check.unit.empty() ? "" : " " + check.unit; }

// Digits for a quantity of this size: three that count.
std::string three(double value) {
  const double size = std::abs(value);
  int decimals = 0;
  if (size < 100) decimals = 1;
  if (size < 10) decimals = 2;
  if (size < 1) decimals = 3;
  if (size < 0.0095) decimals = 4;
  return units::fixed(value, decimals);
}

std::string percent(double share) {
  return units::fixed(100 * share, std::abs(share) < 0.0095 ? 2 : 1) + " %";
}

std::string signed_words(const std::string& words) {
  return words.starts_with('-') ? words : "+" + words;
}

std::size_t out_of(const Check& check, const Verdict& v) {
  return check.rule == Rule::rms ? check.series.size() : static_cast<std::size_t>(v.n);
}

}  // namespace

std::string deviation_words(const Check& check, double value) {
  switch (check.measure) {
    case Measure::relative:
      return signed_words(percent(std::expm1(value)));
    case Measure::factor:
      return "x " + units::fixed(std::exp(value), 2);
    case Measure::difference:
      break;
  }
  return signed_words(three(value) + unit_of(check));
}

std::string spread_words(const Check& check, double value) {
  switch (check.measure) {
    case Measure::relative:
      return percent(value);
    case Measure::factor:
      return "x " + units::fixed(std::exp(value), 2);
    case Measure::difference:
      break;
  }
  return three(value) + unit_of(check);
}

std::string bound_words(const Check& check, double value) {
  switch (check.measure) {
    case Measure::relative:
      return units::shortest(100 * value) + " %";
    case Measure::factor:
      return "x " + units::shortest(value);
    case Measure::difference:
      break;
  }
  return units::shortest(value) + unit_of(check);
}

std::string verdict_words(const Check& check, const Verdict& v) {
  if (!v.bound) return "shown";
  if (v.meets()) return "meets";
  return "**misses " + std::to_string(v.outside) + " of " + std::to_string(out_of(check, v)) + "**";
}

std::string own_words(const Check& check) {
  if (!(check.own > 0)) return "not stated";
  if (check.measure == Measure::factor) return "x " + units::fixed(std::exp(check.own), 2);
  return check.measure == Measure::relative ? bound_words(check, check.own)
                                            : three(check.own) + unit_of(check);
}

std::string held_words(const Check& check) {
  std::string words;
  if (check.rule == Rule::inside) words = "the range";
  if (check.allowed > 0) {
    if (!words.empty()) words += ", ";
    if (check.rule == Rule::inside && check.measure != Measure::factor) words += "+-";
    words += bound_words(check, check.allowed);
    if (check.rule == Rule::rms) words += " rms";
  } else if (check.own > 0 && words.empty()) {
    words = "twice that";
  }
  return words.empty() ? "-" : words;
}

}  // namespace dampline::validation
