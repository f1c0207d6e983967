#include <algorithm>
#include <cmath>
#include <cstdint>

#include <boost/math/special_functions/erf.hpp>
#include <boost/random/sobol.hpp>

#include <dampline/method/draw.hpp>
#include <dampline/units/out_of_range.hpp>

namespace dampline::method {

using units::in_si;

namespace {

constexpr double ten_percent = 1.2815515655446004;  // standard normal score of 90 %
constexpr double widest_score = 2.5;

double normal_score(double p) { return std::sqrt(2.0) * boost::math::erf_inv(2 * p - 1); }

// splitmix64: a digital shift per dimension from the seed.
std::uint64_t scrambled(std::uint64_t x) {
  x += 0x9e3779b97f4a7c15ULL;
  x = (x ^ (x >> 30)) * 0xbf58476d1ce4e5b9ULL;
  x = (x ^ (x >> 27)) * 0x94d049bb133111ebULL;
  return x ^ (x >> 31);
}

double factor(double spread, double score) {
  return std::exp(std::log(spread) / ten_percent * std::clamp(score, -widest_score, widest_score));
}

}  // namespace

double quantile_si(double value, double low, double high, double score) {
  const double z = std::clamp(score, -widest_score, widest_score) / ten_percent;
  if (!(value > 0)) return value;
  const double side = z < 0 ? low : high;
  if (!(side > 0)) return value;
  return value * std::pow(z < 0 ? value / side : side / value, z);
}

std::vector<Draw> draws(int n, unsigned seed) {
  if (!(n >= 0 && n <= 1000000)) throw units::OutOfRange("samples", n, 0, 1000000, "");
  boost::random::sobol sobol(draw_dimensions);
  std::vector<Draw> all(static_cast<std::size_t>(n));
  constexpr double Draw::*field[draw_dimensions] = {
      &Draw::cobb,  &Draw::accessible, &Draw::air,      &Draw::contact, &Draw::humidity,
      &Draw::pores, &Draw::vapour,     &Draw::grammage, &Draw::timing};
  std::uint64_t shift[draw_dimensions];
  for (std::uint64_t d = 0; d < draw_dimensions; ++d) {
    shift[d] = scrambled(static_cast<std::uint64_t>(seed) * draw_dimensions + d);
  }
  for (Draw& draw : all) {
    for (int d = 0; d < draw_dimensions; ++d) {
      const std::uint64_t bits = static_cast<std::uint64_t>(sobol()) ^ shift[d];
      const double p = (static_cast<double>(bits >> 11) + 0.5) * 0x1p-53;
      draw.*field[d] = normal_score(p);
    }
  }
  return all;
}

Sheet drawn(const material::Stock& stock, const Draw& draw, units::Length width,
            units::Length height) {
  material::Stock s = stock;
  const auto put = [](auto& ranged, double score) {
    const double value = in_si(ranged.value);
    if (value > 0) {
      ranged.value *= quantile_si(value, in_si(ranged.low), in_si(ranged.high), score) / value;
    }
  };
  put(s.cobb60, draw.cobb);
  put(s.vapour, draw.vapour);
  put(s.grammage, draw.grammage);
  s.accessible.value = units::Moisture(
      quantile_si(s.accessible.value.parts_of_one(), s.accessible.low.parts_of_one(),
                  s.accessible.high.parts_of_one(), draw.accessible));
  s.pore_ratio.value =
      quantile_si(s.pore_ratio.value, s.pore_ratio.low, s.pore_ratio.high, draw.pores);
  // The sheet keeps its density.
  s.thickness.value *= in_si(s.grammage.value) / in_si(stock.grammage.value);
  Sheet sheet = sheet_of(s, width, height);
  sheet.contact_scale = factor(2, draw.contact);
  sheet.air_scale = factor(1.25, draw.air);
  return sheet;
}

air::Climate drawn(const air::Climate& climate, const Draw& draw) {
  air::Climate c = climate;
  const double shift = 0.04 / ten_percent * std::clamp(draw.humidity, -widest_score, widest_score);
  c.humidity = units::RelativeHumidity(std::clamp(climate.humidity.parts_of_one() + shift, 0.0,
                                                  std::max(0.98, climate.humidity.parts_of_one())));
  return c;
}

std::vector<Stage> drawn(std::vector<Stage> stages, const Draw& draw) {
  const double longer = factor(1.15, draw.timing);
  for (Stage& s : stages) {
    if (s.arrangement == Arrangement::drain || s.arrangement == Arrangement::blot ||
        s.arrangement == Arrangement::towel || s.arrangement == Arrangement::press) {
      s.duration *= longer;
    }
  }
  return stages;
}

}  // namespace dampline::method
