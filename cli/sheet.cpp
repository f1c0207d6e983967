#include <algorithm>
#include <cmath>
#include <ostream>

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
#include "options.hpp"
#include "output_file.hpp"
#include "sheet_answer.hpp"
#include "stocks_file.hpp"

namespace dampline::cli {
namespace {

using method::Arrangement;
using method::Stage;

struct Wanted {
  std::optional<std::string> stock, stocks, sizing, furnish, making, grain, method, hold, movement;
  std::optional<std::string> process, output;
  std::optional<units::Grammage> grammage, cobb, film;
  std::optional<units::Length> thickness;
  std::optional<units::Size> sheet;
  std::optional<units::Duration> soak, rest, expose;
  std::optional<units::Temperature> temperature, water;
  std::optional<units::RelativeHumidity> humidity;
  int blot = 2;
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
  hours("--soak", w.soak, 72);
  hours("--rest", w.rest, 240);
  hours("--expose", w.expose, 240);
  if (w.temperature) within("--temperature", units::in_celsius(*w.temperature), 0, 45, "degC");
  if (w.water) within("--water", units::in_celsius(*w.water), 0, 60, "degC");
  if (w.film) within("--film", units::in_grams_per_m2(*w.film), 0, 1000, "g/m2");
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

// Soak lengths the trade starts from: common practice, no published source.
units::Duration usual_soak(const material::Stock& stock) {
  switch (stock.sizing) {
    case material::Sizing::waterleaf:
      return units::minutes(1);
    case material::Sizing::soft:
      return units::minutes(10);
    case material::Sizing::hard:
    case material::Sizing::tub:
      return units::minutes(60);
    case material::Sizing::internal:
      break;
  }
  return units::minutes(30);
}

std::vector<Stage> stages_of(const Wanted& w, SheetAnswer& a) {
  std::string way = w.method.value_or("");
  if (way.empty()) {
    way = readiness::tub_limit(a.stock) ? "soak" : "mist";
    a.defaults_used.push_back("method = " + way);
  }
  const auto or_default = [&](const auto& given, auto value, const char* key) {
    if (given) return *given;
    a.defaults_used.push_back(std::string(key) + " = " + units::text(value));
    return value;
  };
  const units::Duration rest =
      or_default(w.rest, way == "pack" ? units::hours(12) : units::minutes(30), "rest");
  if (way == "soak") {
    const auto soak = or_default(w.soak, usual_soak(a.stock), "soak");
    const auto water = w.water.value_or(units::celsius(18));
    for (const auto& danger : readiness::dangers_of_soaking(a.stock, soak, water)) {
      a.warnings.push_back(danger.text + ": " + danger.help);
    }
    return method::soak_blot_rest(soak, w.blot, rest, water);
  }
  if (way == "pack") {
    const auto wet = units::Moisture(0.9 * a.stock.accessible.value.parts_of_one());
    return method::damp_pack(wet, 1, rest);
  }
  // A third of the dry weight: 550 g/m2 of paper are damped by one sponge pass of about 180 g/m2.
  const double third = 0.33 * units::in_grams_per_m2(a.stock.grammage.value);
  const auto film = or_default(w.film, units::grams_per_m2(third), "film");
  auto stages = way == "sponge" ? method::sponge_rest(film, rest) : method::mist_rest(film, rest);
  return stages;
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

SheetAnswer answer(const Wanted& w, const material::Catalogue& catalogue) {
  SheetAnswer a;
  auto described = paper(w, catalogue);
  a.stock = std::move(described.stock);
  a.defaults_used = std::move(described.defaults_used);
  a.band = band(w);
  a.climate.temperature = w.temperature.value_or(units::celsius(20));
  a.climate.humidity = w.humidity.value_or(units::RelativeHumidity(0.5));
  a.climate.air = w.movement == "still" ? air::AirMovement::still
                  : w.movement == "fan" ? air::AirMovement::fan
                                        : air::AirMovement::ordinary;
  a.stages = stages_of(w, a);
  for (std::size_t i = 0; i < a.stages.size(); ++i) {
    if (a.stages[i].arrangement != Arrangement::covered) a.wet_stages = i + 1;
  }
  a.hold = method::left(hold_of(w), units::hours(1));
  if (a.hold.arrangement != Arrangement::covered) a.hold.name = "left " + a.hold.name;
  a.horizon = a.hold.arrangement == Arrangement::covered
                  ? readiness::keeps(readiness::Store::covered, a.climate.temperature).longest
                  : units::hours(24);
  const units::Length width = w.sheet ? w.sheet->width : units::centimetres(56);
  const units::Length height = w.sheet ? w.sheet->height : units::centimetres(76);

  method::RunOptions ends_only;
  ends_only.sample_every = units::seconds(0);
  // Copies: a.stages grows below.
  const auto wet_end = a.stages.begin() + static_cast<std::ptrdiff_t>(a.wet_stages);
  const std::vector<Stage> wet(a.stages.begin(), wet_end);
  std::vector<Stage> waiting(wet_end, a.stages.end());
  waiting.push_back(a.hold);
  const auto window_of = [&](const method::Sheet& sheet, const air::Climate& room) {
    const auto damped = method::run(sheet, method::conditioned(sheet, room), wet, room, ends_only);
    a.blotted = damped.curve.back().at;
    return readiness::window(sheet, damped.end, waiting, room, a.band, {.horizon = a.horizon});
  };

  const method::Sheet sheet = method::sheet_of(a.stock, width, height);
  const readiness::Window likely = window_of(sheet, a.climate);
  // The curve goes on in the hold for the time asked for, else a little past its end.
  Stage shown = a.hold;
  shown.duration = w.expose.value_or(units::Duration{});
  if (!w.expose && a.hold.arrangement != Arrangement::covered && likely.closes) {
    units::Duration rest{};
    for (std::size_t i = a.wet_stages; i < a.stages.size(); ++i) rest += a.stages[i].duration;
    shown.duration = std::max(units::minutes(10), 1.1 * *likely.closes - rest);
  }
  if (units::in_si(shown.duration) > 0) a.stages.push_back(shown);

  double total = 0;
  for (const auto& s : a.stages) total += units::in_si(s.duration);
  method::RunOptions sampled;
  sampled.sample_every = units::seconds(std::max(60.0, total / 300));
  sampled.profile = true;
  const auto dry = method::conditioned(sheet, a.climate);
  const auto history = method::run(sheet, dry, a.stages, a.climate, sampled);
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
  const auto draws = method::draws(w.samples, static_cast<unsigned>(w.seed));
  for (const auto& draw : draws) {
    const auto other = method::drawn(a.stock, draw, width, height);
    const auto room = method::drawn(a.climate, draw);
    curves.push_back(
        method::run(other, method::conditioned(other, room), a.stages, room, sampled).curve);
    windows.push_back(window_of(other, room));
  }
  a.samples = w.samples;
  static_cast<void>(window_of(sheet, a.climate));  // the nominal sheet's clock again
  a.forecast = readiness::summed_up(likely, std::move(windows));

  size::SheetSize growing = size::new_sheet(a.stock);
  std::vector<double> means(curves.size());
  for (const auto& s : history.curve) {
    size::wet(growing, s.driest);
    SheetMoment m{s, growth_of(w, growing, s.profile, dry.share), s.mean, s.mean};
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
            "grain of the sheet; none: both directions grow alike (default unknown)")
      .word("method", w.method, {"soak", "sponge", "mist", "pack"},
            "how it is damped (default soak; mist where the tub would spoil it)")
      .quantity("soak", w.soak, &units::parse_duration, "30 min",
                "time in the tub (default 10 to 60 min by sizing)")
      .quantity("water", w.water, &units::parse_temperature, "18 degC",
                "of the tub (default 18 degC)")
      .quantity("film", w.film, &units::parse_grammage, "100 g/m2",
                "water sponged or misted on (default a third of the sheet's weight)")
      .whole("blot", w.blot, 0, 20, "passes between dry blotters")
      .quantity("rest", w.rest, &units::parse_duration, "30 min",
                "covered, after blotting (default 30 min; a pack 12 h)")
      .quantity("expose", w.expose, &units::parse_duration, "20 min",
                "then left in the open (default: not)")
      .word("hold", w.hold, {"covered", "bench", "hang", "rack"},
            "where it waits for its pull (default covered, or bench with --expose)")
      .quantity("temperature", w.temperature, &units::parse_temperature, "20 degC",
                "of the room, 0 to 45 degC (default 20 degC)")
      .quantity("humidity", w.humidity, &units::parse_humidity, "50 %",
                "of the room (default 50 %)")
      .word("air", w.movement, {"still", "ordinary", "fan"}, "how the air moves (default ordinary)")
      .text("process", w.process, "NAME", "what is to be printed (default etching)")
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
  if (!catalogue) return exit_status::bad_data;
  const SheetAnswer a = answer(w, *catalogue);
  std::vector<std::string> inputs;
  if (w.stocks) inputs.push_back(*w.stocks);
  const bool to_terminal = w.output.value_or("-") == "-";
  write_output(w.output.value_or("-"),
               w.json ? sheet_json(a) : sheet_text(a, to_terminal ? io.columns : 80, io.utf8), io,
               inputs);
  return exit_status::done;
}

}  // namespace dampline::cli
