#include <algorithm>
#include <cmath>
#include <stdexcept>

#include <dampline/size/chance.hpp>
#include <dampline/size/register.hpp>
#include <dampline/units/out_of_range.hpp>

namespace dampline::size {

using units::in_si;
using units::metres;

namespace {

constexpr double wettest_asked = 1.5;  // g/g

// A place on the image, measured from what stays put.
struct Place {
  double x = 0;  // m, along the sheet's long side
  double y = 0;
};

Place origin(const RegisterCase& c) {
  const double w = in_si(c.long_side);
  const double h = in_si(c.short_side);
  const Place from_corner{in_si(c.margin_long), in_si(c.margin_short)};
  switch (c.locate) {
    case Locate::corner:
      return from_corner;
    case Locate::edge:
    case Locate::pins:
      return {-w / 2, from_corner.y};
    case Locate::trapped:
      return {from_corner.x, -h / 2};
    case Locate::centre:
      break;
  }
  return {-w / 2, -h / 2};
}

double relative(units::Strain first, units::Strain later) {
  return (later.parts_of_one() - first.parts_of_one()) / (1 + first.parts_of_one());
}

Shift shift_at(const Sides& change, const Place& p) {
  return {metres(change.long_way.parts_of_one() * p.x),
          metres(change.short_way.parts_of_one() * p.y)};
}

std::array<Place, 4> corners(const RegisterCase& c) {
  const Place o = origin(c);
  const double w = in_si(c.long_side);
  const double h = in_si(c.short_side);
  return {{{o.x, o.y}, {o.x + w, o.y}, {o.x, o.y + h}, {o.x + w, o.y + h}}};
}

double worst_si(const RegisterCase& c, Grain grain) {
  const Sides changed = change(c, grain);
  double worst = 0;
  for (const auto& at : corners(c)) {
    worst = std::max(worst, std::hypot(changed.long_way.parts_of_one() * at.x,
                                       changed.short_way.parts_of_one() * at.y));
  }
  return worst;
}

Misfit with_grain(const RegisterCase& c, Grain grain) {
  Misfit m;
  const Sides changed = change(c, grain);
  const Place o = origin(c);
  const double w = in_si(c.long_side);
  const double h = in_si(c.short_side);
  std::array<ShiftSi, 4> shift{};
  double long_most = 0;
  double short_most = 0;
  const auto at = corners(c);
  for (std::size_t i = 0; i < 4; ++i) {
    m.corner[i] = shift_at(changed, at[i]);
    shift[i] = {in_si(m.corner[i].long_way), in_si(m.corner[i].short_way)};
    long_most = std::max(long_most, std::abs(shift[i].x));
    short_most = std::max(short_most, std::abs(shift[i].y));
  }
  m.edge = {shift_at(changed, {o.x, o.y + h / 2}), shift_at(changed, {o.x + w, o.y + h / 2}),
            shift_at(changed, {o.x + w / 2, o.y}), shift_at(changed, {o.x + w / 2, o.y + h})};
  m.grain_across_long = grain == Grain::along_short_side;
  m.along = metres(m.grain_across_long ? short_most : long_most);
  m.across = metres(m.grain_across_long ? long_most : short_most);
  m.worst = metres(worst_si(c, grain));
  m.within = units::Chance(chance_within_si(shift, in_si(c.placing), in_si(c.tolerance)));
  return m;
}

void check(const RegisterCase& c) {
  const auto require = [](const char* what, units::Length l, double low_mm, double high_mm) {
    const double mm = units::in_millimetres(l);
    if (!(mm >= low_mm && mm <= high_mm)) throw units::OutOfRange(what, mm, low_mm, high_mm, "mm");
  };
  require("image side", c.long_side, 1, 3000);
  require("image side", c.short_side, 1, 3000);
  require("placing", c.placing, 0, 100);
  require("tolerance", c.tolerance, 0.001, 100);
  require("margin", c.margin_long, 0, 3000);
  require("margin", c.margin_short, 0, 3000);
}

}  // namespace

Sides sides(const Growth& growth, Grain grain) {
  switch (grain) {
    case Grain::along_long_side:
      return {growth.along, growth.across};
    case Grain::along_short_side:
      return {growth.across, growth.along};
    case Grain::none: {
      const units::Strain mean(0.5 * (growth.along.parts_of_one() + growth.across.parts_of_one()));
      return {mean, mean};
    }
    case Grain::unknown:
      break;
  }
  throw std::invalid_argument("the sides of a sheet of unknown grain: ask for both ways");
}

Sides change(const RegisterCase& c, Grain grain) {
  const Sides first = sides(c.first, grain);
  const Sides later = sides(c.later, grain);
  return {units::Strain(relative(first.long_way, later.long_way)) + c.nip_long,
          units::Strain(relative(first.short_way, later.short_way)) + c.nip_short};
}

Misfit misfit(const RegisterCase& c) {
  check(c);
  if (c.grain != Grain::unknown) return with_grain(c, c.grain);
  const Misfit a = with_grain(c, Grain::along_long_side);
  const Misfit b = with_grain(c, Grain::along_short_side);
  return b.worst > a.worst ? b : a;
}

units::Length worst_corner(const RegisterCase& c) {
  check(c);
  if (c.grain != Grain::unknown) return metres(worst_si(c, c.grain));
  return metres(
      std::max(worst_si(c, Grain::along_long_side), worst_si(c, Grain::along_short_side)));
}

units::Length room_for_drift(units::Length tolerance, units::Length placing) {
  return std::max(metres(0), tolerance - placing);
}

std::optional<MoistureRange> allowed_moisture(const RegisterCase& c, const SheetSize& later) {
  RegisterCase trial = c;
  const auto out_by = [&](double u) {
    trial.later = growth(later, units::Moisture(u));
    return in_si(worst_corner(trial)) - in_si(c.tolerance);
  };
  // The worst corner falls to one least value and rises again: growth rises with moisture.
  double low = 0;
  double high = wettest_asked;
  for (int i = 0; i < 80; ++i) {
    const double a = low + (high - low) / 3;
    const double b = high - (high - low) / 3;
    (out_by(a) <= out_by(b) ? high : low) = out_by(a) <= out_by(b) ? b : a;
  }
  const double best = 0.5 * (low + high);
  if (out_by(best) > 0) return std::nullopt;
  const auto edge = [&](double outside) -> std::optional<units::Moisture> {
    if (out_by(outside) <= 0) return std::nullopt;
    double inside = best;
    for (int i = 0; i < 60; ++i) {
      const double middle = 0.5 * (inside + outside);
      (out_by(middle) <= 0 ? inside : outside) = middle;
    }
    return units::Moisture(inside);
  };
  return MoistureRange{edge(0), edge(wettest_asked)};
}

std::optional<units::Moisture> allowed_moisture_difference(const RegisterCase& c,
                                                           const SheetSize& sheet,
                                                           units::Moisture first, bool drier) {
  RegisterCase trial = c;
  trial.first = growth(sheet, first);
  const auto range = allowed_moisture(trial, sheet);
  if (!range) return units::Moisture(0);  // the nip alone has it out
  const auto& edge = drier ? range->driest : range->wettest;
  if (!edge) return std::nullopt;
  return units::Moisture(std::abs(edge->parts_of_one() - first.parts_of_one()));
}

}  // namespace dampline::size
