#pragma once

#include <compare>

namespace dampline::units {

/// A pure number with a name of its own. Boost.Units sees moisture, humidity and strain as the
/// same dimensionless quantity and converts each to and from double unasked; these do not mix.
template <class Kind>
class Fraction {
 public:
  constexpr Fraction() = default;
  constexpr explicit Fraction(double parts_of_one) : value_(parts_of_one) {}
  [[nodiscard]] static constexpr Fraction from_percent(double percent) {
    return Fraction(percent / 100);
  }
  [[nodiscard]] constexpr double parts_of_one() const { return value_; }
  [[nodiscard]] constexpr double percent() const { return value_ * 100; }
  friend constexpr auto operator<=>(Fraction, Fraction) = default;
  friend constexpr Fraction operator+(Fraction a, Fraction b) {
    return Fraction(a.value_ + b.value_);
  }
  friend constexpr Fraction operator-(Fraction a, Fraction b) {
    return Fraction(a.value_ - b.value_);
  }

 private:
  double value_ = 0;
};

using Moisture = Fraction<struct MoistureKind>;          ///< kg water per kg dry fibre
using RelativeHumidity = Fraction<struct HumidityKind>;  ///< vapour pressure over saturation
using Strain = Fraction<struct StrainKind>;              ///< growth per original length
using Chance = Fraction<struct ChanceKind>;              ///< probability

}  // namespace dampline::units
