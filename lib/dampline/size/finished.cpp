#include <algorithm>
#include <cmath>

#include <dampline/size/finished.hpp>

namespace dampline::size {
namespace {

constexpr double soaked = 1.0;  // g/g: any tissue's fibres are full

Rectangle grown(const Rectangle& r, const Sides& by) {
  return {r.long_side * (1 + by.long_way.parts_of_one()),
          r.short_side * (1 + by.short_way.parts_of_one())};
}
Rectangle before_growing(const Rectangle& r, const Sides& by) {
  return {r.long_side / (1 + by.long_way.parts_of_one()),
          r.short_side / (1 + by.short_way.parts_of_one())};
}

Sides with_nip(Sides s, const Printing& p, double nip) {
  auto& way = p.travel == Travel::along_long_side ? s.long_way : s.short_way;
  way = way + units::Strain(nip);
  return s;
}

double shrunk(double from, double to) { return (from - to) / (1 + from); }

// From damp to dry, free, of a sheet that has given back its set: along and across.
Growth shrinkage(const SheetSize& size, const Growth& damp) {
  const Growth dry = growth(size, units::Moisture(size.along.conditioned));
  return {units::Strain(shrunk(damp.along.parts_of_one(), dry.along.parts_of_one())),
          units::Strain(shrunk(damp.across.parts_of_one(), dry.across.parts_of_one()))};
}

}  // namespace

Finished finished(const Printing& p, const Passage& passage, Grain grain) {
  Finished f;
  f.growth = passage.finished;
  const Sides sheet = with_nip(sides(passage.finished, grain), p, passage.finished_nip);
  const Rectangle bought{p.sheet_long, p.sheet_short};
  f.sheet = grown(bought, sheet);
  f.tear = before_growing(bought, sheet);
  for (std::size_t k = 0; k < p.plates.size(); ++k) {
    const auto& plate = p.plates[k];
    const Rectangle size{plate.long_side, plate.short_side};
    const Sides then = with_nip(sides(passage.pulls[k].growth, grain), p, passage.pulls[k].nip);
    f.images.push_back({plate.name, size, grown(before_growing(size, then), sheet)});
  }
  return f;
}

Tissue tissue_for(const material::Stock& tissue, const PrintedPlate& plate, const AtPull& sheet,
                  Grain grain) {
  Tissue t;
  SheetSize size = new_sheet(tissue);
  wet(size, units::Moisture(soaked));
  t.wet = growth(size, units::Moisture(soaked));
  t.cut = before_growing({plate.long_side, plate.short_side}, sides(t.wet, grain));
  const Growth own = shrinkage(size, t.wet);
  const Growth under = shrinkage(sheet.size, sheet.growth);
  const auto apart = [](units::Strain a, units::Strain b) {
    return std::abs(a.parts_of_one() - b.parts_of_one());
  };
  t.with = units::Strain(std::max(apart(own.along, under.along), apart(own.across, under.across)));
  t.crossed =
      units::Strain(std::max(apart(own.along, under.across), apart(own.across, under.along)));
  return t;
}

}  // namespace dampline::size
