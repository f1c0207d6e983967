#include <algorithm>
#include <cmath>

#include <dampline/planner/damping_ways.hpp>
#include <dampline/units/text.hpp>

namespace dampline::planner {
namespace {

using units::Duration;
using units::in_si;

const Duration horizon = units::hours(72);

HalfMinutes rounded_down(Duration t) {
  return HalfMinutes(static_cast<int>(std::floor(in_si(t) / 30 + 1e-9)));
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
  if (paper.own != nullptr) {
    d.warnings.push_back({"never-ready",
                          "\"" + method + "\" does not bring this paper to the damp that " +
                              paper.band.process + " wants; at its end it is " +
                              readiness::word(w.at_start.verdict) + ": " + w.at_start.reason,
                          "try it on one sheet with dampline sheet --method, then change the "
                          "method or take another"});
    return;
  }
  d.warnings.push_back({"never-ready",
                        "no " + method + " tried brings this paper to the damp that " +
                            paper.band.process + " wants; after the last blot it is " +
                            readiness::word(w.at_start.verdict) + ": " + w.at_start.reason,
                        method == "soak"
                            ? "write method = \"sponge\" (or \"mist\") under [damping]"
                            : "write method = \"soak\" under [damping], or take another paper"});
}

std::string chosen_word(const session::Session& session, const PaperCase& paper, bool tub_able) {
  if (!session.damping.method.empty()) return session.damping.method;
  if (!tub_able || !session.equipment.tub) return "mist";
  return paper.band.level >= 3 ? "soak" : "sponge";
}

Damping by_word(const session::Session& session, const PaperCase& paper, const std::string& word) {
  if (word == "pack") return packed(session, paper);
  const auto tub_limit = readiness::tub_limit(paper.stock);
  if (word == "soak" && tub_limit && session.equipment.tub) {
    return soaked(session, paper, *tub_limit);
  }
  auto d = water_laid_on(session, paper, word == "mist" || word == "soak");
  if (word == "soak") {
    d.warnings.push_back({"no-tub",
                          tub_limit ? "there is no tub: the sheets are misted instead"
                                    : "this paper must not go into a tub: it goes slippery and "
                                      "tears; the sheets are misted instead",
                          "write method = \"mist\" under [damping]"});
  }
  return d;
}

}  // namespace

HalfMinutes rounded_up(Duration t) {
  return HalfMinutes(static_cast<int>(std::ceil(in_si(t) / 30 - 1e-9)));
}

std::string minutes_text(Duration t) {
  return units::text(units::minutes(std::ceil(units::in_minutes(t) - 1e-9)));
}

method::Stage hold_of(const session::Session& session) {
  const bool bench = session.damping.hold == session::Hold::bench;
  auto hold =
      method::left(bench ? method::Arrangement::bench : method::Arrangement::covered, horizon);
  hold.name = bench ? "wait on the bench" : "wait under cover";
  return hold;
}

void set_evening(Damping& d, const session::Session& session, const PaperCase& paper) {
  if (!session.damping.evening_before) return;
  const auto opens = std::chrono::duration_cast<HalfMinutes>(session.day.from);
  d.treatment.before_day = opens + rounded_up(units::hours(24) - paper.evening);
  const int minute = static_cast<int>(units::in_minutes(paper.evening));
  d.summary.push_back("Do this the evening before, about " + std::to_string(minute / 60) + ":" +
                      (minute % 60 < 10 ? "0" : "") + std::to_string(minute % 60) +
                      "; the pack evens out overnight.");
}

void set_forecast(Damping& d, const session::Session& session, const PaperCase& paper,
                  Duration least_rest) {
  d.forecast = readiness::forecast(paper.stock, paper.sheet.width, paper.sheet.height, d.wetting,
                                   d.hold, paper.climate, paper.band, paper.draws);
  set_window(d, session, paper, least_rest);
}

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
  const bool tub_able = readiness::tub_limit(paper.stock).has_value();
  const auto word = chosen_word(session, paper, tub_able);
  auto d =
      paper.own != nullptr ? as_written(session, paper, *paper.own) : by_word(session, paper, word);
  describe_window(d, paper);
  if (!d.forecast.likely.opens) warn_not_ready(d, paper, word);
  return d;
}

}  // namespace dampline::planner
