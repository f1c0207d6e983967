#pragma once

#include <string>
#include <string_view>
#include <utility>
#include <variant>

#include <dampline/units/quantity.hpp>

/// Quantities as people write them: a number, then a unit. A bare number, an unknown unit or an
/// ambiguous one is refused with what was expected and what to write instead.
namespace dampline::units {

/// Why a text is not the quantity asked for. `column` counts from 0 into the text.
struct Refusal {
  std::size_t column = 0;
  std::string what;  ///< "bare number for a grammage"
  std::string help;  ///< "write a unit: \"300 g/m2\""; never empty
};

template <class Quantity>
using Parsed = std::variant<Quantity, Refusal>;

template <class Quantity>
[[nodiscard]] bool ok(const Parsed<Quantity>& p) {
  return std::holds_alternative<Quantity>(p);
}

/// Width and height, in the order written.
struct Size {
  Length width;
  Length height;
};

/// "300 g/m2", "300 gsm", "0.3 kg/m2", "90 lb text 25x38 in" (a ream of 500 sheets of a named basis
/// size). A bare "lb" is refused with the readings it could have.
/// Source of the basis-weight factors: arithmetic from 453.59237 g and 25.4 mm, 500 sheets.
[[nodiscard]] Parsed<Grammage> parse_grammage(std::string_view text);
/// "38 cm", "0.45 mm", "450 um", "22 in", "1.2 m", "2 ft".
[[nodiscard]] Parsed<Length> parse_length(std::string_view text);
/// "38 x 56 cm", "22 x 30 in", "22 in x 30 in", "A3", "B2" (ISO 216 trimmed sizes, upright).
[[nodiscard]] Parsed<Size> parse_size(std::string_view text);
/// "35 min", "90 s", "2 h", "1 h 30 min", "3 days".
[[nodiscard]] Parsed<Duration> parse_duration(std::string_view text);
/// "17 degC", "17 C", "64 degF", "64 F", "290 K".
[[nodiscard]] Parsed<Temperature> parse_temperature(std::string_view text);
/// "52 %" or "52 percent"; refused below 0 and above 100.
[[nodiscard]] Parsed<RelativeHumidity> parse_humidity(std::string_view text);
/// "64 g", "1.2 kg", "5 oz", "2 lb".
[[nodiscard]] Parsed<Mass> parse_mass(std::string_view text);
/// "1013 hPa", "101.3 kPa", "30 inHg", "760 mmHg", "1 bar".
[[nodiscard]] Parsed<Pressure> parse_pressure(std::string_view text);
/// "0.6 g/g" or "60 %" (water over dry fibre).
[[nodiscard]] Parsed<Moisture> parse_moisture(std::string_view text);
/// "0.85 %".
[[nodiscard]] Parsed<Strain> parse_strain(std::string_view text);
/// "0.55 g/cm3", "550 kg/m3".
[[nodiscard]] Parsed<Density> parse_density(std::string_view text);
/// "0.15 m/s", "0.5 km/h", "30 ft/min".
[[nodiscard]] Parsed<Velocity> parse_velocity(std::string_view text);
/// "1.8e-10 m2/s", "0.02 mm2/s".
[[nodiscard]] Parsed<Diffusivity> parse_diffusivity(std::string_view text);
/// "73 g/m2h", "73 g/(m2 h)", "0.02 kg/m2s".
[[nodiscard]] Parsed<Flux> parse_flux(std::string_view text);
/// "0.0085 m2", "85 cm2", "12 in2".
[[nodiscard]] Parsed<Area> parse_area(std::string_view text);

}  // namespace dampline::units
