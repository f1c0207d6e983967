#pragma once

#include <dampline/material/porous.hpp>
#include <dampline/material/stock.hpp>
#include <dampline/units/quantity.hpp>

/// From the Cobb value of a stock to the liquid diffusivity of its sheet, through the solver.
namespace dampline::stack {

/// Water a dry sheet (conditioned, 23 degC, 50 % RH) takes up through one face from a standing
/// head of water in `time`, as simulated. What a blot cannot empty from surface hollows is not
/// counted. Source of the procedure: [iso535].
[[nodiscard]] units::Grammage one_sided_uptake(const material::Porous& sheet, units::Duration time);

/// The sheet of a stock, its liquid diffusivity such that one_sided_uptake in 60 s is the stated
/// Cobb value; a waterleaf sheet by its sorptivity instead.
///
/// Where the sheet cannot hold the Cobb value in 60 s (thin, soft papers) the fit aims at 85 % of
/// what it can hold. Where vapour alone would pass more, its diffusivity is lowered until it
/// carries half.
/// Error   0.5 % of the aim.
[[nodiscard]] material::Porous resolve_to_cobb(const material::Stock& stock);

}  // namespace dampline::stack
