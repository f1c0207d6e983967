#pragma once

#include <optional>
#include <span>
#include <vector>

#include <dampline/method/run.hpp>
#include <dampline/size/register.hpp>

/// How long a sheet may lie between two pulls before its image no longer meets the next plate.
namespace dampline::size {

/// A sheet at some moment: its water and its size.
struct Damp {
  method::Sheet sheet;
  method::State state;
  SheetSize size;
  air::Climate room;
};

/// Growth of a sheet as its state has it, uneven through its thickness as it may be.
[[nodiscard]] Growth growth_now(const SheetSize& size, const method::State& state);

/// A sheet taken through stages: its water by the solver, its set given back as it is wetted. Size
/// put in by held drying is not in this: dry_held.
[[nodiscard]] Damp after(Damp damp, std::span<const method::Stage> stages);

/// The moment from which on the image of each case is out by more than its tolerance, placing left
/// out, when the sheet is left in a stage: 0 when it never is in, none when it is in at the end of
/// the stage. c.later is not read. The sheet is simulated from where it stands, sampled every 20 s
/// in the first half hour, every minute in the next 2.5 h, every 10 min then, and the moment found
/// between two samples.
///
/// Error   1 % of the moment or 2 s (tests/size/wait_test.cpp).
[[nodiscard]] std::vector<std::optional<units::Duration>> out_after(
    const Damp& from, const method::Stage& left, std::span<const RegisterCase> cases);

/// Longest time between the first pull of a sheet and any later one, left on the bench and covered,
/// to keep every later plate in register: a maximum lag for a schedule. None: longer than
/// `horizon`.
struct Lag {
  std::optional<units::Duration> bench;
  std::optional<units::Duration> covered;
};
[[nodiscard]] Lag max_lag(const Damp& after_first_pull, std::span<const RegisterCase> later_plates,
                          units::Duration horizon = units::hours(24));

}  // namespace dampline::size
