#pragma once

#include <optional>
#include <vector>

#include <dampline/air/climate.hpp>
#include <dampline/method/sheet.hpp>
#include <dampline/method/stage.hpp>
#include <dampline/units/quantity.hpp>

/// When a print is dry: moisture at each change of blotters, how many changes, and when.
namespace dampline::method {

/// Prints between blotters under boards, the blotters changed by the clock. Changes after half an
/// hour, three and twelve hours, then daily: common practice, no published source.
struct BoardsSchedule {
  std::vector<units::Duration> changes = {units::minutes(30), units::hours(3), units::hours(12)};
  units::Duration then_every = units::hours(24);
  int prints = 1;
  int blotters = 1;     ///< above, below and between prints
  bool tissue = false;  ///< on the face of each print
  units::Duration most = units::hours(24 * 14);
};

struct BlotterChange {
  units::Duration at{};
  units::Moisture wettest;  ///< mean of the wettest print
  units::Moisture driest;   ///< mean of the driest print
  units::Moisture blotter;  ///< mean of the wettest blotter taken out
};

struct DryingForecast {
  std::vector<BlotterChange> changes;  ///< those made before it was dry
  std::optional<units::Duration>
      dry;                 ///< wettest print within a point of what it keeps in the room
  units::Moisture room;    ///< what that is
  units::Moisture at_end;  ///< of the wettest print
};

/// Range   1 to 20 prints, 1 to 4 blotters, up to 200 changes.  Throws units::OutOfRange.
/// Error   boards hold all water in: what leaves a stack at its edges is not counted, so tall
///         stacks dry sooner than forecast.
[[nodiscard]] DryingForecast dry_in_boards(const Sheet& sheet, const State& print,
                                           const BoardsSchedule& schedule, const air::Climate& room,
                                           const Absorbents* absorbents = nullptr);

/// One print left in a stage until it is dry, or for the stage's duration: rack, line, taped,
/// forced.
[[nodiscard]] DryingForecast dry_left(const Sheet& sheet, const State& print, const Stage& stage,
                                      const air::Climate& room,
                                      const Absorbents* absorbents = nullptr);

}  // namespace dampline::method
