#include <algorithm>
#include <cmath>

#include <dampline/planner/damping.hpp>
#include <dampline/readiness/limits.hpp>
#include <dampline/units/text.hpp>

namespace dampline::planner {
namespace {

using method::Stage;
using units::Duration;
using units::in_si;

constexpr int most_blots = 6;
constexpr double nearly_full = 0.95;  // of what the sheet takes up: then a soak gains little
constexpr double nearly_as_many = 0.95;
constexpr std::size_t enough_draws = 32;  // to compare numbers of blots
const Duration soak_step = units::minutes(5);
const Duration horizon = units::hours(72);

HalfMinutes rounded_up(Duration t) {
  return HalfMinutes(static_cast<int>(std::ceil(in_si(t) / 30 - 1e-9)));
}
HalfMinutes rounded_down(Duration t) {
  return HalfMinutes(static_cast<int>(std::floor(in_si(t) / 30 + 1e-9)));
}

std::string minutes_text(Duration t) {
  return units::text(units::minutes(std::ceil(units::in_minutes(t) - 1e-9)));
}

// --- what can be done to a sheet ---------------------------------------------------------------

// Time in the tub until the sheet holds nearly all it will take, in steps of five minutes.
Duration soak_needed(const PaperCase& paper, units::Temperature water, Duration longest) {
  Stage tub;
  tub.name = "soak";
  tub.arrangement = method::Arrangement::tub;
  tub.duration = longest;
  tub.water = water;
  method::RunOptions options;
  options.sample_every = soak_step;
  const auto dry = method::conditioned(paper.sheet, paper.climate);
  const auto history = method::run(paper.sheet, dry, {&tub, 1}, paper.climate, options);
  const double full = paper.sheet.porous->saturation;
  for (const auto& sample : history.curve) {
    if (sample.mean.parts_of_one() >= nearly_full * full) {
      const double steps = std::ceil(in_si(sample.at) / in_si(soak_step) - 1e-9);
      return units::seconds(std::max(1.0, steps) * in_si(soak_step));
    }
  }
  return longest;
}

Stage hold_of(const session::Session& session) {
  const bool bench = session.damping.hold == session::Hold::bench;
  Stage hold =
      method::left(bench ? method::Arrangement::bench : method::Arrangement::covered, horizon);
  hold.name = bench ? "wait on the bench" : "wait under cover";
  return hold;
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

units::Grammage film_for(const PaperCase& paper, double mean) {
  const auto dry = method::conditioned(paper.sheet, paper.climate);
  const double now = method::sample_of(dry).mean.parts_of_one();
  return units::kilograms_per_m2(std::max(0.0, mean - now) * paper.sheet.porous->dry);
}

std::vector<Stage> sponge_or_mist(const PaperCase& paper, bool mist) {
  const auto film = film_for(paper, paper.band.best.value.parts_of_one());
  return mist ? method::mist_rest(film, units::seconds(0))
              : method::sponge_rest(film, units::seconds(0));
}

// --- windows -------------------------------------------------------------------------------------

struct Trial {
  std::vector<Stage> wetting;
  int blots = 0;
  readiness::Window window;
};

Trial tried(const PaperCase& paper, std::vector<Stage> wetting, const Stage& hold, int blots) {
  Trial trial;
  const auto dry = method::conditioned(paper.sheet, paper.climate);
  method::RunOptions ends_only;
  ends_only.sample_every = units::seconds(0);
  const auto history = method::run(paper.sheet, dry, wetting, paper.climate, ends_only);
  trial.window = readiness::window(paper.sheet, history.end, hold, paper.climate, paper.band);
  trial.wetting = std::move(wetting);
  trial.blots = blots;
  return trial;
}

// Share of the likely sheets that are ready once rested.
double chance_after(const PaperCase& paper, const std::vector<Stage>& wetting) {
  const std::size_t n = std::min(paper.draws.size(), enough_draws);
  int ready = 0;
  method::RunOptions ends_only;
  ends_only.sample_every = units::seconds(0);
  for (std::size_t k = 0; k < n; ++k) {
    auto stages = method::drawn(wetting, paper.draws[k]);
    stages.push_back(method::left(method::Arrangement::covered, paper.least_rest));
    const auto& sheet = paper.likely_sheets[k];
    const auto dry = method::conditioned(sheet, paper.likely_rooms[k]);
    const auto end = method::run(sheet, dry, stages, paper.likely_rooms[k], ends_only).end;
    if (readiness::judge(end, sheet, paper.band).verdict == readiness::Verdict::ready) ++ready;
  }
  return n == 0 ? 0 : static_cast<double>(ready) / static_cast<double>(n);
}

// The fewest blots that bring nearly as many sheets into the band as any number would.
Trial best_blotting(const PaperCase& paper, Duration soak, units::Temperature water,
                    const Stage& hold) {
  std::vector<double> chance(most_blots + 1, 0.0);
  for (int blots = 1; blots <= most_blots; ++blots) {
    chance[static_cast<std::size_t>(blots)] =
        chance_after(paper, soak_and_blot(paper, soak, water, blots));
  }
  const double most = *std::max_element(chance.begin(), chance.end());
  int blots = 1;
  while (chance[static_cast<std::size_t>(blots)] < nearly_as_many * most) ++blots;
  auto trial = tried(paper, soak_and_blot(paper, soak, water, blots), hold, blots);
  // The expected sheet must be ready too, even where more of the others would be with fewer blots.
  while (!trial.window.opens && blots < most_blots) {
    ++blots;
    trial = tried(paper, soak_and_blot(paper, soak, water, blots), hold, blots);
  }
  return trial;
}

void set_window(Damping& d, const session::Session& session, const PaperCase& paper,
                Duration least_rest) {
  const auto& window = d.forecast.likely;
  d.ready = window.opens.has_value();
  if (!d.ready) return;
  Duration opens = *window.opens;
  Duration closes = window.closes.value_or(horizon);
  if (!d.treatment.drawn_singly) {
    opens = std::max(opens, session.damping.rest.value_or(least_rest));
  }
  const auto keeps = readiness::keeps(readiness::Store::covered, paper.climate.temperature);
  closes = std::min(closes, keeps.longest);
  d.treatment.opens = rounded_up(opens);
  d.treatment.closes = rounded_down(closes);
  d.ready = d.treatment.opens < d.treatment.closes;
  if (d.ready) return;
  d.warnings.push_back({"rest-too-long",
                        "a rest of " + units::text(opens) + " outlasts the sheet: it stays " +
                            "printable, or keeps, for " + units::text(closes) + " at most",
                        "shorten rest under [damping]"});
}

readiness::Forecast forecast_of(const PaperCase& paper, const Damping& d) {
  return readiness::forecast(paper.stock, paper.sheet.width, paper.sheet.height, d.wetting, d.hold,
                             paper.climate, paper.band, paper.draws);
}

// --- methods -------------------------------------------------------------------------------------

Damping soaked(const session::Session& session, const PaperCase& paper,
               const readiness::Limit& tub_limit) {
  Damping d;
  const auto water = session.equipment.tub ? session.equipment.tub->water : units::celsius(18);
  const Duration soak = session.damping.soak.value_or(soak_needed(paper, water, tub_limit.longest));
  d.hold = hold_of(session);
  const auto trial = best_blotting(paper, soak, water, d.hold);
  d.wetting = trial.wetting;
  d.treatment.in_tub = true;
  d.treatment.drawn_singly = session.damping.hold != session::Hold::covered;
  d.treatment.soak = rounded_up(soak);
  d.treatment.soak_most = std::max(rounded_down(tub_limit.longest), d.treatment.soak);
  d.treatment.blots = trial.blots;
  d.forecast = forecast_of(paper, d);
  set_window(d, session, paper, paper.least_rest);
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

Damping damped(const session::Session& session, const PaperCase& paper, bool mist, bool pack) {
  Damping d;
  d.hold = hold_of(session);
  d.hold.arrangement = method::Arrangement::covered;
  d.wetting = sponge_or_mist(paper, mist);
  const auto film = film_for(paper, paper.band.best.value.parts_of_one());
  const double area = in_si(paper.sheet.width) * in_si(paper.sheet.height);
  d.summary.push_back(std::string(mist ? "Mist both faces" : "Sponge one face") + " with " +
                      units::text(units::grams_per_m2(std::round(units::in_grams_per_m2(film)))) +
                      ", " +
                      units::text(units::grams(std::round(units::in_grams_per_m2(film) * area))) +
                      " of water for each sheet, and stack under plastic.");
  if (pack) {
    d.summary.push_back(
        "In a pack that is the share of each sheet: sponge every second or third one with the "
        "water of its dry neighbours too.");
  }
  if (session.damping.evening_before) {
    const auto opens = std::chrono::duration_cast<HalfMinutes>(session.day.from);
    d.treatment.before_day = opens + rounded_up(units::hours(24) - paper.evening);
    const int minute = static_cast<int>(units::in_minutes(paper.evening));
    d.summary.push_back("Do this the evening before, about " + std::to_string(minute / 60) + ":" +
                        (minute % 60 < 10 ? "0" : "") + std::to_string(minute % 60) +
                        "; the pack evens out overnight.");
  }
  d.forecast = forecast_of(paper, d);
  set_window(d, session, paper, pack ? paper.least_pack : paper.least_rest);
  return d;
}

std::string chosen_method(const session::Session& session, const PaperCase& paper, bool tub_able) {
  if (!session.damping.method.empty()) return session.damping.method;
  if (!tub_able || !session.equipment.tub) return "mist";
  return paper.band.level >= 3 ? "soak" : "sponge";
}

// The sheet, rested, once it lies in the open.
readiness::Window in_the_open(const PaperCase& paper, const Damping& d) {
  auto stages = d.wetting;
  stages.push_back(d.hold);
  stages.back().duration = units::seconds(d.treatment.opens.count() * 30.0);
  const auto dry = method::conditioned(paper.sheet, paper.climate);
  const auto history = method::run(paper.sheet, dry, stages, paper.climate, {});
  const auto bench = method::left(method::Arrangement::bench, horizon);
  return readiness::window(paper.sheet, history.end, bench, paper.climate, paper.band);
}

void describe_open_life(Damping& d, const PaperCase& paper) {
  const auto open = in_the_open(paper, d);
  if (!open.closes) return;
  d.open_life = open.closes;
  const bool rim = open.closed_by == readiness::Part::rim;
  const auto life = units::text(units::minutes(std::floor(units::in_minutes(*open.closes))));
  d.summary.push_back("Once out from under the plastic it stays printable for about " + life +
                      " in this room; " + (rim ? "its rim goes first." : "rim and middle alike."));
  if (*open.closes < paper.laying) {
    d.warnings.push_back(
        {"dries-while-laid",
         std::string(rim ? "the outer 2 cm of a sheet" : "a sheet") + " leaves the band within " +
             minutes_text(*open.closes) + " in the open, and laying it to the marks takes " +
             minutes_text(paper.laying),
         "keep it under plastic to the last moment, mist the rim, or damp the air of the room"});
  }
}

void describe_window(Damping& d, const PaperCase& paper) {
  if (!d.ready) return;
  const auto& f = d.forecast;
  const Duration opens = units::seconds(d.treatment.opens.count() * 30.0);
  const bool rested = f.likely.opens && opens > *f.likely.opens + units::minutes(1);
  std::string text = "Printable from " + minutes_text(opens) +
                     (d.treatment.blots > 0 ? " after blotting" : " after it is covered");
  if (rested) {
    const bool at_once = *f.likely.opens < units::minutes(1);
    text += " (by the model it is even " +
            (at_once ? std::string("at once") : "after " + minutes_text(*f.likely.opens)) +
            "; the trade rests it longer)";
  }
  text += ", at about " + units::text(f.likely.at_open.mean) + " for a band of " +
          units::text(paper.band.low.value) + " to " + units::text(paper.band.high.value) + ".";
  d.summary.push_back(text);
  if (d.hold.arrangement == method::Arrangement::covered) describe_open_life(d, paper);
}

void warn_not_ready(Damping& d, const PaperCase& paper, const std::string& method) {
  const auto& w = d.forecast.likely;
  d.warnings.push_back({"never-ready",
                        "no " + method + " tried brings this paper to the damp that " +
                            paper.band.process + " wants; after the last blot it is " +
                            readiness::word(w.at_start.verdict) + ": " + w.at_start.reason,
                        method == "soak"
                            ? "write method = \"sponge\" (or \"mist\") under [damping]"
                            : "write method = \"soak\" under [damping], or take another paper"});
}

}  // namespace

units::Duration blotting_time(units::Duration blot_slot, int blots) {
  return units::seconds(in_si(blot_slot) * std::max(1.0, blots / 2.0));
}

readiness::Band common_band(const std::vector<readiness::Band>& bands) {
  auto common = bands.front();
  for (const auto& b : bands) {
    if (b.low.value > common.low.value) common.low = b.low;
    if (b.high.value < common.high.value) common.high = b.high;
    if (b.driest.value > common.driest.value) common.driest = b.driest;
    if (b.spread.value < common.spread.value) common.spread = b.spread;
    if (b.surface.value < common.surface.value) common.surface = b.surface;
    common.level = std::min(common.level, b.level);
    if (b.process != common.process && common.process.find(b.process) == std::string::npos) {
      common.process += " and " + b.process;
    }
  }
  common.best.value = std::clamp(common.best.value, common.low.value, common.high.value);
  return common;
}

Damping choose_damping(const session::Session& session, const PaperCase& paper) {
  const auto tub_limit = readiness::tub_limit(paper.stock);
  const auto method = chosen_method(session, paper, tub_limit.has_value());
  const bool into_tub = method == "soak" && tub_limit.has_value() && session.equipment.tub;
  auto d = into_tub
               ? soaked(session, paper, *tub_limit)
               : damped(session, paper, method == "mist" || method == "soak", method == "pack");
  if (method == "soak" && !into_tub) {
    d.warnings.push_back({"no-tub",
                          tub_limit ? "there is no tub: the sheets are misted instead"
                                    : "this paper must not go into a tub: it goes slippery and "
                                      "tears; the sheets are misted instead",
                          "write method = \"mist\" under [damping]"});
  }
  describe_window(d, paper);
  if (!d.forecast.likely.opens) warn_not_ready(d, paper, method);
  return d;
}

}  // namespace dampline::planner
