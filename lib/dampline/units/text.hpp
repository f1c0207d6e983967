#pragma once

#include <string>

#include <dampline/units/quantity.hpp>

/// Numbers and quantities as text: locale-free, fixed digits, the unit the trade uses.
namespace dampline::units {

/// `value` with exactly `decimals` digits after the point; "-0.0" is written "0.0".
[[nodiscard]] std::string fixed(double value, int decimals);
/// Up to 6 significant digits, no trailing zeros, never an exponent between 1e-4 and 1e15.
[[nodiscard]] std::string shortest(double value);
/// Digits that read back as the same double (for JSON). NaN and infinity give "null".
[[nodiscard]] std::string exact(double value);

[[nodiscard]] std::string text(Grammage g);          ///< "300 g/m2"
[[nodiscard]] std::string text(Length l);            ///< "0.45 mm", "38 cm", "1.2 m"
[[nodiscard]] std::string text(Duration t);          ///< "40 s", "35 min", "2 h 15 min"
[[nodiscard]] std::string text(Temperature t);       ///< "17 degC"
[[nodiscard]] std::string text(Mass m);              ///< "64 g", "1.2 kg"
[[nodiscard]] std::string text(Pressure p);          ///< "1169 Pa", "101.3 kPa"
[[nodiscard]] std::string text(RelativeHumidity h);  ///< "52 %"
[[nodiscard]] std::string text(Moisture u);          ///< "0.62 g/g"
[[nodiscard]] std::string text(Strain e);            ///< "0.85 %"

}  // namespace dampline::units
