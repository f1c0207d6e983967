#include <algorithm>
#include <cmath>

#include <dampline/planner/lay_out.hpp>
#include <dampline/planner/rescue.hpp>
#include <dampline/planner/timeline.hpp>
#include <dampline/readiness/limits.hpp>
#include <dampline/readiness/window.hpp>
#include <dampline/size/strain.hpp>
#include <dampline/units/text.hpp>

namespace dampline::planner {
namespace {

using units::in_si;

const units::Duration horizon = units::hours(72);
constexpr int most_passes = 4;
constexpr double near_enough = 0.005;  // g/g, of the mean that is aimed at
constexpr double more_on_rim = 0.010;  // kg/m2, worth telling apart

HalfMinutes whole(double seconds) { return HalfMinutes(static_cast<int>(seconds / 30 + 1e-9)); }
HalfMinutes whole_up(double seconds) {
  return HalfMinutes(static_cast<int>(std::ceil(seconds / 30 - 1e-9)));
}

// The air by the clock of the day; one reading knows no clock.
units::Duration clock_of(const PaperCase& paper, HalfMinutes at) {
  if (!paper.air.logged()) return {};
  return paper.opens + units::seconds(at.count() * 30.0);
}
air::Room air_from(const PaperCase& paper, HalfMinutes at) {
  return paper.air.logged() ? paper.air.starting(clock_of(paper, at)) : paper.air;
}

std::string numbers(const std::vector<int>& sheets) {
  std::string out = sheets.size() == 1 ? "sheet " : "sheets ";
  for (std::size_t i = 0; i < sheets.size(); ++i) {
    if (i > 0) out += i + 1 == sheets.size() ? " and " : ", ";
    out += std::to_string(sheets[i]);
  }
  return out;
}

std::string capital(std::string text) {
  if (!text.empty() && text[0] >= 'a' && text[0] <= 'z') {
    text[0] = static_cast<char>(text[0] - 'a' + 'A');
  }
  return text;
}

std::string minutes_text(units::Duration t) {
  return units::text(units::minutes(std::ceil(units::in_minutes(t) - 1e-9)));
}

// The sheet (its middle or its rim) after hands and a rest under cover.
method::State afterwards(const PaperCase& paper, const WetSheet& sheet,
                         std::vector<method::Stage> stages, units::Duration rest, bool rim) {
  stages.push_back(method::left(method::Arrangement::covered, rest));
  method::RunOptions o;
  o.sample_every = units::seconds(0);
  o.since = clock_of(paper, sheet.at);
  o.rim = rim;
  return method::run(paper.sheet, rim ? sheet.rim : sheet.middle, stages, paper.air, o).end;
}

// A mend with its window: printable not before the trade would have rested it.
std::optional<Mend> rested(const PaperCase& paper, const WetSheet& sheet, ByHand hands,
                           units::Duration least_rest) {
  const auto after =
      waits(paper, sheet, hands, method::left(method::Arrangement::covered, horizon));
  if (!after.opens) return std::nullopt;
  Mend m;
  m.stages = std::move(hands.middle);
  m.opens = std::max(*after.opens, whole_up(in_si(least_rest)));
  m.closes = after.closes;
  if (m.opens >= m.closes) return std::nullopt;
  m.rescue.sheets = {sheet.number};
  m.rescue.rest = units::seconds(m.opens.count() * 30.0);
  m.rescue.before = mean_of(sheet);
  m.rescue.after =
      method::sample_of(afterwards(paper, sheet, m.stages, *m.rescue.rest, false)).mean;
  return m;
}

std::vector<method::Stage> mist_of(double film) {
  auto stages = method::mist_rest(units::kilograms_per_m2(std::max(film, 0.0)), units::seconds(0));
  stages.pop_back();  // the cover
  return stages;
}

// What has to be laid on, kg/m2, for the best of the band after a rest.
double film_needed(const PaperCase& paper, const WetSheet& sheet, units::Duration rest, bool rim) {
  const double best = paper.band.best.value.parts_of_one();
  const double dry = paper.sheet.porous->dry;
  const auto& now = rim ? sheet.rim : sheet.middle;
  double film = (best - method::sample_of(now).mean.parts_of_one()) * dry;
  for (int i = 0; i < 4 && film > 0; ++i) {
    const auto end = afterwards(paper, sheet, mist_of(film), rest, rim);
    const double short_by = best - method::sample_of(end).mean.parts_of_one();
    film += short_by * dry;
    if (std::abs(short_by) < near_enough) break;
  }
  return std::max(film, 0.0);
}

std::string from_to(const Rescue& r, const PaperCase& paper) {
  return units::text(*r.before) + " now, " + units::text(*r.after) + " after " +
         minutes_text(*r.rest) + " under cover, for a band of " +
         units::text(paper.band.low.value) + " to " + units::text(paper.band.high.value) + ".";
}

}  // namespace

WetSheet wet_sheet(const PaperCase& paper, const Damping& damping, const Draft& draft,
                   const std::vector<int>& starts, const DraftSheet& sheet, HalfMinutes at) {
  std::vector<DraftPull> pulls;
  for (const auto& pull : pulls_of(draft, sheet.number, starts)) {
    if (when(pull.pulled, starts) <= at) pulls.push_back(pull);
  }
  const auto course = timeline_until(at, sheet, pulls, damping, starts);
  WetSheet out;
  out.number = sheet.number;
  out.at = at;
  out.covered = when(sheet.covered, starts);
  out.printed_on = !pulls.empty();
  method::RunOptions o;
  o.sample_every = units::seconds(0);
  o.since = clock_of(paper, course.begins);
  const auto dry = method::conditioned(paper.sheet, paper.climate);
  out.middle = method::run(paper.sheet, dry, course.stages, paper.air, o).end;
  o.rim = true;
  out.rim = method::run(paper.sheet, dry, course.stages, paper.air, o).end;
  return out;
}

readiness::Judgement judged(const PaperCase& paper, const WetSheet& sheet) {
  auto middle = readiness::judge(sheet.middle, paper.sheet, paper.band);
  if (middle.verdict != readiness::Verdict::ready) return middle;
  return readiness::judge(sheet.rim, paper.sheet, paper.band);
}

units::Moisture mean_of(const WetSheet& sheet) { return method::sample_of(sheet.middle).mean; }

Waits waits(const PaperCase& paper, const WetSheet& sheet, const ByHand& first,
            const method::Stage& hold) {
  const auto room = air_from(paper, sheet.at);
  readiness::WindowOptions window;
  window.horizon = horizon;
  method::RunOptions o;
  o.sample_every = units::seconds(0);
  const auto found = [&](const std::vector<method::Stage>& hands, bool rim) {
    o.rim = rim;
    const auto& now = rim ? sheet.rim : sheet.middle;
    const auto end = hands.empty() ? now : method::run(paper.sheet, now, hands, room, o).end;
    return readiness::window(paper.sheet, end, hold, room.starting(method::length_of(hands)),
                             paper.band, window);
  };
  const auto middle = found(first.middle, false);
  // Without lateral flow a rim that has dried stays dry: it is only asked where it lay open.
  const auto rim = sheet.lies_open ? found(first.rim, true) : middle;
  Waits out;
  if (!middle.opens || !rim.opens) return out;
  const auto opens = std::max(*middle.opens, *rim.opens);
  const auto closes = std::min(middle.closes.value_or(horizon), rim.closes.value_or(horizon));
  if (opens < closes) out.opens = whole_up(in_si(opens));
  out.closes = whole(in_si(closes));
  return out;
}

std::optional<Mend> misted(const PaperCase& paper, const WetSheet& sheet,
                           units::Duration least_rest) {
  const double film = film_needed(paper, sheet, least_rest, false);
  const double on_rim = sheet.lies_open ? film_needed(paper, sheet, least_rest, true) : film;
  if (film <= 0 && on_rim <= 0) return std::nullopt;
  auto mend = rested(paper, sheet, {mist_of(film), mist_of(on_rim)}, least_rest);
  if (!mend) return std::nullopt;
  constexpr double rim_width = 0.02;  // m, as the simulation has it
  const double width = in_si(paper.sheet.width), height = in_si(paper.sheet.height);
  const double inside =
      std::max(0.0, width - 2 * rim_width) * std::max(0.0, height - 2 * rim_width);
  const double rim_grams = on_rim * (width * height - inside) * 1e3;
  const double grams = film * inside * 1e3 + rim_grams;
  const auto whole_grams = [](double g) { return units::text(units::grams(std::round(g))); };
  auto& r = mend->rescue;
  r.kind = "mist";
  r.water = units::grams(grams);
  r.text = "Mist " + numbers(r.sheets) + " with " + whole_grams(grams) + " of water, both faces";
  if (on_rim > film + more_on_rim) {
    r.text += ", " + whole_grams(rim_grams) + " of it on the outer 2 cm";
  }
  r.text += ", and cover: " + from_to(r, paper);
  return mend;
}

std::optional<Mend> blotted_again(const PaperCase& paper, const WetSheet& sheet,
                                  units::Duration least_rest) {
  for (int passes = 1; passes <= most_passes; ++passes) {
    const std::vector<method::Stage> blot{method::blotted(passes)};
    auto mend = rested(paper, sheet, {blot, blot}, least_rest);
    if (!mend) continue;
    auto& r = mend->rescue;
    r.kind = "blot";
    r.text = "Blot " + numbers(r.sheets) + " once more, " + std::to_string(passes) +
             (passes == 1 ? " pass" : " passes") +
             " between dry blotters, and cover: " + from_to(r, paper);
    return mend;
  }
  return std::nullopt;
}

std::vector<Rescue> for_another_day(const PaperCase& paper, const std::vector<WetSheet>& sheets) {
  if (sheets.empty()) return {};
  std::vector<int> all;
  for (const auto& s : sheets) all.push_back(s.number);
  const auto room = paper.climate.temperature;
  const auto covered = readiness::keeps(readiness::Store::covered, room);
  const auto cold = readiness::keeps(readiness::Store::refrigerator, room);
  std::vector<Rescue> out;
  Rescue keep;
  keep.kind = "refrigerate";
  keep.sheets = all;
  keep.text = capital(numbers(all)) + " can be kept damp: airtight under plastic for " +
              units::text(covered.longest) + " at this temperature, in the refrigerator for " +
              units::text(cold.longest) + " (" + covered.basis + ").";
  out.push_back(std::move(keep));

  auto sheet = size::new_sheet(paper.stock);
  const auto before = size::growth(sheet, units::Moisture(sheet.along.conditioned));
  size::wet(sheet, units::Moisture(sheets.front().middle.wetted_through));
  const auto dry = size::growth(sheet, units::Moisture(sheet.along.conditioned));
  const auto damp = size::growth(sheet, mean_of(sheets.front()));
  const auto again = [&] {
    auto later = sheet;
    size::wet(later, paper.band.best.value);
    return size::growth(later, paper.band.best.value);
  }();
  const auto change = [](const size::Growth& now, const size::Growth& then) {
    const auto one = [](units::Strain a, units::Strain b) {
      const double percent = (a.parts_of_one() - b.parts_of_one()) * 100;
      return units::fixed(std::abs(percent), 2) + " % " + (percent < 0 ? "smaller" : "larger");
    };
    return one(now.along, then.along) + " along and " + one(now.across, then.across) +
           " across the grain than ";
  };
  Rescue redamp;
  redamp.kind = "damp-again";
  redamp.sheets = all;
  redamp.text = "Or dry " + numbers(all) + " and damp again another day: dried free " +
                (all.size() == 1 ? "it is " : "they are ") + change(dry, before) +
                "new, and damped again to " + units::text(paper.band.best.value) + " " +
                change(again, damp) + "now.";
  out.push_back(std::move(redamp));
  return out;
}

}  // namespace dampline::planner
