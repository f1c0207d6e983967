#pragma once

#include <vector>

#include <dampline/air/climate.hpp>
#include <dampline/units/quantity.hpp>

namespace dampline::air {

/// One line of a hygrometer's log.
struct LogLine {
  units::Duration at{};  ///< on the clock the room is asked by
  units::Temperature temperature = units::celsius(20);
  units::RelativeHumidity humidity{0.5};
};

/// The climate between two moments, taken as steady.
struct Spell {
  units::Duration from{};
  units::Duration until{};
  Climate climate;
};

/// The air of a room over time: one climate throughout, or readings joined by straight lines; the
/// nearest reading before the first and after the last.
class Room {
 public:
  Room(const Climate& always) : base_(always) {}  // NOLINT(google-explicit-constructor)
  /// `readings` by rising time; pressure and air movement are those of `base`.
  Room(const Climate& base, std::vector<LogLine> readings);

  [[nodiscard]] Climate at(units::Duration time) const;
  /// `from` to `until` as spells, each the climate of its middle. A spell ends at the latest when
  /// the air has changed by 0.5 K or 2 % RH: no moment in it is further off than that.
  [[nodiscard]] std::vector<Spell> spells(units::Duration from, units::Duration until) const;
  /// Mean of the readings over a time.
  [[nodiscard]] Climate mean(units::Duration from, units::Duration until) const;
  /// The same air on a clock that starts `later`.
  [[nodiscard]] Room starting(units::Duration later) const;
  /// The same air, every humidity moved by so much and held to 0 and 98 % (or where it was).
  [[nodiscard]] Room moved(units::RelativeHumidity by) const;
  [[nodiscard]] bool logged() const { return !readings_.empty(); }
  [[nodiscard]] const std::vector<LogLine>& readings() const { return readings_; }

 private:
  Climate base_;
  std::vector<LogLine> readings_;
};

}  // namespace dampline::air
