#pragma once

#include <vector>

#include <dampline/air/climate.hpp>
#include <dampline/method/sheet.hpp>
#include <dampline/method/stage.hpp>

/// The uncertain inputs of a sheet's day, sampled.
namespace dampline::method {

/// One sampled set: standard normal scores, so that one draw can be put to any stock, room and
/// method. A number with a 10-90 % range is read as log-normal, its two sides apart.
struct Draw {
  double cobb = 0;
  double accessible = 0;
  double pores = 0;   ///< suction of the sheet's pores
  double vapour = 0;  ///< vapour diffusivity of the sheet
  double grammage = 0;
  double contact = 0;   ///< conductances: a factor 2 either way (10-90 %)
  double air = 0;       ///< air coefficients: 25 % either way
  double humidity = 0;  ///< the room's drift: 4 points either way, `assumed`
  double timing = 0;    ///< the user's own steps: 15 % either way, `assumed`
};
inline constexpr int draw_dimensions = 9;
/// Of a room known by one reading, either way; `assumed`.
inline constexpr units::RelativeHumidity usual_humidity_scatter{0.04};

/// A low-discrepancy sample (Sobol's points under a random digital shift). The same n and seed give
/// the same draws, and the first of a larger n are those of a smaller one.
///
/// Range   n from 0 to 1 000 000.  Source  [sobol1967], directions of the Boost library.
[[nodiscard]] std::vector<Draw> draws(int n, unsigned seed);

/// The value of a ranged number at a standard normal score, held to 2.5 deviations.
[[nodiscard]] double quantile_si(double value, double low, double high, double score);

/// A stock, a room and a method as a draw has them.
[[nodiscard]] Sheet drawn(const material::Stock& stock, const Draw& draw,
                          units::Length width = units::centimetres(56),
                          units::Length height = units::centimetres(76));
[[nodiscard]] air::Climate drawn(const air::Climate& climate, const Draw& draw);
/// How far a draw's room is damper (or drier) than one whose humidity is known to within `scatter`
/// (10-90 %), as parts of one.
[[nodiscard]] double humidity_shift(const Draw& draw, units::RelativeHumidity scatter);
/// Stages that hands time (drain, blot, towel, press) last longer or shorter; the rest are kept.
[[nodiscard]] std::vector<Stage> drawn(std::vector<Stage> stages, const Draw& draw);

}  // namespace dampline::method
