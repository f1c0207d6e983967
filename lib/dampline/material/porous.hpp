#pragma once

#include <array>
#include <cstddef>
#include <functional>
#include <memory>
#include <vector>

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

/// One branch of a paper's water as piecewise cubics over moisture, evenly spaced from dry to
/// saturated: water activity (23 degC), liquid integral (Kirchhoff: of the shape of D, per unit of
/// D at saturation, g/g) and reference moisture. Rising; carried on straight beyond its ends.
/// Error   1e-6 against the closed forms in activity and reference moisture, but for the last
///         hundredth of the pore water (1e-4 in reference moisture).
class PorousTable {
 public:
  PorousTable(const Retention& retention, LiquidShape shape);
  /// From curves given outright: activity, liquid integral and reference moisture at a moisture.
  PorousTable(double saturation, const std::function<std::array<Sloped, 3>(double)>& curves);
  [[nodiscard]] Sloped activity(double u) const { return at(u, 0); }
  [[nodiscard]] Sloped liquid(double u) const { return at(u, 4); }
  [[nodiscard]] Sloped reference(double u) const { return at(u, 8); }
  [[nodiscard]] double saturation() const { return saturation_; }

  static constexpr int intervals = 1024;
  static constexpr int stride = 12;
  /// 12 coefficients an interval: the three cubics, each by rising power of the local fraction.
  [[nodiscard]] const double* coefficients() const { return coefficients_.data(); }
  [[nodiscard]] double per_moisture() const { return per_moisture_; }

 private:
  [[nodiscard]] Sloped at(double u, std::size_t channel) const {
    const double x = u * per_moisture_;
    int i = static_cast<int>(x);
    if (i < 0) i = 0;
    if (i > intervals - 1) i = intervals - 1;
    const double* c = coefficients_.data() + static_cast<std::size_t>(i) * stride + channel;
    const double t = x - i;
    if (t >= 0 && t <= 1) {
      return {c[0] + t * (c[1] + t * (c[2] + t * c[3])),
              (c[1] + t * (2 * c[2] + t * 3 * c[3])) * per_moisture_};
    }
    const double end = t < 0 ? 0 : 1;
    const double slope = c[1] + end * (2 * c[2] + end * 3 * c[3]);
    return {c[0] + end * (c[1] + c[2] + c[3]) + (t - end) * slope, slope * per_moisture_};
  }

  void fill(const std::vector<std::array<Sloped, 3>>& knots);

  double saturation_;
  double per_moisture_;
  std::vector<double> coefficients_;
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
