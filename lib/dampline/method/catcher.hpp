#pragma once

#include <optional>
#include <vector>

#include <dampline/air/climate.hpp>
#include <dampline/method/sheet.hpp>
#include <dampline/method/stage.hpp>
#include <dampline/units/quantity.hpp>

/// The felt next to the paper in the press, pull after pull.
namespace dampline::method {

/// How a press is worked. Newsprint stays until it cockles and felts are hung at the end of the
/// day: common practice, no published source. The rest is `assumed`. Chosen after a first forecast
/// (two newsprints, fresh at every pull, the felt aired, clammy at 0.30 g/g) had missed practice:
/// that the count now agrees is no test of the model.
struct PressHabits {
  units::Duration nip = units::seconds(nip_seconds);  ///< dwell under the roller
  units::Duration lying = units::seconds(60);         ///< then under felts only laid, until lifted
  units::Duration cycle = units::minutes(20);         ///< from pull to pull
  bool aired = false;  ///< between pulls the felt hangs with its damp face open to the room
  int newsprint = 1;   ///< sheets of it between paper and felt; a second adds some four pulls
  int newsprint_pulls = 1000;  ///< pulls that they serve before fresh ones; 1: fresh every time
  double plate_share = 1;      ///< of the damp paper that lies under the felt's wet part
  /// A felt is clammy when the air in it is this humid: 80 to 90 %, `assumed`. Above that wool
  /// takes up little more from a hand, and cloth with free water is felt as damp [plante1995].
  units::RelativeHumidity clammy{0.85};
};

struct CatcherPull {
  units::Moisture felt;               ///< mean when lifted
  units::RelativeHumidity in_felt{};  ///< of the air in it
  units::Moisture sheet;              ///< mean of the sheet when lifted
  units::Grammage taken{};            ///< from the sheet, its faces included
  units::Grammage into_felt{};
  units::Grammage dried{};  ///< off the felt until the next pull
};

struct CatcherForecast {
  std::vector<CatcherPull> pulls;
  std::optional<int> swap_after;  ///< pulls until it is clammy; none: not within these
};

/// Pulls of sheets that are all in one state: plate / sheet / newsprint / felt in the nip, the felt
/// alone between them.
///
/// Range   1 to 1000 pulls, 1 to 8 sheets of newsprint or none.  Throws units::OutOfRange.
/// Error   no measurement was found. Common practice swaps after 8 to 15 medium pulls and so does
///         this (10 to 13), but newsprint fresh at every pull more than doubles that, and a felt
///         aired between pulls stays dry all day: the habits decide. What the roller squeezes out
///         and the size that stiffens a felt are not in the model.
/// Source  docs/model.md, Stack.
[[nodiscard]] CatcherForecast catcher_forecast(const Sheet& sheet, const State& state,
                                               const air::Climate& room,
                                               const PressHabits& habits = {}, int pulls = 30,
                                               const Absorbents* absorbents = nullptr);

}  // namespace dampline::method
