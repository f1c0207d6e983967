#include <algorithm>
#include <cmath>

#include <dampline/method/over_samples.hpp>
#include <dampline/planner/damping_ways.hpp>
#include <dampline/units/text.hpp>

namespace dampline::planner {
namespace {

using method::Stage;
using units::Duration;
using units::in_si;

constexpr int most_blots = 6;
constexpr double nearly_as_many = 0.95;
constexpr std::size_t enough_draws = 32;  // to compare numbers of blots
const Duration soak_step = units::minutes(5);

// Time in the tub until the sheet is full, when a soak gains little, in steps of five minutes.
Duration soak_needed(const PaperCase& paper, units::Temperature water, Duration longest) {
  Stage tub = method::left(method::Arrangement::tub, longest);
  tub.water = water;
  tub.until = method::Until{method::Goal::full, {}};
  const auto dry = method::conditioned(paper.sheet, paper.climate);
  const auto took = method::settled(paper.sheet, dry, {tub}, paper.climate).front().duration;
  const double steps = std::max(1.0, std::ceil(in_si(took) / in_si(soak_step) - 1e-9));
  return std::min(longest, units::seconds(steps * in_si(soak_step)));
}

// The slot of hands' time a sheet gets, less drain and blots, is spent in the open.
std::vector<Stage> soak_and_blot(const PaperCase& paper, Duration soak, units::Temperature water,
                                 int blots) {
  auto stages = method::soak_blot_rest(soak, blots, units::seconds(0), water);
  const double slot = in_si(blotting_time(paper.blot_slot, blots));
  double used = 0;
  for (std::size_t i = 1; i < stages.size(); ++i) used += in_si(stages[i].duration);
  if (slot > used) {
    Stage open = method::left(method::Arrangement::bench, units::seconds(slot - used));
    open.name = "lay on the pile";
    stages.push_back(open);
  }
  return stages;
}

struct Trial {
  std::vector<Stage> wetting;
  int blots = 0;
  bool opens = false;   ///< ready at some time
  bool rested = false;  ///< ready after the time the trade gives it to rest
};

Trial tried(const PaperCase& paper, std::vector<Stage> wetting, const Stage& hold, int blots) {
  Trial trial;
  const auto dry = method::conditioned(paper.sheet, paper.climate);
  method::RunOptions ends_only;
  ends_only.sample_every = units::seconds(0);
  const auto wet = method::run(paper.sheet, dry, wetting, paper.climate, ends_only).end;
  trial.opens =
      readiness::window(paper.sheet, wet, hold, paper.climate, paper.band).opens.has_value();
  Stage rest = hold;
  rest.duration = paper.least_rest;
  const auto rested = method::run(paper.sheet, wet, {&rest, 1}, paper.climate, ends_only).end;
  trial.rested =
      readiness::judge(rested, paper.sheet, paper.band).verdict == readiness::Verdict::ready;
  trial.wetting = std::move(wetting);
  trial.blots = blots;
  return trial;
}

// Share of the likely sheets that are ready once rested.
double chance_after(const PaperCase& paper, const std::vector<Stage>& wetting) {
  const std::size_t n = std::min(paper.draws.size(), enough_draws);
  std::vector<char> ready(n);
  method::RunOptions ends_only;
  ends_only.sample_every = units::seconds(0);
  method::over_samples(n, [&](std::size_t k) {
    auto stages = method::drawn(wetting, paper.draws[k]);
    stages.push_back(method::left(method::Arrangement::covered, paper.least_rest));
    const auto& sheet = paper.likely_sheets[k];
    const auto dry = method::conditioned(sheet, paper.likely_rooms[k]);
    const auto end = method::run(sheet, dry, stages, paper.likely_rooms[k], ends_only).end;
    const auto verdict = readiness::judge(end, sheet, paper.band).verdict;
    ready[k] = verdict == readiness::Verdict::ready ? 1 : 0;
  });
  const auto found = std::count(ready.begin(), ready.end(), 1);
  return n == 0 ? 0 : static_cast<double>(found) / static_cast<double>(n);
}

// The fewest blots that bring nearly as many sheets into the band as any number would. The first
// sheet out of the tub soaks for `soak`, the last while all the others are blotted.
Trial best_blotting(const PaperCase& paper, Duration soak, int sheets, units::Temperature water,
                    const Stage& hold) {
  std::vector<double> chance(most_blots + 1, 0.0);
  for (int blots = 1; blots <= most_blots; ++blots) {
    chance[static_cast<std::size_t>(blots)] =
        chance_after(paper, soak_and_blot(paper, soak, water, blots));
  }
  const double most = *std::max_element(chance.begin(), chance.end());
  int blots = 1;
  while (chance[static_cast<std::size_t>(blots)] < nearly_as_many * most) ++blots;
  // The expected sheets must be ready once rested too, the first and the last out of the tub, even
  // where more of the others would be with fewer blots; if no number does that, the first at least.
  const auto first = [&](int n) {
    return tried(paper, soak_and_blot(paper, soak, water, n), hold, n);
  };
  const auto rested = [&](int n) {
    const Duration last =
        soak + units::seconds(in_si(blotting_time(paper.blot_slot, n)) * (sheets - 1));
    return first(n).rested && tried(paper, soak_and_blot(paper, last, water, n), hold, n).rested;
  };
  int more = blots;
  while (more < most_blots && !rested(more)) ++more;
  if (rested(more)) return first(more);
  auto trial = first(blots);
  while (!trial.opens && blots < most_blots) trial = first(++blots);
  return trial;
}

// Sheets of one batch in the tub.
int most_at_once(const session::Session& session) {
  const auto& e = session.edition;
  const int each = e.sheet_each ? static_cast<int>(session.plates.size()) : 1;
  const int wanted = (e.prints + e.proofs) * each;
  return std::max(1, std::min(wanted, session.equipment.tub ? session.equipment.tub->sheets : 1));
}

HalfMinutes rounded_down(Duration t) {
  return HalfMinutes(static_cast<int>(std::floor(in_si(t) / 30 + 1e-9)));
}

}  // namespace

Damping soaked(const session::Session& session, const PaperCase& paper,
               const readiness::Limit& tub_limit) {
  Damping d;
  const auto water = session.equipment.tub ? session.equipment.tub->water : units::celsius(18);
  const Duration soak = session.damping.soak.value_or(soak_needed(paper, water, tub_limit.longest));
  d.hold = hold_of(session);
  auto trial = best_blotting(paper, soak, most_at_once(session), water, d.hold);
  d.wetting = std::move(trial.wetting);
  d.treatment.in_tub = true;
  d.treatment.drawn_singly = session.damping.hold != session::Hold::covered;
  d.treatment.soak = rounded_up(soak);
  d.treatment.soak_most = std::max(rounded_down(tub_limit.longest), d.treatment.soak);
  d.treatment.blots = trial.blots;
  set_forecast(d, session, paper, paper.least_rest);
  d.summary.push_back("Soak " + minutes_text(soak) + " in water of " + units::text(water) +
                      ": the sheet then holds nearly all it will take (" +
                      units::text(units::Moisture(paper.sheet.porous->saturation)) + ").");
  d.summary.push_back("Drain, then blot " + std::to_string(trial.blots) +
                      (trial.blots == 1 ? " time" : " times") +
                      " between dry blotters under the hand roller.");
  for (const auto& danger : readiness::dangers_of_soaking(paper.stock, soak, water)) {
    d.warnings.push_back({danger.code, danger.text, danger.help});
  }
  return d;
}

}  // namespace dampline::planner
