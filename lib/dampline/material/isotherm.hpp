#pragma once

#include <dampline/material/stock.hpp>
#include <dampline/units/quantity.hpp>

/// How hard paper holds its water: vapour sorption below about 93 % humidity, suction of the pores
/// above, one rising curve from dry to saturated. The measure of suction is L = log10(suction/kPa);
/// the potential that layers in contact share is the reference moisture: what cotton filter paper,
/// drying, would hold at the same suction.
namespace dampline::material {

enum class Branch {
  adsorption,  ///< taking water up, from dry
  desorption,  ///< giving water off, from wet
};

/// The retention curve of one paper, closed form.
///
/// u = (1-w) s g(phi) + w (fibres(L) + pores(L)), w = 1/(1+exp(-(phi-0.93)/0.02)), g by GAB;
/// adsorption lies 0.0145 s phi lower, the gap closing as the pores fill.
/// Error   rag and cotton: 0.8 points rms against the handbook tables (from memory) below 90 % RH;
///         wood pulp needs s 1.4 to 1.5 and then 0.6 points.
/// Source  [morton1962] for the linear gap; the rest in docs/model.md, Isotherm.
struct Retention {
  double scale = 1;       ///< s, on the sorption of cotton rag
  double pore_ratio = 1;  ///< suction of its pores over those of filter paper
  double saturation = 1;  ///< u at free water (L = 0), g/g
  Branch branch = Branch::desorption;
  double pore_water = 0;  ///< g/g between the fibres at saturation; set by retention()
  double brim = 1;        ///< pore filling by the formula at free water; set by retention()
};
[[nodiscard]] Retention retention(double scale, double pore_ratio, double saturation,
                                  Branch branch);
[[nodiscard]] Retention retention(const Stock& stock, Branch branch);

struct Held {
  double moisture;  ///< g/g
  double slope;     ///< d moisture / dL, never positive
};
/// Water held at a suction. Range: L from 0 (free water) to 8 (bone dry).
[[nodiscard]] Held held_si(const Retention& r, double log_suction);
/// Water activity at a suction, 23 degC.
[[nodiscard]] double activity_si(double log_suction);
/// Reference moisture at a suction, g/g: the potential of contacts.
[[nodiscard]] Held reference_si(double log_suction);
/// Suction at which the paper holds `moisture` (0 < moisture < saturation): inverse of held_si.
[[nodiscard]] double log_suction_si(const Retention& r, double moisture);

/// Net heat of sorption over that of evaporation, J/kg water: 1160 exp(-u/0.0397) J/g.
/// Source: integral set to the heat of wetting of cotton, 46 J/g [morton1962] table 8.1.
[[nodiscard]] double sorption_heat_si(double moisture);
/// Factor on the 23 degC activity at constant moisture: (d ln phi/dT)_u = Q/(Rv T2).
[[nodiscard]] double activity_factor_si(double moisture, double kelvin);

/// Moisture in equilibrium with a humidity.
///
/// Range   0 to 100 % RH, 0 to 60 degC; else units::OutOfRange.
[[nodiscard]] units::Moisture equilibrium_moisture(const Stock& stock,
                                                   units::RelativeHumidity humidity,
                                                   units::Temperature temperature, Branch branch);
/// Humidity in equilibrium with a moisture (inverse of the above); 1 above saturation.
[[nodiscard]] units::RelativeHumidity equilibrium_humidity(const Stock& stock,
                                                           units::Moisture moisture,
                                                           units::Temperature temperature,
                                                           Branch branch);
/// Dry fibre in a sheet sold at `grammage`: conditioned at 50 % RH, 23 degC from the dry side.
[[nodiscard]] units::Grammage dry_grammage(const Stock& stock);

}  // namespace dampline::material
