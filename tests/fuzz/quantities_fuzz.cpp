#include <cmath>
#include <cstddef>
#include <cstdint>
#include <string_view>

#include <dampline/units/parse.hpp>

#include "claim.hpp"

namespace {

using dampline::tests::claim;
namespace units = dampline::units;

void judge(const units::Refusal& refusal, std::string_view text) {
  claim(!refusal.what.empty(), "a refusal says what is wrong");
  claim(!refusal.help.empty(), "a refusal says how to mend it");
  claim(refusal.column <= text.size(), "a refusal points into the text");
}

template <class Quantity>
void quantity(const units::Parsed<Quantity>& parsed, std::string_view text) {
  if (const auto* refusal = std::get_if<units::Refusal>(&parsed)) return judge(*refusal, text);
  claim(std::isfinite(units::in_si(std::get<Quantity>(parsed))), "a quantity is finite");
}

template <class Fraction>
void fraction(const units::Parsed<Fraction>& parsed, std::string_view text) {
  if (const auto* refusal = std::get_if<units::Refusal>(&parsed)) return judge(*refusal, text);
  claim(std::isfinite(std::get<Fraction>(parsed).parts_of_one()), "a fraction is finite");
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const std::string_view text(reinterpret_cast<const char*>(data), size);
  quantity(units::parse_grammage(text), text);
  quantity(units::parse_length(text), text);
  quantity(units::parse_duration(text), text);
  quantity(units::parse_temperature(text), text);
  quantity(units::parse_mass(text), text);
  quantity(units::parse_pressure(text), text);
  quantity(units::parse_density(text), text);
  quantity(units::parse_velocity(text), text);
  quantity(units::parse_diffusivity(text), text);
  quantity(units::parse_flux(text), text);
  quantity(units::parse_area(text), text);
  fraction(units::parse_humidity(text), text);
  fraction(units::parse_moisture(text), text);
  fraction(units::parse_strain(text), text);
  const auto size_read = units::parse_size(text);
  if (const auto* refusal = std::get_if<units::Refusal>(&size_read)) judge(*refusal, text);
  return 0;
}
