#pragma once

#include <optional>
#include <vector>

#include <dampline/method/draw.hpp>
#include <dampline/size/strain.hpp>

/// How uncertain the size of a sheet is, sampled beside what is uncertain in its moisture.
namespace dampline::size {

/// Standard normal scores of one sampled sheet.
struct GrowthDraw {
  double growth = 0;     ///< of both directions together: half of the variance, `assumed`
  double along = 0;      ///< of the growth along the grain alone
  double across = 0;     ///< across it
  double set_along = 0;  ///< of what was dried in
  double set_across = 0;
  double nip = 0;      ///< stretch by the nip, 0 to 0.15 %
  method::Draw again;  ///< a second damping: its contact, timing and the room of that day
};
inline constexpr int growth_dimensions = 9;

/// The growth's part of one low-discrepancy sample; the moisture's is method::draws of the same n.
/// The same n and seed give the same draws.
///
/// Range   n from 0 to 100 000.  Source  [sobol1967], directions of the Boost library.
[[nodiscard]] std::vector<GrowthDraw> growth_draws(int n, unsigned seed);

/// What is known of one direction of one paper: means and standard deviations of A and of the set
/// d0, fractions. From the measured marks of a sheet (marks.hpp).
struct Belief {
  double free = 0;
  double dried_in = 0;
  double free_sd = 0;
  double dried_in_sd = 0;
  double correlation = 0;
};
/// Beliefs that take the place of what the paper's class says.
struct Beliefs {
  std::optional<Belief> along;
  std::optional<Belief> across;
};

/// The expected new sheet of a stock, and one as a draw has it.
[[nodiscard]] SheetSize expected_sheet(const material::Stock& stock, const Beliefs& beliefs);
[[nodiscard]] SheetSize drawn_sheet(const material::Stock& stock, const Beliefs& beliefs,
                                    const GrowthDraw& draw);
/// First stretch by the nip as a draw has it: 0.05 %, 0 to 0.15 % in eight of ten, `assumed`.
[[nodiscard]] units::Strain drawn_nip(units::Strain expected, const GrowthDraw& draw);

}  // namespace dampline::size
