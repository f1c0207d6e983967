#pragma once

#include <optional>
#include <string>
#include <vector>

#include <dampline/size/finished.hpp>
#include <dampline/size/printing.hpp>

/// The ways of printing several plates on one sheet, side by side: how big the sheet is at each
/// pull, how far each later image is out, how long it may wait, how alike its moisture must be.
namespace dampline::size {

/// A number and between what eight of ten likely sheets have it.
template <class Quantity>
struct Likely {
  Quantity value{};
  Quantity low{};
  Quantity high{};
};

/// Longest wait before the image is out by what the tolerance leaves after placing; none: longer
/// than it was followed. The press's stretch is left out. Counted from the first pull, or, where
/// the sheet was damped again, from when it is ready for this one.
struct AllowedWait {
  std::optional<units::Duration> value, low, high;
};
inline constexpr double bench_hours = 12;    ///< followed so long on the bench
inline constexpr double covered_hours = 72;  ///< and covered: a damp pack's keeping time

/// What a later plate needs.
struct LaterPull {
  Misfit misfit;                ///< of the expected sheet
  Likely<units::Length> worst;  ///< corner, placing left out
  units::Length by_press{};     ///< how much of it at most is the nip's assumed stretch
  units::Chance within;         ///< over likely sheets and placing errors
  AllowedWait bench;
  AllowedWait covered;
  std::optional<MoistureRange> moisture;  ///< in which it is in register, placing taken off; none:
                                          ///< in no moisture, or not in the room's when dry
  std::optional<units::Moisture> drier;   ///< than at the first pull: none, however dry
  std::optional<units::Moisture> wetter;
  Sides scale;                  ///< this plate cut so much larger fits the expected sheet
  units::Chance within_scaled;  ///< the chance then
};

struct PullAnswer {
  std::string plate;
  Likely<units::Moisture> moisture;
  Likely<units::Strain> along;
  Likely<units::Strain> across;
  std::optional<LaterPull> later;  ///< not for the first plate
};

struct WayAnswer {
  Way way = Way::held;
  std::vector<PullAnswer> pulls;
  units::Chance all;     ///< that every plate of a print is in register
  units::Chance firmer;  ///< share of the likely sheets on which the best way is out by less
  Finished finished;
};

struct Comparison {
  Grain grain = Grain::none;  ///< which way it was taken to run
  std::vector<WayAnswer> ways;
  units::Mass dry_sheet{};  ///< of fibre: a point of moisture is a hundredth of it in water
};

struct Answer {
  Comparison shown;                 ///< grain unknown: the worse way round
  std::optional<Comparison> other;  ///< the other way round, when the grain is not known
  Way best = Way::released;
  int samples = 0;
};

/// Simulates the expected sheet and p.samples likely ones through every way. With one plate there
/// is one way and no misfit. `asked` is preferred among ways that fit nearly as often.
///
/// Throws units::OutOfRange, std::invalid_argument: check(p).
[[nodiscard]] Answer compare(const Printing& p, std::optional<Way> asked = std::nullopt);

}  // namespace dampline::size
