#include <algorithm>
#include <cmath>
#include <ostream>
#include <tuple>

#include <dampline/material/catalogue.hpp>
#include <dampline/method/draw.hpp>
#include <dampline/method/run.hpp>
#include <dampline/readiness/band.hpp>
#include <dampline/readiness/limits.hpp>
#include <dampline/readiness/window.hpp>
#include <dampline/units/text.hpp>

#include "command.hpp"
#include "data_files.hpp"
#include "json_option.hpp"
#include "methods_file.hpp"
#include "options.hpp"
#include "output_file.hpp"
#include "sheet_air.hpp"
#include "sheet_answer.hpp"
#include "sheet_method.hpp"
#include "stocks_file.hpp"

namespace dampline::cli {
namespace {

using method::Arrangement;
using method::Stage;

struct Wanted {
  std::optional<std::string> stock, stocks, sizing, furnish, making, grain, hold;
  std::optional<std::string> process, output;
  std::optional<units::Grammage> grammage, cobb;
  std::optional<units::Length> thickness;
  std::optional<units::Size> sheet;
  std::optional<units::Duration> expose;
  MethodWords method;
  AirWords air;
  int samples = 48;
  int seed = 1;
  bool water_ink = false;
  bool json = false;
};

// Numbers beyond what any studio knows are refused here, with the range.
template <class Value>
void within(const char* option, Value value, double low, double high, const char* unit) {
  if (!(value >= low && value <= high)) {
    throw Failure(exit_status::usage, std::string(option) + " is outside " + units::shortest(low) +
                                          " to " + units::shortest(high) + " " + unit);
  }
}

void check(const Wanted& w) {
  const auto hours = [&](const char* option, const std::optional<units::Duration>& t, double most) {
    if (t) within(option, units::in_hours(*t), 0, most, "h");
  };
  hours("--soak", w.method.soak, 72);
  hours("--rest", w.method.rest, 240);
  hours("--expose", w.expose, 240);
  if (w.method.water) within("--water", units::in_celsius(*w.method.water), 0, 60, "degC");
  if (w.method.film) within("--film", units::in_grams_per_m2(*w.method.film), 0, 1000, "g/m2");
  if (w.sheet) {
    within("--sheet", units::in_centimetres(w.sheet->width), 5, 200, "cm");
    within("--sheet", units::in_centimetres(w.sheet->height), 5, 200, "cm");
  }
}

material::Described paper(const Wanted& w, const material::Catalogue& catalogue) {
  material::Description d;
  if (w.stock) d.base = &stock_named(catalogue, *w.stock);
  d.grammage = w.grammage;
  d.thickness = w.thickness;
  d.cobb60 = w.cobb;
  if (w.furnish) d.furnish = material::furnish_from(*w.furnish);
  if (w.making) d.making = material::making_from(*w.making);
  if (w.sizing) d.sizing = material::sizing_from(*w.sizing);
  std::string default_grammage;
  if (d.base == nullptr && !d.grammage) {
    d.grammage = units::grams_per_m2(300);
    default_grammage = "grammage = 300 g/m2";
  }
  auto made = material::describe(catalogue, d);
  if (auto* error = std::get_if<material::DescriptionError>(&made)) {
    throw Failure(exit_status::usage, error->what, error->help);
  }
  auto described = std::get<material::Described>(std::move(made));
  if (!default_grammage.empty()) {
    described.defaults_used.insert(described.defaults_used.begin(), default_grammage);
  }
  return described;
}

readiness::Band band(const Wanted& w) {
  const std::string text = read_data("processes.toml");
  const auto read = readiness::read_processes(text, "processes.toml");
  if (const auto* errors = std::get_if<material::CatalogueErrors>(&read)) {
    const auto& e = errors->front();
    throw Failure(
        exit_status::bad_data,
        e.file + ":" + std::to_string(e.line) + ":" + std::to_string(e.column) + ": " + e.what,
        e.help);
  }
  const auto& processes = std::get<readiness::Processes>(read);
  const std::string wanted = w.process.value_or("etching");
  const auto* found = readiness::find_band(processes, wanted);
  if (found == nullptr) {
    std::string all;
    for (const auto& b : processes.bands) all += (all.empty() ? "" : ", ") + b.process;
    throw Failure(exit_status::usage, "no process \"" + wanted + "\"", "one of: " + all);
  }
  return w.water_ink ? readiness::with_water_ink(*found, processes) : *found;
}

Arrangement hold_of(const Wanted& w) {
  if (w.hold == "bench") return Arrangement::bench;
  if (w.hold == "hang") return Arrangement::hang;
  if (w.hold == "rack") return Arrangement::rack;
  if (!w.hold && w.expose && units::in_si(*w.expose) > 0) return Arrangement::bench;
  return Arrangement::covered;
}

size::Growth growth_of(const Wanted& w, const size::SheetSize& sheet,
                       const std::vector<double>& profile, const std::vector<double>& share) {
  size::Growth g = size::growth(sheet, method::equal_cells(profile, share));
  if (w.grain == "none") {
    const units::Strain mean(0.5 * (g.along.parts_of_one() + g.across.parts_of_one()));
    g = {mean, mean};
  }
  return g;
}

double mean_at(const std::vector<method::Sample>& curve, units::Duration at) {
  const auto after = std::lower_bound(curve.begin(), curve.end(), at,
                                      [](const auto& s, const auto& t) { return s.at < t; });
  if (after == curve.begin()) return curve.front().mean.parts_of_one();
  if (after == curve.end()) return curve.back().mean.parts_of_one();
  const auto before = after - 1;
  const double span = units::in_si(after->at - before->at);
  const double f = span > 0 ? units::in_si(at - before->at) / span : 1;
  return (1 - f) * before->mean.parts_of_one() + f * after->mean.parts_of_one();
}

// When a curve comes within a point of what the sheet keeps in the room.
std::optional<units::Duration> dry_at(const std::vector<method::Sample>& curve,
                                      const method::Sheet& sheet, const air::Climate& room) {
  const double kept = method::dried_moisture_si(*sheet.porous, room) + method::one_point + 1e-4;
  for (const auto& s : curve) {
    if (s.mean.parts_of_one() <= kept && !(units::in_si(s.film) > 0)) return s.at;
  }
  return std::nullopt;
}

// 10 and 90 % of times, those that never come last.
std::pair<std::optional<units::Duration>, std::optional<units::Duration>> early_and_late(
    std::vector<std::optional<units::Duration>> times) {
  if (times.empty()) return {};
  std::sort(times.begin(), times.end(),
            [](const auto& a, const auto& b) { return a && (!b || *a < *b); });
  const auto at = [&](double share) {
    return times[static_cast<std::size_t>(
        std::lround(share * static_cast<double>(times.size() - 1)))];
  };
  return {at(0.1), at(0.9)};
}

SheetAnswer answer(const Wanted& w, const material::Catalogue& catalogue, const method::Book& book,
                   Streams& io) {
  SheetAnswer a;
  auto described = paper(w, catalogue);
  a.stock = std::move(described.stock);
  a.defaults_used = std::move(described.defaults_used);
  a.band = band(w);
  auto chosen = sheet_method(w.method, a.stock, book);
  a.stages = std::move(chosen.stages);
  a.wet_stages = chosen.wet_stages;
  a.warnings = std::move(chosen.warnings);
  a.defaults_used.insert(a.defaults_used.end(), chosen.defaults_used.begin(),
                         chosen.defaults_used.end());
  a.drying = chosen.purpose == method::Purpose::drying;
  a.hold = method::left(hold_of(w), units::hours(1));
  if (a.hold.arrangement != Arrangement::covered) a.hold.name = "left " + a.hold.name;
  units::Duration first{};
  for (const auto& s : a.stages) first += s.duration;
  const bool under_cover = a.hold.arrangement == Arrangement::covered;
  const auto studio =
      sheet_air(w.air, first, first + (under_cover ? units::hours(72) : units::hours(24)), io);
  a.climate = studio.air.usual;
  a.logged = studio.air.room.logged();
  a.air_notes = studio.notes;
  a.warnings.insert(a.warnings.end(), studio.doubts.begin(), studio.doubts.end());
  a.horizon = under_cover
                  ? readiness::keeps(readiness::Store::covered, a.climate.temperature).longest
                  : units::hours(24);
  const units::Length width = w.sheet ? w.sheet->width : units::centimetres(56);
  const units::Length height = w.sheet ? w.sheet->height : units::centimetres(76);

  method::RunOptions ends_only;
  ends_only.sample_every = units::seconds(0);
  // Prints come to their drying as damp as the process wants them.
  const auto started = [&](const method::Sheet& sheet, const air::Climate& room) {
    return a.drying ? method::evenly(sheet, a.band.best.value, room.temperature)
                    : method::conditioned(sheet, room);
  };
  const std::vector<Stage> as_written = a.stages;
  const auto window_of = [&](const method::Sheet& sheet, const air::Climate& mean,
                             const air::Room& room) {
    const auto stages = method::settled(sheet, started(sheet, mean), as_written, room);
    const auto wet_end = stages.begin() + static_cast<std::ptrdiff_t>(a.wet_stages);
    const std::vector<Stage> wet(stages.begin(), wet_end);
    std::vector<Stage> waiting(wet_end, stages.end());
    waiting.push_back(a.hold);
    const auto damped = method::run(sheet, started(sheet, mean), wet, room, ends_only);
    a.blotted = damped.curve.back().at;
    return readiness::window(sheet, damped.end, waiting, room.starting(a.blotted), a.band,
                             {.horizon = a.horizon});
  };

  const method::Sheet sheet = method::sheet_of(a.stock, width, height);
  a.stages = method::settled(sheet, started(sheet, a.climate), as_written, studio.air.room);
  const readiness::Window likely =
      a.drying ? readiness::Window{} : window_of(sheet, a.climate, studio.air.room);
  // The curve goes on in the hold for the time asked for, else a little past its end.
  Stage shown = a.hold;
  shown.duration = w.expose.value_or(units::Duration{});
  if (!w.expose && a.hold.arrangement != Arrangement::covered && likely.closes) {
    units::Duration rest{};
    for (std::size_t i = a.wet_stages; i < a.stages.size(); ++i) rest += a.stages[i].duration;
    shown.duration = std::max(units::minutes(10), 1.1 * *likely.closes - rest);
  }
  std::vector<Stage> followed = as_written;
  if (units::in_si(shown.duration) > 0) {
    a.stages.push_back(shown);
    followed.push_back(shown);
  }

  double total = 0;
  for (const auto& s : a.stages) total += units::in_si(s.duration);
  method::RunOptions sampled;
  sampled.sample_every = units::seconds(std::max(60.0, total / 300));
  sampled.profile = true;
  const auto dry = started(sheet, a.climate);
  const auto history = method::run(sheet, dry, a.stages, studio.air.room, sampled);
  a.balance_error = history.balance_error;
  for (const auto& end : history.ends) {
    const auto at = std::find_if(history.curve.begin(), history.curve.end(),
                                 [&](const auto& s) { return s.at >= end.at; });
    a.stage_ends.push_back(
        static_cast<std::size_t>(std::min(at, history.curve.end() - 1) - history.curve.begin()));
  }

  sampled.profile = false;
  std::vector<std::vector<method::Sample>> curves;
  std::vector<readiness::Window> windows;
  std::vector<std::optional<units::Duration>> dries;
  auto draws = method::draws(w.samples, static_cast<unsigned>(w.seed));
  for (auto& draw : draws) {
    const auto other = method::drawn(a.stock, draw, width, height);
    const auto room = planner::likely_air(studio.air, draw);
    const auto mean = method::drawn(a.climate, draw);
    curves.push_back(method::run(other, started(other, mean), followed, room, sampled).curve);
    if (a.drying) {
      dries.push_back(dry_at(curves.back(), other, mean));
    } else {
      windows.push_back(window_of(other, mean, room));
    }
  }
  a.samples = w.samples;
  if (a.drying) {
    a.dry = dry_at(history.curve, sheet, a.climate);
    std::tie(a.dry_early, a.dry_late) = early_and_late(std::move(dries));
  } else {
    static_cast<void>(
        window_of(sheet, a.climate, studio.air.room));  // the nominal sheet's clock again
    a.forecast = readiness::summed_up(likely, std::move(windows));
  }

  size::SheetSize growing = size::new_sheet(a.stock);
  std::vector<double> means(curves.size());
  for (const auto& s : history.curve) {
    size::wet(growing, s.driest);
    SheetMoment m{
        s, growth_of(w, growing, s.profile, dry.share),
        size::curl(growing, method::equal_cells(s.profile, dry.share), a.stock.thickness.value),
        s.mean, s.mean};
    m.sample.profile.clear();
    if (!curves.empty()) {
      for (std::size_t i = 0; i < curves.size(); ++i) means[i] = mean_at(curves[i], s.at);
      std::sort(means.begin(), means.end());
      const auto at = [&](double share) {
        return units::Moisture(means[static_cast<std::size_t>(
            std::lround(share * static_cast<double>(means.size() - 1)))]);
      };
      m.low = at(0.1);
      m.high = at(0.9);
    }
    a.curve.push_back(std::move(m));
  }
  return a;
}

}  // namespace

int run_sheet(Arguments args, Streams io) {
  Wanted w;
  Options options(
      {.command = "sheet",
       .purpose = "one sheet through a method: how damp, how big, ready from when to when",
       .usage = "[OPTIONS]",
       .examples = {"dampline sheet --grammage \"300 g/m2\" --soak \"30 min\" --rest \"30 min\"",
                    "dampline sheet --stock \"gampi, 20 g/m2\" --hold bench",
                    "dampline sheet --method mist --film \"60 g/m2\" --process relief --json"}});
  options.text("stock", w.stock, "NAME", "a stock that dampline papers lists")
      .quantity("grammage", w.grammage, &units::parse_grammage, "300 g/m2",
                "weight as sold (default 300 g/m2)")
      .quantity("thickness", w.thickness, &units::parse_length, "0.55 mm",
                "dry thickness (default from the making's density)")
      .quantity("cobb", w.cobb, &units::parse_grammage, "32 g/m2",
                "water taken up by one face in 60 s (default from the sizing)")
      .word("sizing", w.sizing, {"waterleaf", "soft", "internal", "hard", "tub"},
            "how it is sized (default internal)")
      .word("furnish", w.furnish, {"cotton", "rag", "kozo", "gampi", "wood", "mixed", "wool"},
            "what it is made of (default cotton)")
      .word("making", w.making, {"hand", "mould", "machine"}, "how it is made (default mould)")
      .quantity("sheet", w.sheet, &units::parse_size, "56 x 76 cm",
                "size of the sheet (default 56 x 76 cm)")
      .word("grain", w.grain, {"long", "short", "none", "unknown"},
            "grain of the sheet; none: both directions grow alike (default unknown)");
  add_method_options(options, w.method);
  options
      .quantity("expose", w.expose, &units::parse_duration, "20 min",
                "then left in the open (default: not)")
      .word("hold", w.hold, {"covered", "bench", "hang", "rack"},
            "where it waits for its pull (default covered, or bench with --expose)");
  add_air_options(options, w.air);
  options.text("process", w.process, "NAME", "what is to be printed (default etching)")
      .flag("water-ink", w.water_ink, "the ink is water-based: a drier sheet")
      .whole("samples", w.samples, 0, 10000, "sampled sheets for the ranges")
      .whole("seed", w.seed, 0, 1000000, "of the samples")
      .text("stocks", w.stocks, "FILE", "a stocks file of your own instead of the one installed")
      .flag("json", w.json, "as JSON")
      .text("output,o", w.output, "FILE", "write to FILE (default -, standard output)");
  const auto words = with_plain_json(args);
  if (!options.parse(words, io)) return exit_status::done;
  check(w);
  const auto catalogue = load_stocks(w.stocks, io);
  const auto book = load_methods(w.method.methods, io);
  if (!catalogue || !book) return exit_status::bad_data;
  const SheetAnswer a = answer(w, *catalogue, *book, io);
  std::vector<std::string> inputs;
  if (w.stocks) inputs.push_back(*w.stocks);
  if (w.method.methods) inputs.push_back(*w.method.methods);
  if (w.air.log.readings) inputs.push_back(*w.air.log.readings);
  const bool to_terminal = w.output.value_or("-") == "-";
  write_output(w.output.value_or("-"),
               w.json ? sheet_json(a) : sheet_text(a, to_terminal ? io.columns : 80, io.utf8), io,
               inputs);
  return exit_status::done;
}

}  // namespace dampline::cli
