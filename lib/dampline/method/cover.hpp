#pragma once

#include <dampline/units/quantity.hpp>

/// A cover of polyethylene film, and how well it is closed.
namespace dampline::method {

enum class Closed { tucked, draped, loose };

struct Cover {
  units::Length film = units::micrometres(50);
  Closed closed = Closed::draped;
};

/// Vapour through a cover, m/s: by the film, and by the air that changes at its edges.
struct Leak {
  double film = 0;
  double edges = 0;
  [[nodiscard]] double whole() const { return film + edges; }
};

/// Film: permeance 3.8e-11 kg/(m2 s Pa) for 25 um at 38 degC (3.1 to 4.5e-11: 16 to 23 g/m2 a day
/// at 90 % RH [polyfilm]), inverse to the thickness, activation 37.5 kJ/mol (35 to 40, from
/// memory). Edges: a gap of 10 mm whose air changes 0.5 (tucked), 2 (draped) or 10 (loose) times an
/// hour, `assumed`: 1 to 21 g/m2 a day at 20 degC and 50 % RH; no measurement was found. Range
/// films of 5 um to 1 mm. Throws units::OutOfRange.
[[nodiscard]] Leak leak_si(const Cover& cover, units::Temperature room);

}  // namespace dampline::method
