#include <cmath>

#include <dampline/method/blotters.hpp>
#include <dampline/method/catcher.hpp>
#include <dampline/method/drying.hpp>
#include <dampline/method/run.hpp>
#include <dampline/stack/stack.hpp>

#include "validation/checks.hpp"
#include "validation/uptake_papers.hpp"

namespace dampline::validation {
namespace {

using material::Sizing;
using tests::reference_table;

const air::Climate room;

constexpr const char* standard_blotter = "blotter, cotton, 250 g/m2";

// In the middle of a stack a print shares its blotters with its neighbours: half a print, half its
// blotters, a mirror behind each.
double after_changes(double start, int blotters, int changes) {
  const auto sheet = method::sheet_of(paper_of(Sizing::internal, 300));
  const auto blotter = method::absorbent_of(stock(standard_blotter));
  auto print = *sheet.porous;
  print.dry *= 0.5;
  print.thickness *= 0.5;
  auto absorbent = *blotter;
  absorbent.dry *= 0.5 * blotters;
  absorbent.thickness *= 0.5 * blotters;
  constexpr double dry_blotter = 0.063;
  constexpr int cells = 24;
  double moisture = start;
  for (int i = 0; i < changes; ++i) {
    stack::Stack s;
    s.layers = {{&print, material::Branch::desorption, std::vector<double>(cells, moisture),
                 stack::graded_cells(cells, 0.008, stack::Graded::right)},
                {&absorbent, material::Branch::adsorption, std::vector<double>(cells, dry_blotter),
                 stack::graded_cells(cells, 0.008, stack::Graded::left)}};
    s.contacts = {stack::conductance_si(stack::Contact::boards)};
    s.films = {{}, {}, {}};
    s.fixed_temperature = true;
    stack::advance(s, 3 * 3600);
    moisture = stack::water(s.layers[0]) / print.dry;
  }
  return moisture;
}

Check changes() {
  Check c;
  c.id = "blotter-changes";
  c.title = "A print dried between blotters, after each change";
  c.room = "method";
  c.quantity = "moisture of the print";
  c.unit = "g/g";
  c.x_label = "changes";
  c.basis = Basis::computed;
  c.files = {"blotter_changes.csv"};
  const auto table = reference_table(c.files[0]);
  c.measure = Measure::difference;
  c.allowed = table.allowed;
  c.decimals = 3;
  for (const auto& row : table) {
    const std::string name = "from " + row.field[0] + ", " + row.field[1] +
                             (row.cell[1] > 1 ? " blotters" : " blotter") + " a print";
    if (c.series.empty() || c.series.back().name != name) c.series.push_back({name, {}});
    c.series.back().points.push_back(
        {.x = row.cell[2],
         .data = row.cell[3],
         .model = after_changes(row.cell[0], static_cast<int>(row.cell[1]),
                                static_cast<int>(row.cell[2]))});
  }
  c.model = "stack::advance, 3 h a change under boards, half a print against half of its blotters";
  c.notes =
      "The table shares the water out by weight; in the model the drying print holds its last "
      "water harder than the wetting blotter, and ends a point higher.";
  return c;
}

Check capacity() {
  Check c;
  c.id = "blotter-capacity";
  c.title = "What the standard blotter can hold";
  c.room = "method";
  c.quantity = "water";
  c.unit = "g/m2";
  c.basis = Basis::computed;
  c.files = {"blotter_capacity.csv"};
  const auto table = reference_table(c.files[0]);
  c.measure = Measure::difference;
  c.rule = Rule::inside;
  c.picture = Picture::rows;
  c.decimals = 0;
  const auto blotter = method::absorbent_of(stock(standard_blotter));
  c.series = {{"", {}}};
  for (const auto& row : table) {
    c.series[0].points.push_back({.data_low = row.cell[2],
                                  .data_high = row.cell[3],
                                  .model = 1e3 * blotter->dry * blotter->saturation,
                                  .label = "250 g/m2 blotter"});
  }
  c.model = "method::absorbent_of the 250 g/m2 blotter of data/stocks.toml";
  return c;
}

struct Day {
  double sheets_a_pair, grams_when_spent, catcher_pulls, changes, days;
};

Day day() {
  const auto sheet = method::sheet_of(paper_of(Sizing::internal, 300));
  const auto stages = method::soak_blot_rest(units::minutes(30), 0, units::seconds(0));
  const auto wet = method::run(sheet, method::conditioned(sheet, room), stages, room,
                               {.sample_every = units::seconds(0)})
                       .end;
  const auto fresh = method::dry_blotters(2, room);
  const auto served = method::serve(sheet, wet, fresh, room);
  Day d{};
  d.sheets_a_pair = static_cast<double>(served.taken.size());
  constexpr double area = 0.56 * 0.76;  // m2
  d.grams_when_spent = 1e3 * area * fresh.material->dry *
                       (served.spent.parts_of_one() - fresh.each[0].parts_of_one());
  const auto damp = method::evenly(sheet, units::Moisture(0.6));
  constexpr int most = 400;
  const auto felt = method::catcher_forecast(sheet, damp, room, {}, most);
  d.catcher_pulls = felt.swap_after.value_or(most);
  method::BoardsSchedule boards;
  boards.prints = 6;
  const auto dry = method::dry_in_boards(sheet, damp, boards, room);
  d.changes = static_cast<double>(dry.changes.size());
  d.days = dry.dry ? units::in_hours(*dry.dry) / 24 : units::in_hours(boards.most) / 24;
  return d;
}

Check in_use() {
  Check c;
  c.id = "absorbents-in-use";
  c.title = "Blotters, felts and boards in a printing day";
  c.room = "method";
  c.quantity = "count, grams or days";
  c.basis = Basis::practice;
  c.files = {"absorbents_in_use.csv"};
  const auto table = reference_table(c.files[0]);
  c.measure = Measure::factor;
  c.rule = Rule::inside;
  c.allowed = table.allowed;
  c.picture = Picture::rows;
  c.log_x = true;
  c.decimals = 1;
  const Day d = day();
  const double models[] = {d.sheets_a_pair, d.grams_when_spent, d.catcher_pulls, d.changes, d.days};
  c.series = {{"", {}}};
  for (std::size_t i = 0; i < table.rows.size(); ++i) {
    c.series[0].points.push_back({.data_low = table.rows[i].cell[1],
                                  .data_high = table.rows[i].cell[2],
                                  .model = models[i],
                                  .label = table.rows[i].field[0]});
  }
  c.model =
      "300 g/m2, internal size: method::serve, spent_at, catcher_forecast, dry_in_boards (six "
      "prints, a blotter between them), each as it comes";
  c.miss =
      "a blotter counts as spent in the model when its pair takes half of what a dry one does, "
      "after 40 g; that it feels clammy at 100 to 150 g is said of blotters that stay in use long "
      "after. Three sheets a pair are the low end of practice.";
  return c;
}

}  // namespace

std::vector<Check> blotting_drying_checks() { return {changes(), capacity(), in_use()}; }

}  // namespace dampline::validation
