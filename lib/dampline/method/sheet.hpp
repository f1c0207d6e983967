#pragma once

#include <memory>
#include <vector>

#include <dampline/air/climate.hpp>
#include <dampline/material/porous.hpp>
#include <dampline/material/stock.hpp>
#include <dampline/units/quantity.hpp>

namespace dampline::method {

/// A stock made ready to be simulated. Making one fits the Cobb value (about a millisecond); copies
/// share the work.
struct Sheet {
  material::Stock stock;
  std::shared_ptr<const material::Porous> porous;
  units::Length width = units::centimetres(56);
  units::Length height = units::centimetres(76);  ///< upright when hung
  double contact_scale = 1;                       ///< on every contact conductance
  double air_scale = 1;                           ///< on the air's heat and vapour coefficients
};
[[nodiscard]] Sheet sheet_of(const material::Stock& stock,
                             units::Length width = units::centimetres(56),
                             units::Length height = units::centimetres(76));

/// The papers and cloths that take water from a sheet.
struct Absorbents {
  std::shared_ptr<const material::Porous> blotter;
  std::shared_ptr<const material::Porous> towel;
  std::shared_ptr<const material::Porous> newsprint;
  std::shared_ptr<const material::Porous> tissue;
  std::shared_ptr<const material::Porous> felt;  ///< the catcher
};
/// A 350 g/m2 blotter, a 400 g/m2 cotton towel, 50 g/m2 newsprint, 18 g/m2 tissue, a 650 g/m2 wool
/// felt. `assumed`, within the ranges of data/stocks.toml.
[[nodiscard]] const Absorbents& usual_absorbents();
[[nodiscard]] std::shared_ptr<const material::Porous> absorbent_of(const material::Stock& stock);

/// Moisture at which a layer is in balance with air of a relative humidity, g/g.
[[nodiscard]] double equilibrium_si(const material::PorousTable& table, double humidity,
                                    double kelvin);

/// A sheet between stages. Copyable; any state can be resumed from.
struct State {
  std::vector<double> moisture;  ///< g/g by cell, from the upper face down
  std::vector<double> share;     ///< of the dry fibre, by cell
  double film_upper = 0;         ///< kg/m2
  double film_lower = 0;
  double kelvin = 293.15;
  double drying = 0.5;        ///< between the branches of taking up (0) and giving off (1) water
  double wettest_mean = 0;    ///< g/g: the highest mean the sheet has had since it was dry
  double wetted_through = 0;  ///< g/g: the highest its driest cell has had
};

/// Water in a sheet and on its faces, kg/m2.
[[nodiscard]] double water_si(const State& state, const material::Porous& sheet);

/// Halving cells and steps then moves no mean by 1e-3 g/g (docs/convergence.md).
inline constexpr int usual_cells = 28;

/// A dry sheet in equilibrium with the room, half way between taking up and giving off water.
[[nodiscard]] State conditioned(const Sheet& sheet, const air::Climate& climate,
                                int cells = usual_cells);
[[nodiscard]] State conditioned(const material::Stock& stock, const air::Climate& climate);
/// A sheet at one moisture throughout.
[[nodiscard]] State evenly(const Sheet& sheet, units::Moisture moisture,
                           units::Temperature temperature = units::celsius(20),
                           int cells = usual_cells);

/// The same sheet over another number of cells: the water of every part stays where it is.
[[nodiscard]] State over_cells(const State& state, int cells);

/// What can be told of a sheet at a moment.
struct Sample {
  units::Duration at{};
  units::Moisture mean;     ///< of the sheet; a film on it is not counted
  units::Moisture surface;  ///< the wetter of its two faces, about the outer hundredth
  units::Moisture driest;
  units::Moisture wettest;
  units::Grammage film{};  ///< on both faces together
  units::Temperature temperature = units::celsius(20);
  int stage = 0;                ///< index of the stage it was taken in
  std::vector<double> profile;  ///< g/g by cell, when asked for
};
[[nodiscard]] Sample sample_of(const State& state, units::Duration at = {});

/// A profile over cells of the given shares as `count` cells of equal mass, the same water in all:
/// what size::growth takes.
[[nodiscard]] std::vector<double> equal_cells(const std::vector<double>& moisture,
                                              const std::vector<double>& share, int count = 24);

}  // namespace dampline::method
