#pragma once

#include <optional>
#include <vector>

#include <dampline/air/climate.hpp>
#include <dampline/method/sheet.hpp>
#include <dampline/units/quantity.hpp>

/// The felt next to the paper in the press, pull after pull.
namespace dampline::method {

/// How a press is worked. Stated before the forecast was compared with practice, and not fitted.
struct PressHabits {
  units::Duration nip = units::seconds(3);  ///< dwell under the roller, 2 to 4 s, `assumed`
  units::Duration lying =
      units::seconds(60);  ///< then under felts that are only laid, until lifted
  units::Duration cycle = units::minutes(20);  ///< from pull to pull
  bool aired = true;  ///< felts thrown back, the damp face open to the room, until the next pull
  int newsprint = 2;  ///< sheets of it between paper and felt
  int newsprint_pulls = 1;  ///< pulls that they serve before fresh ones
  double plate_share = 1;   ///< of the damp paper that lies under the felt's wet part
  /// A felt feels damp above this mean: wool takes up about a third of its weight from saturated
  /// air without feeling wet, what is more stands between its fibres. 0.25 to 0.35, from memory.
  units::Moisture damp_to_the_touch{0.30};
};

struct CatcherPull {
  units::Moisture felt;     ///< mean when lifted
  units::Moisture sheet;    ///< mean of the sheet when lifted
  units::Grammage taken{};  ///< from the sheet, its faces included
  units::Grammage into_felt{};
  units::Grammage dried{};  ///< off the felt until the next pull
};

struct CatcherForecast {
  std::vector<CatcherPull> pulls;
  std::optional<int> swap_after;  ///< pulls until it is damp to the touch; none: not within these
};

/// Pulls of sheets that are all in one state: plate / sheet / newsprint / felt in the nip, the felt
/// alone between them.
///
/// Range   1 to 1000 pulls, 1 to 8 sheets of newsprint or none.  Throws units::OutOfRange.
/// Error   no measurement was found. Common practice swaps after 8 to 15 medium pulls; as stated,
///         newsprint keeps the felt drier than that for good, and only a felt bare against the
///         paper and never aired comes near it (19 to 35). See docs/model.md, Misses.
/// Source  docs/model.md, Stack.
[[nodiscard]] CatcherForecast catcher_forecast(const Sheet& sheet, const State& state,
                                               const air::Climate& room,
                                               const PressHabits& habits = {}, int pulls = 30,
                                               const Absorbents* absorbents = nullptr);

}  // namespace dampline::method
