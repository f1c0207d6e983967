#include <algorithm>
#include <cmath>
#include <cstdint>

#include <dampline/method/draw.hpp>
#include <dampline/method/scores.hpp>
#include <dampline/units/out_of_range.hpp>

namespace dampline::method {

using units::in_si;

double quantile_si(double value, double low, double high, double score) {
  const double z = held_score(score) / ten_percent_score;
  if (!(value > 0)) return value;
  const double side = z < 0 ? low : high;
  if (!(side > 0)) return value;
  return value * std::pow(z < 0 ? value / side : side / value, z);
}

std::vector<Draw> draws(int n, unsigned seed) {
  if (!(n >= 0 && n <= 1000000)) throw units::OutOfRange("samples", n, 0, 1000000, "");
  constexpr double Draw::*field[draw_dimensions] = {
      &Draw::cobb,  &Draw::accessible, &Draw::air,      &Draw::contact, &Draw::humidity,
      &Draw::pores, &Draw::vapour,     &Draw::grammage, &Draw::timing};
  std::vector<Draw> all;
  for (const auto& scores : sobol_scores(n, draw_dimensions, [seed](std::uint64_t d) {
         return static_cast<std::uint64_t>(seed) * draw_dimensions + d;
       })) {
    Draw& draw = all.emplace_back();
    for (std::size_t d = 0; d < draw_dimensions; ++d) draw.*field[d] = scores[d];
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
  sheet.contact_scale = factor_at(2, draw.contact);
  sheet.air_scale = factor_at(1.25, draw.air);
  return sheet;
}

double humidity_shift(const Draw& draw, units::RelativeHumidity scatter) {
  return scatter.parts_of_one() / ten_percent_score * held_score(draw.humidity);
}

air::Climate drawn(const air::Climate& climate, const Draw& draw) {
  air::Climate c = climate;
  const double moved =
      climate.humidity.parts_of_one() + humidity_shift(draw, usual_humidity_scatter);
  c.humidity = units::RelativeHumidity(
      std::clamp(moved, 0.0, std::max(0.98, climate.humidity.parts_of_one())));
  return c;
}

std::vector<Stage> drawn(std::vector<Stage> stages, const Draw& draw) {
  const double longer = factor_at(1.15, draw.timing);
  for (Stage& s : stages) {
    if (s.arrangement == Arrangement::drain || s.arrangement == Arrangement::blot ||
        s.arrangement == Arrangement::towel || s.arrangement == Arrangement::press) {
      s.duration *= longer;
    }
  }
  return stages;
}

}  // namespace dampline::method
