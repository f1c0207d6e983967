#include <algorithm>
#include <cmath>

#include <dampline/method/draw.hpp>
#include <dampline/method/run.hpp>

#include "validation/checks.hpp"
#include "validation/uptake_papers.hpp"

namespace dampline::validation {
namespace {

using material::Sizing;
using tests::reference_table;

// Minutes in the tub until a sheet has taken up nine tenths of what it will.
double minutes_to_full(const method::Sheet& sheet, double celsius) {
  const air::Climate room;
  auto state = method::conditioned(sheet, room);
  const double dry = method::sample_of(state).mean.parts_of_one();
  const auto filled = [&](const method::State& s) {
    return (method::sample_of(s).mean.parts_of_one() - dry) / (sheet.porous->saturation - dry);
  };
  double minutes = 0, before = 0, step = 0.05;
  while (minutes < 60 * 24 * 10) {
    auto tub = method::left(method::Arrangement::tub, units::minutes(step));
    tub.water = units::celsius(celsius);
    const method::Stage stages[] = {tub};
    const auto next =
        method::run(sheet, state, stages, room, {.sample_every = units::seconds(0)}).end;
    const double now = filled(next);
    if (now >= 0.9) return minutes + step * (0.9 - before) / (now - before);
    minutes += step;
    before = now;
    state = next;
    step = std::max(0.05, 0.15 * minutes);
  }
  return minutes;
}

material::Furnish furnish_named(const std::string& word) { return *material::furnish_from(word); }
material::Making making_named(const std::string& word) { return *material::making_from(word); }

struct Band {
  double low, middle, high;
};

// 10, 50 and 90 % of drawn sheets, the weight of the class drawn with them.
Band band(const tests::ReferenceRow& row) {
  constexpr int sheets = 256;
  const double light = row.cell[4], heavy = row.cell[5];
  std::vector<double> minutes;
  const auto draws = method::draws(sheets, 1);
  for (std::size_t i = 0; i < draws.size(); ++i) {
    // The class's weights evenly, in an order of their own (golden section).
    const double part = std::fmod(0.6180339887 * static_cast<double>(i + 1), 1.0);
    const auto stock = paper_of(sizing_named(row.field[3]), light + part * (heavy - light),
                                furnish_named(row.field[1]), making_named(row.field[2]));
    minutes.push_back(minutes_to_full(method::drawn(stock, draws[i]), 18));
  }
  std::sort(minutes.begin(), minutes.end());
  return {minutes[sheets / 10], minutes[sheets / 2], minutes[sheets - 1 - sheets / 10]};
}

Check trade() {
  Check c;
  c.id = "soak-times";
  c.title = "Time in the tub, against what printers do";
  c.room = "method";
  c.quantity = "time in the tub";
  c.unit = "min";
  c.basis = Basis::practice;
  c.files = {"soak_times.csv"};
  const auto table = reference_table(c.files[0]);
  c.measure = Measure::factor;
  c.rule = Rule::inside;
  c.allowed = table.allowed;
  c.own = std::log(2);
  c.own_why = "sources give 3 minutes to a night for like weights";
  c.picture = Picture::rows;
  c.log_x = true;
  c.decimals = 1;
  c.series = {{"", {}}};
  for (const auto& row : table) {
    const Band b = band(row);
    auto& points = c.series[0].points;
    points.push_back({.model = b.low, .label = row.field[0] + ": 1 in 10 full"});
    points.push_back({.data = row.cell[7],
                      .data_low = row.cell[6],
                      .data_high = row.cell[8],
                      .model = b.middle,
                      .label = row.field[0] + ": half full"});
    points.push_back({.model = b.high, .label = row.field[0] + ": 9 in 10 full"});
  }
  c.model =
      "256 drawn sheets a class (method::drawn), 18 degC; minutes until nine tenths of what "
      "each will take up";
  c.notes =
      "Strokes are the time that the quickest tenth, half, and nine tenths of a class's sheets "
      "need; "
      "held to the trade's times is the middle one. It lies at the trade's short end, a third of "
      "the "
      "usual time: printers soak until the sheet is surely soft, pile and all, not until nine "
      "tenths "
      "of its water is in. The usual time comes close to what nine in ten sheets need, and a sheet "
      "that fills its pores in the end (docs/model.md) needs about three times as long as one that "
      "does not. The plan's soak times are the trade's own, not these.";
  return c;
}

Check computed() {
  Check c;
  c.id = "minutes-to-full";
  c.title = "Minutes until nine tenths full, against plain diffusion";
  c.room = "method";
  c.quantity = "time";
  c.unit = "min";
  c.x_label = "weight, g/m2";
  c.basis = Basis::computed;
  c.files = {"minutes_to_full.csv"};
  const auto table = reference_table(c.files[0]);
  c.measure = Measure::factor;
  c.allowed = table.allowed;
  c.log_y = true;
  c.decimals = 1;
  for (const auto sizing : {Sizing::hard, Sizing::internal, Sizing::soft}) {
    Series s{std::string(material::word(sizing)), {}};
    for (const auto& row : table) {
      if (sizing_named(row.field[0]) != sizing) continue;
      const auto sheet = method::sheet_of(paper_of(sizing, row.cell[1]));
      s.points.push_back(
          {.x = row.cell[1], .data = row.cell[2], .model = minutes_to_full(sheet, 20)});
    }
    c.series.push_back(s);
  }
  c.model = "method::run in water at 20 degC, class values";
  return c;
}

}  // namespace

std::vector<Check> soak_times_checks() { return {trade(), computed()}; }

}  // namespace dampline::validation
