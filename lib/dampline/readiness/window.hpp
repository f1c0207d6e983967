#pragma once

#include <optional>
#include <span>
#include <string>
#include <vector>

#include <dampline/air/room.hpp>
#include <dampline/method/draw.hpp>
#include <dampline/method/run.hpp>
#include <dampline/readiness/judge.hpp>

/// From when until when a damped sheet is printable.
namespace dampline::readiness {

/// The middle of a sheet and its outer 2 cm dry at different rates.
enum class Part { middle, rim };

struct Window {
  std::optional<units::Duration> opens;   ///< since the hold began; none: never ready
  std::optional<units::Duration> closes;  ///< none: still ready when the horizon ends
  method::Sample at_open;
  method::Sample at_close;  ///< the last moment inside (or at the horizon)
  Part closed_by = Part::middle;
  Judgement at_start;      ///< what the sheet is when the hold begins
  std::string closed_why;  ///< what ends it; empty when nothing does
};

struct WindowOptions {
  units::Duration horizon = units::hours(72);
  bool with_rim = true;        ///< ready only if rim and middle both are
  int samples_per_chunk = 48;  ///< the hold is followed in chunks that double from 10 minutes
};

/// When a sheet, held in one arrangement from `state` on, is inside a band. The first stretch
/// inside counts. The clock of the room shows zero when the hold begins.
///
/// Error   times between samples by straight interpolation: 0.5 % of the time since the hold began.
[[nodiscard]] Window window(const method::Sheet& sheet, const method::State& state,
                            const method::Stage& hold, const air::Room& room, const Band& band,
                            const WindowOptions& options = {});

/// The same through several stages, the last of which is the hold and goes on to the horizon; times
/// count from the start of the first. Not empty.
[[nodiscard]] Window window(const method::Sheet& sheet, const method::State& state,
                            std::span<const method::Stage> stages, const air::Room& room,
                            const Band& band, const WindowOptions& options = {});

/// The same for sampled sheets, rooms and hands.
struct Forecast {
  Window likely;                                             ///< of the nominal sheet
  std::vector<Window> sampled;                               ///< one a draw, in their order
  std::optional<units::Duration> opens_early, opens_late;    ///< 10 and 90 %, of those that open
  std::optional<units::Duration> closes_early, closes_late;  ///< of those that open; none: horizon
  units::Chance opening;  ///< share of draws that are ready at some time
};
[[nodiscard]] Forecast forecast(const material::Stock& stock, units::Length width,
                                units::Length height, std::span<const method::Stage> stages,
                                const method::Stage& hold, const air::Climate& climate,
                                const Band& band, std::span<const method::Draw> draws,
                                const WindowOptions& options = {});

/// A forecast from windows found one by one.
[[nodiscard]] Forecast summed_up(Window likely, std::vector<Window> sampled);

/// Share of the sampled sheets that are ready at a time after the hold began.
[[nodiscard]] units::Chance chance_ready(const Forecast& forecast, units::Duration at);

}  // namespace dampline::readiness
