#include <cmath>

#include <dampline/readiness/limits.hpp>
#include <dampline/units/text.hpp>

#include "validation/checks.hpp"
#include "validation/papers.hpp"

namespace dampline::validation {
namespace {

using tests::reference_table;

double keeps(double celsius) {
  return units::in_hours(
      readiness::keeps(readiness::Store::covered, units::celsius(celsius)).longest);
}

double likely(double celsius, double activity) {
  return units::in_hours(readiness::mould_likely_after(units::celsius(celsius), activity).value());
}

std::string damp(double celsius, double activity) {
  return units::shortest(celsius) + " degC, activity " + units::fixed(activity, 2);
}

// Safe is no later than the rule: the range runs from nothing to it.
Check rules() {
  Check c =
      check_on("mould_rules.csv", "mould-rules", "Mould: a pack is given up in time", "readiness");
  c.quantity = "hours";
  c.basis = Basis::practice;
  c.measure = Measure::difference;
  c.rule = Rule::inside;
  c.picture = Picture::rows;
  c.decimals = 0;
  Series packs{"keep-until of a covered pack", {}};
  Series clock{"clock of mould", {}};
  for (const auto& row : reference_table(c.files[0])) {
    Point p{.data = row.cell[3], .data_low = 0, .data_high = row.cell[3], .label = row.field[0]};
    p.model = keeps(row.cell[1]);
    packs.points.push_back(p);
    p.model = likely(row.cell[1], row.cell[2]);
    clock.points.push_back(p);
  }
  c.series = {packs, clock};
  c.model = "readiness::keeps and readiness::mould_likely_after";
  c.notes =
      "Conservators' rules, published, not measurements. The clock is anchored on the first of "
      "them. Earlier is safer: the bias is how many hours before the rule paper is given up.";
  return c;
}

Check caution() {
  Check c = check_on("mould_caution.csv", "mould-caution", "Clock of mould by warmth and damp",
                     "readiness");
  c.quantity = "hours";
  c.picture = Picture::rows;
  c.decimals = 0;
  Series s{"by hand", {}};
  for (const auto& row : reference_table(c.files[0])) {
    s.points.push_back({.data = row.cell[2],
                        .model = likely(row.cell[0], row.cell[1]),
                        .label = damp(row.cell[0], row.cell[1])});
  }
  c.series = {s};
  c.model = "readiness::mould_likely_after";
  return c;
}

// The law is for wood; conservators see mould on sized rag three to five times as soon, and the
// program goes by them.
Check growth_law() {
  Check c = check_on("mould_growth.csv", "mould-growth-law", "Clock of mould against a growth law",
                     "readiness");
  c.quantity = "hours until mould shows";
  c.x_label = "humidity, %";
  c.basis = Basis::formula;
  c.measure = Measure::factor;
  c.allowed = 0;
  c.log_y = true;
  c.decimals = 0;
  for (const auto& row : reference_table(c.files[0])) {
    const auto name = row.field[0] + " degC";
    if (c.series.empty() || c.series.back().name != name) c.series.push_back({name, {}});
    c.series.back().points.push_back({.x = row.cell[1],
                                      .data = 24 * row.cell[2],
                                      .model = likely(row.cell[0], row.cell[1] / 100)});
  }
  c.model = "readiness::mould_likely_after";
  c.notes =
      "Shorter on purpose: the law is for pine, and conservators see mould on gelatine-sized "
      "rag after 48 h where it says a week. The scatter shows that the program keeps the "
      "law's ratios.";
  return c;
}

}  // namespace

std::vector<Check> mould_checks() { return {rules(), growth_law(), caution()}; }

}  // namespace dampline::validation
