#include <algorithm>
#include <stdexcept>

#include <dampline/size/printing.hpp>
#include <dampline/units/out_of_range.hpp>

namespace dampline::size {

using units::in_si;
using units::metres;

std::string word(Way way) {
  switch (way) {
    case Way::held:
      return "held";
    case Way::released:
      return "released";
    case Way::dried:
      return "dried";
    case Way::dry:
      break;
  }
  return "dry";
}

std::string title(Way way) {
  switch (way) {
    case Way::held:
      return "held in the press";
    case Way::released:
      return "let go, kept covered";
    case Way::dried:
      return "dried and damped again";
    case Way::dry:
      break;
  }
  return "later plates on the dry sheet";
}

void check(const Printing& p) {
  if (p.plates.empty()) throw std::invalid_argument("nothing is printed without a plate");
  const auto side = [](units::Length l) {
    const double mm = units::in_millimetres(l);
    if (!(mm >= 30 && mm <= 3000)) throw units::OutOfRange("side of the sheet", mm, 30, 3000, "mm");
  };
  side(p.sheet_long);
  side(p.sheet_short);
  if (p.sheet_long < p.sheet_short) throw std::invalid_argument("the long side is the longer one");
  if (!(p.nip.parts_of_one() >= 0 && p.nip.parts_of_one() <= 0.01)) {
    throw units::OutOfRange("stretch of a pass", p.nip.percent(), 0, 1, "%");
  }
}

double restraint(const Printing& p) {
  if (p.drying == Drying::tape) return 1;
  if (p.drying != Drying::boards) return 0;
  // Over a side the way to its nearer edge is a quarter of it in the mean.
  const auto by = [&](units::Length side) {
    return restraint_under_boards(p.boards, side / 4.0, p.stock.grammage.value);
  };
  return 0.5 * (by(p.sheet_long) + by(p.sheet_short));
}

RegisterCase case_of(const Printing& p, Way way, const PrintedPlate& plate, Grain grain) {
  RegisterCase c;
  c.long_side = plate.long_side;
  c.short_side = plate.short_side;
  c.grain = grain;
  c.tolerance = p.tolerance;
  c.placing = way == Way::held ? 0.5 * p.placing : p.placing;
  c.locate = p.locate;
  const auto margin = [](units::Length sheet, units::Length image) {
    return std::max(metres(0), 0.5 * (sheet - image));
  };
  if (way == Way::held) {
    c.locate = Locate::trapped;
    const bool by_the_short_side = p.travel == Travel::along_long_side;
    if (!by_the_short_side) c.locate = Locate::edge;
  } else if (p.laid == Laid::plate) {
    return c;
  }
  c.margin_long = margin(p.sheet_long, plate.long_side);
  c.margin_short = margin(p.sheet_short, plate.short_side);
  return c;
}

RegisterCase drift_case(const RegisterCase& c) {
  RegisterCase drift = c;
  drift.tolerance = std::max(units::millimetres(0.001), room_for_drift(c.tolerance, c.placing));
  drift.placing = metres(0);
  return drift;
}

}  // namespace dampline::size
