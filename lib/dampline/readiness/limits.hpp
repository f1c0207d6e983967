#pragma once

#include <optional>
#include <string>

#include <dampline/material/stock.hpp>
#include <dampline/units/quantity.hpp>

/// How long damp paper keeps, and what must not be done with it. Cautions, not laws.
namespace dampline::readiness {

struct Limit {
  units::Duration longest{};
  std::string why;
  std::string basis;
};

enum class Store { covered, refrigerator, freezer };

/// A damp pack by the temperature of the room: 72 h under 18 degC, 48 h to 24 degC, 24 h above;
/// refrigerator 7 days, freezer 180 days. Mould is likely after 48 h over 21 degC [npsmould].
[[nodiscard]] Limit keeps(Store store, units::Temperature room);

/// Longest useful stay in the tub; none when the paper must not go into one (waterleaf, and
/// anything under 60 g/m2: it goes slippery and tears).
[[nodiscard]] std::optional<Limit> tub_limit(const material::Stock& stock);

/// How long the trade leaves a blotted sheet uncovered before its pull: 3 minutes, under 100 g/m2
/// one. The model often allows the middle more.
[[nodiscard]] Limit uncovered(const material::Stock& stock);

/// A word of caution where water takes size off a sheet; empty when there is none.
[[nodiscard]] std::string size_warning(const material::Stock& stock, units::Duration soak,
                                       units::Temperature water);

}  // namespace dampline::readiness
