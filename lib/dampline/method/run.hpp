#pragma once

#include <memory>
#include <span>
#include <vector>

#include <dampline/air/room.hpp>
#include <dampline/method/sheet.hpp>
#include <dampline/method/stage.hpp>
#include <dampline/units/quantity.hpp>

namespace dampline::method {

struct RunOptions {
  units::Duration sample_every = units::minutes(1);  ///< short stages get six samples; 0: ends only
  double tolerance = 1e-4;  ///< g/g a step may be wrong by; means then stay within 1e-4
  bool profile = false;     ///< keep every cell in the samples
  bool rim = false;  ///< the outer 2 cm of the sheet: its own boundary layer, no lateral flow
  units::Duration since{};                 ///< clock of the first sample
  const Absorbents* absorbents = nullptr;  ///< usual_absorbents() when null
};

/// Where the water of a stage went, per area of the sheet; negative: came from.
struct Gone {
  units::Grammage air{};         ///< through faces open to the room
  units::Grammage plastic{};     ///< through covers
  units::Grammage absorbents{};  ///< into blotters, towels, newsprint, tissue, felts
  units::Grammage sheets{};      ///< into other sheets of the stack
  units::Grammage water{};       ///< to the tub; what was laid on or ran off by hand
};

struct StageEnd {
  units::Duration at{};
  State state;
  Gone gone;
  bool reached = true;  ///< what the stage goes on until came about
};

struct History {
  std::vector<Sample> curve;   ///< by time, the start included
  std::vector<StageEnd> ends;  ///< after each stage
  State end;
  double balance_error = 0;  ///< water unaccounted for over the water handled
  int steps = 0;             ///< solver steps, for benchmarks
};

/// Takes a sheet through stages, from any state.
///
/// The sheet moves between the branches of its isotherm as it turns from taking up to giving off
/// water (stack::Drying), through all the stages.
/// The room is asked for its air by the clock that `since` starts; what comes of a log is taken in
/// spells (air::Room::spells).
/// Range   climates of stack::air_side; stage durations 0 to 90 days; at most 1000 changes of
///         absorbents.
/// Throws units::OutOfRange, std::invalid_argument (a pack without neighbours).
/// Source  docs/model.md, Stack.
[[nodiscard]] History run(const Sheet& sheet, State state, std::span<const Stage> stages,
                          const air::Room& room, const RunOptions& options = {});

/// Stages as they turn out from a state: one that goes on until something lasts as long as it took,
/// and has no end of its own any more. What was settled once can be followed piece by piece.
[[nodiscard]] std::vector<Stage> settled(const Sheet& sheet, const State& state,
                                         std::vector<Stage> stages, const air::Room& room,
                                         const RunOptions& options = {});

}  // namespace dampline::method
