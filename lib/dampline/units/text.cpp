#include <array>
#include <charconv>
#include <cmath>

#include <dampline/units/text.hpp>

namespace dampline::units {

std::string fixed(double value, int decimals) {
  if (!std::isfinite(value)) return value > 0 ? "inf" : (value < 0 ? "-inf" : "nan");
  std::array<char, 400> buffer{};
  const auto end = std::to_chars(buffer.data(), buffer.data() + buffer.size(), value,
                                 std::chars_format::fixed, decimals);
  std::string out(buffer.data(), end.ptr);
  if (out.starts_with('-') && out.find_first_of("123456789") == std::string::npos) out.erase(0, 1);
  return out;
}

std::string shortest(double value) {
  if (value == 0) return "0";
  const double size = std::abs(value);
  if (!std::isfinite(value) || size >= 1e15 || size < 1e-4) {
    std::array<char, 40> buffer{};
    const auto end = std::to_chars(buffer.data(), buffer.data() + buffer.size(), value,
                                   std::chars_format::general, 6);
    return {buffer.data(), end.ptr};
  }
  const int before_point = static_cast<int>(std::floor(std::log10(size))) + 1;
  std::string out = fixed(value, std::max(0, 6 - before_point));
  if (out.find('.') != std::string::npos) {
    out.erase(out.find_last_not_of('0') + 1);
    if (out.ends_with('.')) out.pop_back();
  }
  return out;
}

std::string exact(double value) {
  if (!std::isfinite(value)) return "null";
  std::array<char, 40> buffer{};
  const auto end = std::to_chars(buffer.data(), buffer.data() + buffer.size(), value);
  return {buffer.data(), end.ptr};
}

std::string text(Grammage g) { return shortest(in_grams_per_m2(g)) + " g/m2"; }

std::string text(Length l) {
  const double m = in_si(l);
  if (std::abs(m) < 0.01) return shortest(m * 1e3) + " mm";
  if (std::abs(m) < 1) return shortest(m * 1e2) + " cm";
  return shortest(m) + " m";
}

std::string text(Duration t) {
  const double s = in_si(t);
  if (std::abs(s) < 60) return shortest(s) + " s";
  if (std::abs(s) < 3600) return shortest(s / 60) + " min";
  const double hours_whole = std::floor(s / 3600);
  const double rest = s - hours_whole * 3600;
  if (rest < 1) return shortest(hours_whole) + " h";
  return shortest(hours_whole) + " h " + shortest(rest / 60) + " min";
}

std::string text(Temperature t) {
  return shortest(std::round(in_celsius(t) * 1e6) / 1e6) + " degC";
}

std::string text(Mass m) {
  return in_si(m) < 1 ? shortest(in_grams(m)) + " g" : shortest(in_si(m)) + " kg";
}

std::string text(Pressure p) {
  return in_si(p) < 1e4 ? shortest(in_si(p)) + " Pa" : shortest(in_si(p) / 1e3) + " kPa";
}

std::string text(RelativeHumidity h) { return shortest(h.percent()) + " %"; }
std::string text(Moisture u) { return fixed(u.parts_of_one(), 2) + " g/g"; }
std::string text(Strain e) { return fixed(e.percent(), 2) + " %"; }

}  // namespace dampline::units
