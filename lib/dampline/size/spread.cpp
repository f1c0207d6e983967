#include <algorithm>
#include <cmath>
#include <cstdint>

#include <dampline/method/scores.hpp>
#include <dampline/size/spread.hpp>
#include <dampline/units/out_of_range.hpp>

namespace dampline::size {
namespace {

using method::held_score;
using method::ten_percent_score;

// Two half-normal sides: lows of 0 are usual here, so that a log-normal would not do.
double two_sided(const material::Ranged<units::Strain>& r, double score) {
  const double value = r.value.parts_of_one();
  const double side = score < 0 ? value - r.low.parts_of_one() : r.high.parts_of_one() - value;
  return std::max(0.0, value + side * held_score(score) / ten_percent_score);
}

Direction made(const Direction& base, double free, double set) {
  Direction d = base;
  d.free = free;
  d.as_bought = set;
  d.dried_in = set;
  return d;
}

Direction drawn(const Direction& base, const material::Growth& growth,
                const std::optional<Belief>& belief, double free_score, double set_score) {
  if (belief) {
    const double r = belief->correlation;
    const double free = belief->free + belief->free_sd * held_score(free_score);
    const double set =
        belief->dried_in +
        belief->dried_in_sd * (r * held_score(free_score) +
                               std::sqrt(std::max(0.0, 1 - r * r)) * held_score(set_score));
    return made(base, std::max(0.0, free), set);
  }
  return made(base, two_sided(growth.free, free_score), two_sided(growth.dried_in, set_score));
}

}  // namespace

std::vector<GrowthDraw> growth_draws(int n, unsigned seed) {
  if (!(n >= 0 && n <= 100000)) throw units::OutOfRange("samples", n, 0, 100000, "");
  // The dimensions after those of method::draws, of the same points.
  constexpr std::size_t dimensions = method::draw_dimensions + growth_dimensions;
  const auto rows = method::sobol_scores(n, dimensions, [seed](std::uint64_t d) {
    return (static_cast<std::uint64_t>(seed) << 32U) + dimensions + d;
  });
  std::vector<GrowthDraw> all;
  for (const auto& row : rows) {
    GrowthDraw& draw = all.emplace_back();
    const double* s = row.data() + method::draw_dimensions;
    draw.growth = s[0];
    draw.along = s[1];
    draw.across = s[2];
    draw.set_along = s[3];
    draw.set_across = s[4];
    draw.nip = s[5];
    draw.again.contact = s[6];
    draw.again.humidity = s[7];
    draw.again.timing = s[8];
  }
  return all;
}

SheetSize expected_sheet(const material::Stock& stock, const Beliefs& beliefs) {
  SheetSize sheet = new_sheet(stock);
  const auto put = [](Direction& d, const std::optional<Belief>& b) {
    if (b) d = made(d, b->free, b->dried_in);
  };
  put(sheet.along, beliefs.along);
  put(sheet.across, beliefs.across);
  return sheet;
}

SheetSize drawn_sheet(const material::Stock& stock, const Beliefs& beliefs,
                      const GrowthDraw& draw) {
  const double half = std::sqrt(0.5);
  const auto score = [&](const std::optional<Belief>& b, double own) {
    return b ? own : half * draw.growth + half * own;
  };
  SheetSize sheet = new_sheet(stock);
  sheet.along = drawn(sheet.along, stock.along, beliefs.along, score(beliefs.along, draw.along),
                      draw.set_along);
  sheet.across = drawn(sheet.across, stock.across, beliefs.across,
                       score(beliefs.across, draw.across), draw.set_across);
  return sheet;
}

units::Strain drawn_nip(units::Strain expected, const GrowthDraw& draw) {
  const double value = expected.parts_of_one();
  const double side = draw.nip < 0 ? value : 2 * value;
  return units::Strain(std::max(0.0, value + side * held_score(draw.nip) / ten_percent_score));
}

}  // namespace dampline::size
