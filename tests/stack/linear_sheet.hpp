#pragma once

#include <memory>

#include <dampline/material/porous.hpp>

namespace dampline::stack::tests {

/// A sheet whose diffusivity is constant and whose activity and potential are straight: what the
/// solutions of the diffusion equation in books hold for.
inline material::Porous linear_sheet(double diffusivity, double dry = 0.3, double thickness = 5e-4,
                                     double saturation = 1) {
  material::Porous p;
  p.dry = dry;
  p.thickness = thickness;
  p.saturation = saturation;
  p.liquid = diffusivity;
  p.vapour = 0;
  p.drying = std::make_shared<material::PorousTable>(saturation, [saturation](double u) {
    return std::array<material::Sloped, 3>{{{u / saturation, 1 / saturation}, {u, 1}, {u, 1}}};
  });
  p.wetting = p.drying;
  return p;
}

}  // namespace dampline::stack::tests
