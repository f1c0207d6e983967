#include "support/sample_plan.hpp"

#include <algorithm>
#include <cmath>
#include <map>

namespace dampline::tests {

namespace {

using planner::HalfMinutes;
using planner::Plan;
using planner::ResourceKind;
using planner::Step;
using planner::Use;

HalfMinutes minutes(double m) { return HalfMinutes(static_cast<int>(std::lround(2 * m))); }
units::Moisture moisture(double u) { return units::Moisture(u); }

enum { A, B, press, tub, bench, tone, key, hot_plate, drying };

// The clocks of the sample: minutes since 09:30.
constexpr double pause_from = 210, pause_until = 250;

/// Lays steps on the clock one after the other, each as early as its resources and the break let
/// it.
class Day {
 public:
  explicit Day(Plan& plan) : plan_(plan) {
    plan.resources = {{"A", ResourceKind::person, 1},
                      {"B", ResourceKind::person, 1},
                      {"table press", ResourceKind::press, 1},
                      {"tub", ResourceKind::tub, 8},
                      {"blotting place", ResourceKind::blotting_place, 1},
                      {"tone", ResourceKind::plate, 1},
                      {"key", ResourceKind::plate, 1},
                      {"hot plate", ResourceKind::hot_plate, 1},
                      {"drying places", ResourceKind::drying, 16}};
    step("break", "break", "Nothing inked waits on the hot plate; sheets covered.", {A, B},
         pause_from, pause_until - pause_from);
  }

  /// Returns when it ends.
  double step(std::string kind, std::string what, std::string cue, const std::vector<int>& uses,
              double earliest, double length, std::vector<int> sheets = {}, int print = 0,
              std::string plate = {}) {
    double start = earliest;
    for (const int r : uses) start = std::max(start, free_[r]);
    const bool hands = std::find(uses.begin(), uses.end(), A) != uses.end() ||
                       std::find(uses.begin(), uses.end(), B) != uses.end();
    if (hands && kind != "break" && start < pause_until && start + length > pause_from) {
      start = pause_until;
    }
    Step s;
    s.id = kind + "-" + std::to_string(++count_);
    s.kind = std::move(kind);
    s.what = std::move(what);
    s.cue = std::move(cue);
    s.sheets = std::move(sheets);
    s.plate = std::move(plate);
    s.print = print;
    for (const int r : uses) s.uses.push_back({r, 1});
    s.start = minutes(start);
    s.end = minutes(start + length);
    if (!plan_.steps.empty()) s.because = {plan_.steps.back().id};
    plan_.steps.push_back(std::move(s));
    if (plan_.steps.back().kind != "break") {
      for (const int r : uses) free_[r] = start + length;
    }
    return start + length;
  }

