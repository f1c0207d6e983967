#pragma once

namespace dampline::method {

/// Water that a lifted sheet carries on a face, kg/m2: withdrawal at 0.2 m/s.
/// Source  [landau1942]; the speed is `assumed`.
inline constexpr double lifted_film_si = 0.050;

/// Mean film left on a face of `height` m that has hung for a time, kg/m2:
/// (2/3) sqrt(mu h / (rho g t)).
/// Source  drainage of a vertical plate [jeffreys1930].
[[nodiscard]] double drained_film_si(double height, double seconds, double kelvin);

}  // namespace dampline::method
