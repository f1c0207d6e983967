#include <algorithm>

#include <dampline/method/over_samples.hpp>
#include <dampline/planner/paper_case.hpp>
#include <dampline/planner/today.hpp>

namespace dampline::planner {

PaperCase paper_case(const session::Session& s, const Knowledge& k, const Subject& subject,
                     const StudioAir& studio, const PlanOptions& options) {
  PaperCase paper;
  paper.stock = subject.stock;
  const auto& size = s.paper.sheet;
  paper.sheet = method::sheet_of(subject.stock, std::min(size.width, size.height),
                                 std::max(size.width, size.height));
  paper.climate = studio.usual;
  paper.air = studio.room;
  paper.opens = studio.opens;
  std::vector<readiness::Band> today;
  for (std::size_t i = 0; i < s.plates.size(); ++i) {
    if (is_today(s, s.plates[i].name)) today.push_back(subject.bands[i]);
  }
  paper.band = common_band(today);
  paper.draws = method::draws(options.samples, options.seed);
  const std::size_t n = paper.draws.size();
  paper.likely_airs.assign(n, paper.air);
  paper.likely_sheets.resize(n);
  paper.likely_rooms.resize(n);
  method::over_samples(n, [&](std::size_t i) {
    auto& draw = paper.draws[i];
    paper.likely_airs[i] = likely_air(studio, draw);
    paper.likely_sheets[i] =
        method::drawn(subject.stock, draw, paper.sheet.width, paper.sheet.height);
    paper.likely_rooms[i] = method::drawn(paper.climate, draw);
  });
  paper.blot_slot = step_time(k.craft, "blot", size);
  paper.least_rest = units::minutes(step_kind(k.craft, "rest").by_size.front().least);
  paper.least_handling = step_time(k.craft, "damp", size);
  paper.own = subject.own;
  paper.evening = k.craft.evening;
  paper.least_pack = units::minutes(step_kind(k.craft, "pack").by_size.front().least);
  for (const auto& plate : s.plates) {
    paper.laying = std::max(paper.laying, step_time(k.craft, "place", plate.size));
  }
  return paper;
}

size::Grain grain_of(session::Grain g) {
  switch (g) {
    case session::Grain::along_long_side:
      return size::Grain::along_long_side;
    case session::Grain::along_short_side:
      return size::Grain::along_short_side;
    case session::Grain::none:
      return size::Grain::none;
    case session::Grain::unknown:
      break;
  }
  return size::Grain::unknown;
}

size::Locate locate_of(session::Locate l) {
  switch (l) {
    case session::Locate::corner:
      return size::Locate::corner;
    case session::Locate::edge:
      return size::Locate::edge;
    case session::Locate::centre:
      return size::Locate::centre;
    case session::Locate::pins:
      break;
  }
  return size::Locate::pins;
}

}  // namespace dampline::planner
