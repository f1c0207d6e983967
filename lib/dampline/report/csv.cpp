#include <algorithm>
#include <functional>

#include <dampline/report/characters.hpp>
#include <dampline/report/csv.hpp>
#include <dampline/report/view_parts.hpp>
#include <dampline/units/text.hpp>

namespace dampline::report {

namespace {

using planner::Plan;
using planner::ResourceKind;
using planner::Step;

bool is_person(ResourceKind kind) { return kind == ResourceKind::person; }

/// A pull's figures, or as many empty cells.
std::vector<std::string> figures(const planner::Pull* p, Separator separator) {
  const auto number = [&](double value, int decimals) {
    return csv_number(value, decimals, separator);
  };
  if (p == nullptr) return std::vector<std::string>(8);
  std::vector<std::string> out{number(p->moisture.mean.parts_of_one(), 3),
                               number(p->moisture.low.parts_of_one(), 3),
                               number(p->moisture.high.parts_of_one(), 3),
                               number(p->ready.percent(), 1),
                               number(p->along.percent(), 3),
                               number(p->across.percent(), 3),
                               "",
                               ""};
  if (p->misfit) {
    out[6] = number(units::in_millimetres(p->misfit->worst), 3);
    out[7] = number(p->misfit->within.percent(), 1);
  }
  return out;
}

}  // namespace

std::string csv_number(double value, int decimals, Separator separator) {
  std::string out = units::fixed(value, decimals);
  if (separator == Separator::semicolon) std::replace(out.begin(), out.end(), '.', ',');
  return out;
}

std::string csv_row(const std::vector<std::string>& cells, Separator separator) {
  const char between = separator == Separator::comma ? ',' : ';';
  std::string out;
  for (const auto& cell : cells) {
    if (&cell != &cells.front()) out += between;
    if (cell.find_first_of(std::string("\"\r\n") + between) == std::string::npos) {
      out += cell;
      continue;
    }
    out += '"';
    for (const char c : cell) {
      if (c == '"') out += '"';
      out += c;
    }
    out += '"';
  }
  return out + "\r\n";
}

std::string plan_csv(const Plan& plan, const Clock& clock, Separator separator) {
  std::string out = csv_row({"start",
                             "end",
                             "minutes",
                             "step",
                             "kind",
                             "what",
                             "people",
                             "uses",
                             "plate",
                             "print",
                             "sheets",
                             "cue",
                             "moisture_g_g",
                             "moisture_low_g_g",
                             "moisture_high_g_g",
                             "chance_ready_percent",
                             "growth_along_percent",
                             "growth_across_percent",
                             "misfit_worst_mm",
                             "chance_within_tolerance_percent"},
                            separator);
  for (const auto& step : plan.steps) {
    const auto pull = std::find_if(plan.pulls.begin(), plan.pulls.end(), [&](const auto& p) {
      return step.kind == "pull" && p.print == step.print && p.plate == step.plate;
    });
    std::vector<std::string> cells{rfc3339(clock, instant(plan, step.start)),
                                   rfc3339(clock, instant(plan, step.end)),
                                   csv_number((step.end - step.start).count() / 2.0, 1, separator),
                                   clean(step.id),
                                   clean(step.kind),
                                   clean(step.what),
                                   resource_names(plan, step, is_person),
                                   resource_names(plan, step, std::not_fn(is_person)),
                                   clean(step.plate),
                                   step.print > 0 ? std::to_string(step.print) : "",
                                   number_list(step.sheets),
                                   clean(step.cue)};
    const auto more = figures(pull == plan.pulls.end() ? nullptr : &*pull, separator);
    cells.insert(cells.end(), more.begin(), more.end());
    out += csv_row(cells, separator);
  }
  return out;
}

}  // namespace dampline::report