 private:
  Plan& plan_;
  std::map<int, double> free_;
  int count_ = 0;
};

std::vector<int> range(int from, int to) {
  std::vector<int> out;
  for (int i = from; i <= to; ++i) out.push_back(i);
  return out;
}

/// Soaks, blots and covers one batch; returns when it is covered.
double batch(Plan& plan, Day& day, int first, int last, double from) {
  const auto sheets = range(first, last);
  const auto all = static_cast<int>(sheets.size());
  const double wet = from;
  const double under =
      day.step("load", "lay sheets in the tub",
               "One at a time, no air pockets. The soak counts from the last sheet "
               "under.",
               {B}, wet, 0.5 * all, sheets);
  const double soaked = under + 25;
  Step soak;
  soak.id = "soak-" + std::to_string(first);
  soak.kind = "soak";
  soak.what = "soaking";
  soak.cue = "Turn the pile once.";
  soak.sheets = sheets;
  soak.uses = {{tub, all}};
  soak.start = minutes(under - 0.5 * all);
  soak.end = minutes(soaked);
  plan.steps.push_back(soak);
  const double blotted = day.step("blot", "lift, drain and blot",
                                  "Drain at a corner, then between blotters. Stop when no shine is "
                                  "left; change clammy blotters.",
                                  {B, bench}, soaked, 2.0 * all, sheets);
  planner::Batch out;
  out.what = "sheets " + std::to_string(first) + "-" + std::to_string(last);
  out.sheets = sheets;
  out.wet_from = soak.start;
  out.covered_from = minutes(blotted);
  out.ready_from = minutes(blotted + 30);
  out.ready_until = minutes(blotted + 215);
  out.band_low = moisture(0.5);
  out.band_high = moisture(0.7);
  for (double t = blotted; t <= blotted + 240; t += 10) {
    const double mean = 0.74 * std::exp(-(t - blotted) / 560);
    const double surface = mean + 0.22 * std::exp(-(t - blotted) / 14) - 0.01;
    const double spread = 0.045 + 0.0002 * (t - blotted);
    out.curve.push_back({minutes(t), moisture(mean), moisture(surface), moisture(mean - spread),
                         moisture(mean + spread)});
  }
  plan.batches.push_back(out);
  return blotted;
}

double ink(Day& day, int plate, const std::string& name, int print, double from) {
  const std::string of = ", print " + std::to_string(print);
  double t = day.step("warm", "warm the plate (" + name + ")" + of, "", {A, plate, hot_plate}, from,
                      2, {}, print, name);
  t = day.step("ink", "ink " + name + of, "Into every line; card or dabber.", {A, plate}, t, 4, {},
               print, name);
  return day.step("wipe", "wipe " + name + of, "Coarse, fine, hand; bevels and back clean.",
                  {A, plate}, t, name == "tone" ? 7 : 9.5, {}, print, name);
}

void pull(Plan& plan, const Step& step, int sheet, bool first_plate) {
  planner::Pull p;
  p.print = step.print;
  p.proof = step.print == 1;
  p.plate = step.plate;
  p.printer = "B";
  p.sheet = sheet;
  p.at = step.start;
  const auto& paper = *std::find_if(plan.batches.begin(), plan.batches.end(), [&](const auto& b) {
    return std::find(b.sheets.begin(), b.sheets.end(), sheet) != b.sheets.end();
  });
  p.ready_from = paper.ready_from;
  p.ready_until = paper.ready_until;
  const double waited = (p.at - paper.covered_from).count() / 2.0;
  const double mean = 0.74 * std::exp(-waited / 560);
  p.moisture = {moisture(mean), moisture(mean - 0.01), moisture(mean - 0.03), moisture(mean - 0.05),
                moisture(mean + 0.05)};
  p.ready = units::Chance(std::min(0.997, 1.25 - waited / 600));
  p.along = units::Strain::from_percent(0.52 + 0.3 * mean);
  p.across = units::Strain::from_percent(1.3 + 0.7 * mean);
  if (!first_plate) {
    p.misfit = {units::millimetres(0.03), units::millimetres(0.09), units::millimetres(0.11),
                units::Chance(0.93)};
  }
  plan.pulls.push_back(p);
}

/// One sheet through both plates, held in the press between them.
double print(Plan& plan, Day& day, int number, double tone_ready, double key_ready) {
  const std::string of = ", print " + std::to_string(number);
  const auto place = [&](const char* kind, const char* what, const char* cue, int plate,
                         double from, const std::string& name) {
    double t = day.step(kind, what + of, cue, {B, press, plate}, from, 2, {number}, number, name);
    t = day.step("pull", "pull " + name + of,
                 "Say \"clear\". Even and without stopping. One person runs the press.",
                 {B, press, plate}, t, 1, {number}, number, name);
    pull(plan, plan.steps.back(), number, plate == tone);
    return t;
  };
  double from = std::max(tone_ready, key_ready - 2);
  constexpr double whole = 16;  // no sheet waits in the press over the break
  if (from < pause_until && from + whole > pause_from) from = pause_until;
  double t = place("place", "plate on the bed, sheet to the marks, newsprint, blankets",
                   "Touch test first: limp, cool, no shine. Plate, sheet, newsprint, blankets, "
                   "clear.",
                   tone, from, "tone");
  t = place("change-plate", "fold back, change the plate, lay down again",
            "Leave one end of the sheet in the nip; damp newsprint over what waits.", key,
            std::max(t, key_ready), "key");
  t = day.step("lift", "lift, peel, look, note" + of,
               "Two bad in a row: stop and check paper, ink, blankets, marks.", {B, press, key}, t,
               2, {number}, number);
  return day.step("lay-away", "lay away" + of, "Tissue on fresh ink. Keep the order.", {B}, t, 1.5,
                  {number}, number);
}

void get_ready(Day& day) {
  day.step("lay-out", "clear and wipe tables, scrape the slab, lay out",
           "Paper well away from ink. Floor clear round the press.", {A}, 0, 15);
  day.step("tear", "tear and mark the sheets",
           "Pencil-mark the print side and number the sheets: once wet they cannot be told apart.",
           {B}, 0, 7, range(1, 7));
  day.step("register-sheet", "register sheet under acetate",
           "Mark plate and sheet corners; view from straight above.", {B}, 11, 10);
  day.step("blankets", "blankets on, square and staggered",
           "Catcher next to the paper. Fingers and sleeves away from the nip.", {A, press}, 15, 5);
  day.step("set-press", "set the press to your noted marks, blank test pass",
           "Same reading at both ends. Note it in the margin.", {A, press}, 20, 10);
  day.step("hot-plate", "hot plate on",
           "For plates and ink only. No solvent, alcohol or aerosol near it.", {A, hot_plate}, 30,
           1);
  day.step("mix-ink", "scrape and loosen the ink, tone",
           "Skin off; a drop of oil if it pulls at the card.", {A}, 31, 10, {}, 0, "tone");
  day.step("mix-ink", "scrape and loosen the ink, key",
           "Skin off; a drop of oil if it pulls at the card.", {A}, 41, 10, {}, 0, "key");
}

double clean_up(Day& day, double from) {
  double t = day.step("clean-plate", "clean the plates",
                      "Oil first; degrease only when the hot plate is off and cold.",
                      {A, tone, key}, from, 12);
  t = day.step("clean-slab", "clean slab, tools, bed and hands",
               "Oily rags flat outdoors or in a closed metal can, never in a heap.", {A}, t, 20);
  return std::max(
      t, day.step("close-press", "blankets out to dry, pressure off, floor dry, rags away",
                  "Hang the catcher. Look once more at the hot plate.", {B, press}, from, 8));
}

void words(Plan& plan) {
  plan.summary = {
      "Soaked 25 min in water at 18 degC: internally sized sheets of 300 g/m2 take that long to "
      "lose their stiffness.",
      "Blotted once, then at least 30 min in a covered stack, so that the water evens out.",
      "Two batches, because covered sheets stay printable for about 3 h at 17 degC and 52 %."};
  plan.assumptions = {"Covered under plastic that loses little; opened for each sheet.",
                      "The studio stays at 17 degC and 52 % all day."};
  plan.defaults_used = {"equipment.presses[0].passes = 1", "damping.rest = chosen by the plan",
                        "edition.between = \"held\""};
  plan.after = {
      {std::chrono::minutes(60), "change the blotters", "common practice", "blotters"},
      {std::chrono::hours(16), "change the blotters again", "common practice", "blotters"},
      {std::chrono::hours(70), "dry to the touch and flat: out of the boards", "model", "flat"},
      {std::chrono::hours(24 * 14), "do not stack without tissue before this day", "", "stack"}};
  plan.cautions = {{"press", "One person runs the press. Say \"clear\". Stop before adjusting."},
                   {"rags",
                    "Oily rags flat outdoors or in a closed metal can, never in a heap: drying oil "
                    "heats itself."},
                   {"hot-plate",
                    "Hot plate for plates and ink only. No alcohol, solvent or aerosol near it. "
                    "Switch off at the end."}};
}

void in_order(Plan& plan) {
  std::stable_sort(plan.steps.begin(), plan.steps.end(), [](const Step& a, const Step& b) {
    return std::tie(a.start, a.id) < std::tie(b.start, b.id);
  });
  std::stable_sort(plan.pulls.begin(), plan.pulls.end(),
                   [](const auto& a, const auto& b) { return a.at < b.at; });
}

}  // namespace

Plan sample_plan() {
  using namespace std::chrono;
  Plan plan;
  plan.title = "Salt marsh, two plates";
  plan.zone = "Europe/Paris";
  plan.opens = sys_days(year(2026) / 3 / 14) + hours(8) + std::chrono::minutes(30);
  Day day(plan);
  get_ready(day);
  batch(plan, day, 1, 4, 24);
  double away = 0;
  double freed = 0;  // the plates come off the bed
  for (int print_number = 1; print_number <= 7; ++print_number) {
    if (print_number == 4) batch(plan, day, 5, 7, away);
    const double tone_ready = ink(day, tone, "tone", print_number, std::max(55.0, freed));
    const double key_ready = ink(day, key, "key", print_number, tone_ready);
    const auto& paper = print_number < 5 ? plan.batches.front() : plan.batches.back();
    const double printable = paper.ready_from.count() / 2.0;
    away = print(plan, day, print_number, std::max(tone_ready, printable), key_ready);
    freed = away - 3.5;
    if (print_number == 1) {
      away = day.step("judge", "judge the proof", "Change one thing at a time.", {A, B}, away, 5);
      freed = away;
    }
  }
  plan.finish = minutes(clean_up(day, away));
  plan.bound_finish = plan.finish - minutes(9);
  plan.until = minutes(480);
  plan.prints_planned = plan.prints_asked = 6;
  plan.proofs_planned = plan.proofs_asked = 1;
  words(plan);
  in_order(plan);
  return plan;
}

Plan short_plan() {
  Plan plan = sample_plan();
  plan.prints_asked = 8;
  plan.short_of = {{"hands of A", "8 prints need 7 h 40 min of A's hands; the day has 6 h 10 min."},
                   {"tone", "The plate tone is on the bed or being inked from 10:25 to 15:30."}};
  plan.warnings = {{"fewer-prints", "6 of 8 prints fit before 17:30.",
                    "Ask a second person to wipe, or split the edition over two days."},
                   {"pull-outside-window", "Print 4 is pulled when its sheet has dried too far.",
                    "Mist its back half a minute before and wait 5 min under cover."}};
  plan.pulls[6].ready = units::Chance(0.31);
  plan.pulls[7].ready_until = plan.pulls[7].at - minutes(12);
  plan.proved = true;
  plan.bound_finish = plan.finish;
  return plan;
}

Plan hostile_plan() {
  Plan plan = sample_plan();
  const std::string nasty =
      "</title><script>alert('x')</script> & \"quoted\" 'single' <img src=https://example.org/x> "
      "\x1b[31mred\x1b[0m \xE2\x80\xAEright\xE2\x80\xAC \xF0\x9F\xA6\x80 e\xCC\x81 "
      "Stra\xC3\x9F"
      "e \xE6\xB9\xBF\xE7\xB4\x99 \xFF\xC0 ]]> -->";
  plan.title = nasty;
  plan.zone = nasty;
  plan.resources[A].name = nasty;
  plan.resources[tone].name = "Sehrlanger-Plattennamewirdniemalsumbrochen<&>\"";
  for (auto& s : plan.steps) s.what += nasty, s.cue += nasty, s.plate = nasty;
  for (auto& p : plan.pulls) p.plate = nasty;
  for (auto& b : plan.batches) b.what = nasty;
  for (auto& s : plan.summary) s += nasty;
  plan.warnings = {{nasty, nasty, nasty}};
  plan.cautions = {{nasty, nasty}};
  plan.short_of = {{nasty, nasty}};
  plan.after[0].what = plan.after[0].basis = nasty;
  plan.assumptions = plan.defaults_used = {nasty};
  return plan;
}

report::Clock sample_clock() {
  return {[](report::Instant) { return std::chrono::minutes(60); }};
}

}  // namespace dampline::tests
