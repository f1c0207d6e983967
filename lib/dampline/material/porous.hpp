#pragma once

#include <algorithm>
#include <array>
#include <cstddef>
#include <functional>
#include <memory>
#include <vector>

#include <boost/align/aligned_allocator.hpp>

#include <dampline/material/isotherm.hpp>
#include <dampline/material/stock.hpp>
#include <dampline/material/transport.hpp>
#include <dampline/units/quantity.hpp>

/// A stock turned into the doubles a solver layer needs.
namespace dampline::material {

/// A value and its derivative by moisture.
struct Sloped {
  double value;
  double slope;
};

/// A curve over moisture as values and slopes at knots, cubic between them.
using Knots = std::vector<double, boost::alignment::aligned_allocator<double, 64>>;

/// One branch of a paper's water as piecewise cubics over moisture, from dry to saturated: water
/// activity (23 degC), liquid integral (Kirchhoff: of the shape of D, per unit of D at saturation,
/// g/g) and reference moisture. Rising; carried on straight beyond its ends. Intervals are a 1024th
/// of saturation where the curves bend, at both ends, and `coarse` times as wide between.
/// Error   1e-6 against the closed forms in activity and reference moisture, but for the last
///         hundredth of the pore water (1e-4 in reference moisture).
class PorousTable {
 public:
  PorousTable(const Retention& retention, LiquidShape shape);
  /// From curves given outright: activity, liquid integral and reference moisture at a moisture.
  PorousTable(double saturation, const std::function<std::array<Sloped, 3>(double)>& curves);
  [[nodiscard]] Sloped activity(double u) const { return at(u, water_.data(), water_stride); }
  [[nodiscard]] Sloped liquid(double u) const { return at(u, water_.data() + 2, water_stride); }
  [[nodiscard]] Sloped reference(double u) const { return at(u, reference_.data(), 2); }
  [[nodiscard]] double saturation() const { return saturation_; }

  static constexpr int fine = 1024;    ///< intervals, were all as narrow as at the ends
  static constexpr int dry_end = 320;  ///< of these, narrow from dry
  static constexpr int wet_end = 64;   ///< narrow up to saturation
  static constexpr int coarse = 4;     ///< times as wide between
  static constexpr int brim = dry_end + (fine - dry_end - wet_end) / coarse;
  static constexpr int intervals = brim + wet_end;
  /// Doubles from knot to knot: activity and liquid integral, each by its value and its slope over
  /// a narrow interval. What moves water between cells needs both at once.
  static constexpr int water_stride = 4;
  [[nodiscard]] const double* water_knots() const { return water_.data(); }
  /// Two doubles a knot.
  [[nodiscard]] const double* reference_knots() const { return reference_.data(); }
  /// Narrow intervals to a unit of moisture.
  [[nodiscard]] double per_moisture() const { return per_moisture_; }

 private:
  [[nodiscard]] Sloped at(double u, const double* knots, std::ptrdiff_t stride) const {
    const double narrow = u * per_moisture_;
    const double wide = std::clamp(narrow - dry_end, 0.0, 1.0 * (fine - dry_end - wet_end));
    const double x = narrow - wide * (1 - 1.0 / coarse);
    const int i = std::clamp(static_cast<int>(x), 0, intervals - 1);
    const double width = i >= dry_end && i < brim ? coarse : 1;
    const double* from = knots + stride * i;
    const double* to = from + stride;
    const double chord = to[0] - from[0];
    const double c1 = width * from[1];
    const double c2 = 3 * chord - width * (2 * from[1] + to[1]);
    const double c3 = width * (from[1] + to[1]) - 2 * chord;
    const double t = x - i;
    const double in = std::clamp(t, 0.0, 1.0);
    const double slope = c1 + in * (2 * c2 + in * 3 * c3);
    return {from[0] + in * (c1 + in * (c2 + in * c3)) + (t - in) * slope,
            slope * per_moisture_ / width};
  }

  void fill(const std::vector<std::array<Sloped, 3>>& knots);

  double saturation_;
  double per_moisture_;
  Knots water_;
  Knots reference_;
};

struct Porous {
  double dry = 0;         ///< kg/m2 of dry fibre
  double thickness = 0;   ///< m, dry: the length the diffusivities refer to
  double saturation = 0;  ///< g/g
  double liquid = 0;      ///< m2/s: liquid diffusivity at saturation, 20 degC
  double vapour = 0;      ///< m2/s: effective diffusivity of vapour in the pores
  double delay = 0;       ///< s: before size lets water into a dry sheet
  LiquidShape shape = LiquidShape::sized;
  std::shared_ptr<const PorousTable> drying;   ///< desorption
  std::shared_ptr<const PorousTable> wetting;  ///< adsorption
  [[nodiscard]] const PorousTable& table(Branch branch) const {
    return branch == Branch::desorption ? *drying : *wetting;
  }
};

/// The sheet of a stock with a liquid diffusivity at saturation of `liquid`. Throws
/// units::OutOfRange for a stock no paper could be: grammage 5-2000 g/m2, thickness 0.01-10 mm,
/// saturation 0.3-6 g/g, pore ratio 0.1-100, isotherm scale 0.3-3, vapour 1e-9-3e-5 m2/s.
[[nodiscard]] Porous resolve(const Stock& stock, units::Diffusivity liquid);

/// Total diffusivity through the thickness at a moisture and temperature, m2/s, liquid + vapour:
/// D = liquid shape(u) gamma/mu + De rho_sat(T) (da/du) / rho_dry.
[[nodiscard]] double diffusivity_si(const Porous& sheet, Branch branch, double moisture,
                                    double kelvin);

}  // namespace dampline::material
