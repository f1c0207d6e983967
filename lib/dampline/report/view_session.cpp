#include <algorithm>
#include <set>

#include <dampline/report/characters.hpp>
#include <dampline/report/svg.hpp>
#include <dampline/report/view_parts.hpp>
#include <dampline/units/text.hpp>

namespace dampline::report {

namespace {

using planner::Plan;
using session::Session;

std::string number(int n) { return std::to_string(n); }

std::set<int> sheets_of(const Plan& plan) {
  std::set<int> out;
  for (const auto& batch : plan.batches) out.insert(batch.sheets.begin(), batch.sheets.end());
  return out;
}

std::size_t largest_batch(const Plan& plan) {
  std::size_t out = 0;
  for (const auto& batch : plan.batches) out = std::max(out, batch.sheets.size());
  return out;
}

bool has_kind(const Plan& plan, const char* kind) {
  return std::any_of(plan.steps.begin(), plan.steps.end(),
                     [&](const auto& step) { return step.kind == kind; });
}

std::string size_text(const units::Size& size) {
  const auto cm = [](units::Length l) { return units::shortest(units::in_millimetres(l) / 10); };
  return cm(size.width) + " x " + cm(size.height) + " cm";
}

void lay_out(const Plan& plan, const Session& s, View& v) {
  const int sheets = static_cast<int>(sheets_of(plan).size());
  const int prints = plan.prints_planned + plan.proofs_planned;
  if (sheets == 0 || prints == 0) return;
  auto& out = v.lay_out;
  out.push_back("Paper: " + number(sheets) + " sheets, " + size_text(s.paper.sheet) +
                (s.paper.stock.empty() ? "" : ", " + clean(s.paper.stock)) +
                "; one or two more for accidents" +
                (s.paper.sheets > 0 ? " (" + number(s.paper.sheets) + " at hand)" : "") + ".");
  const auto& each = plan.supplies;
  const int wet = each.blotters_a_sheet * static_cast<int>(largest_batch(plan));
  const int boards = s.equipment.drying == session::DryingMethod::boards ? prints + 1 : 0;
  std::string blotters = "Blotters: " + number(wet) + " for the wet sheets";
  if (boards > 0) {
    blotters += ", " + number(boards) + " between the prints, and as many dry ones for each change";
  }
  if (s.equipment.blotters > 0) {
    blotters += " (" + number(s.equipment.blotters) + " at hand; dried, they serve again)";
  }
  out.push_back(blotters + ".");
  out.push_back(
      "Newsprint: " + number(each.newsprint_a_pull * static_cast<int>(plan.pulls.size())) +
      " for the pulls, and a pile to lay out and wipe on.");
  if (s.equipment.tub) {
    out.push_back("Tub with water of " + units::text(s.equipment.tub->water) +
                  "; plastic and a board to cover the damp stack.");
  } else {
    out.push_back(
        "Clean water and a sponge or fine spray; plastic and a board to cover the damp "
        "stack.");
  }
  if (boards > 0) {
    out.push_back("Boards: two, with weight; tissue: " + number(each.tissue_a_print * prints) +
                  ".");
  } else {
    out.push_back("Room to dry " + number(prints) + " prints.");
  }
  for (const auto& plate : s.plates) {
    out.push_back("Plate " + clean(plate.name) + ", " + size_text(plate.size) + ", " +
                  clean(plate.process) + "; its " + clean(plate.ink) + " ink.");
  }
  if (has_kind(plan, "wipe")) {
    out.push_back(
        "Tarlatan or rags: " + number(each.pads_a_plate * static_cast<int>(s.plates.size())) +
        " pads, " + number(each.pads_a_plate) + " for each plate; card or dabber.");
  }
  out.push_back("Rags to clean with, vegetable oil, gloves, a closed metal can for what is oily.");
  out.push_back("Pencil, this sheet, clock, hygrometer; register sheet under acetate.");
  v.lay_out.push_back("Counts are common practice, no published source.");
}

void sketch(const Plan& plan, const Session& s, View& v) {
  const planner::Pull* worst = nullptr;
  for (const auto& pull : plan.pulls) {
    if (pull.misfit && (worst == nullptr || pull.misfit->worst > worst->misfit->worst)) {
      worst = &pull;
    }
  }
  if (worst == nullptr) return;
  const auto plate = std::find_if(s.plates.begin(), s.plates.end(),
                                  [&](const auto& p) { return p.name == worst->plate; });
  if (plate == s.plates.end()) return;
  RegisterSketch out;
  const auto [sheet_short, sheet_long] = std::minmax(
      {units::in_millimetres(s.paper.sheet.width), units::in_millimetres(s.paper.sheet.height)});
  const auto [plate_short, plate_long] = std::minmax(
      {units::in_millimetres(plate->size.width), units::in_millimetres(plate->size.height)});
  out.sheet_short = sheet_short;
  out.sheet_long = sheet_long;
  out.plate_short = plate_short;
  out.plate_long = plate_long;
  out.grain_long = s.paper.grain == session::Grain::along_long_side;
  out.grain_known = out.grain_long || s.paper.grain == session::Grain::along_short_side;
  out.worst = units::in_millimetres(worst->misfit->worst);
  out.tolerance = units::in_millimetres(s.registering.tolerance);
  out.plate = clean(worst->plate);
  const std::string off = units::fixed(out.worst, 2) + " mm";
  const std::string pass = units::shortest(out.tolerance) + " mm";
  out.caption = "Sheet and plate to scale. Ring: the " + pass + " let pass. Disc: the " + off +
                " the image may lie off. Both " + units::shortest(sketch_scale(out)) +
                " times too large. Strokes: the grain. Which way each corner goes: dampline size "
                "FILE --svg.";
  out.description = out.plate + " on the image before it: " + off + " off at the worst corner, " +
                    pass + " let pass.";
  v.sketch = out;
}

}  // namespace

void add_session(const Plan& plan, const Session& session, View& v) {
  lay_out(plan, session, v);
  sketch(plan, session, v);
}

}  // namespace dampline::report
