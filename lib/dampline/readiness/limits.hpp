#pragma once

#include <optional>
#include <string>
#include <vector>

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

/// When mould is likely on sized rag paper that is kept this warm and this damp (the water activity
/// of the sheet): 48 h at 21 degC in saturated air [npsmould], slower in the cold and in drier
/// sheets by the exponents of the growth law [hukka1999]; that the two may be joined is `assumed`.
/// None below an activity of 0.80. A second opinion beside `keeps`, which is what plans go by.
///
/// Range   5 to 45 degC (colder counts as 5).
[[nodiscard]] std::optional<units::Duration> mould_likely_after(units::Temperature paper,
                                                                double activity);

/// Something a plan for a sheet would do to it that printers warn of.
struct Danger {
  std::string
      code;  ///< "tub-too-long", "not-for-the-tub", "size-loss", "hot-water", "keeps-too-long"
  std::string text;
  std::string help;
  std::string basis;
};
/// Dangers of a soak; empty when there is none.
[[nodiscard]] std::vector<Danger> dangers_of_soaking(const material::Stock& stock,
                                                     units::Duration soak,
                                                     units::Temperature water);
/// Dangers of keeping damp paper for a time.
[[nodiscard]] std::vector<Danger> dangers_of_keeping(Store store, units::Temperature room,
                                                     units::Duration time);

/// Longest useful stay in the tub; none when the paper must not go into one (waterleaf, and
/// anything under 60 g/m2: it goes slippery and tears).
[[nodiscard]] std::optional<Limit> tub_limit(const material::Stock& stock);

/// How long the trade leaves a blotted sheet uncovered before its pull: 3 minutes, under 100 g/m2
/// one. The model often allows the middle more.
[[nodiscard]] Limit uncovered(const material::Stock& stock);

}  // namespace dampline::readiness
