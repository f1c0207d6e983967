#include <algorithm>
#include <optional>

#include <dampline/report/characters.hpp>
#include <dampline/report/view.hpp>
#include <dampline/report/view_parts.hpp>
#include <dampline/units/text.hpp>

namespace dampline::report {

namespace {

using planner::HalfMinutes;
using planner::Plan;

std::string starting_label(const std::string& kind) {
  if (kind == "load" || kind == "soak") return "Start soaking";
  if (kind == "pack") return "Lay the damp pack";
  return "Start damping";
}

/// The first touch of water: a step if one says so, else the batches' own record.
std::optional<Fact> first_water(const Plan& plan, const Clock& clock) {
  std::optional<HalfMinutes> at;
  std::string label = "Start damping";
  for (const auto& step : plan.steps) {
    if (family_of(step.kind) != Family::damp || (at && step.start >= *at)) continue;
    at = step.start;
    label = starting_label(step.kind);
  }
  for (const auto& batch : plan.batches) {
    if (!at || batch.wet_from < *at) at = batch.wet_from;
  }
  if (!at) return std::nullopt;
  const Instant when = instant(plan, *at);
  const bool same_day = local_day(clock, when) == local_day(clock, plan.opens);
  return Fact{label, clock_text(clock, when), same_day ? "" : short_date_text(clock, when)};
}

Fact finish_fact(const Plan& plan, const Clock& clock) {
  const HalfMinutes in_hand = plan.until - plan.finish;
  const std::string out_by = "out by " + clock_text(clock, instant(plan, plan.until));
  const bool late = in_hand < HalfMinutes(0);
  std::string note = out_by;
  if (in_hand.count() != 0) note += ", " + length_text(in_hand) + (late ? " over" : " in hand");
  return {"Cleaned up", clock_text(clock, instant(plan, plan.finish), Round::up), note, late};
}

std::optional<Fact> stack_fact(const Plan& plan, const Clock& clock) {
  const auto stack = std::find_if(plan.after.begin(), plan.after.end(),
                                  [](const auto& step) { return step.kind == "stack"; });
  if (stack == plan.after.end()) return std::nullopt;
  const Instant at = instant(plan, plan.finish) + stack->since_finish;
  const std::string day = short_date_text(clock, at);  // "Sat 28 Mar"
  return Fact{"Stack from", day.substr(4), day.substr(0, 3) + ", in tissue; look first"};
}

std::vector<Fact> facts(const Plan& plan, const Clock& clock) {
  std::vector<Fact> out;
  if (plan.late) {
    out = late_facts(plan, clock);
  } else if (auto water = first_water(plan, clock)) {
    out.push_back(std::move(*water));
  }
  if (!plan.pulls.empty()) {
    const auto& first = plan.pulls.front();
    const auto& last = plan.pulls.back();
    if (!plan.late) {
      out.push_back({"First pull", clock_text(clock, instant(plan, first.at)), pull_name(first)});
    }
    out.push_back({"Last pull", clock_text(clock, instant(plan, last.at)), pull_name(last)});
  }
  if (!plan.pulls.empty()) out.push_back(finish_fact(plan, clock));
  const auto count = [](int planned, int asked) {
    return std::to_string(planned) + " of " + std::to_string(asked);
  };
  std::string proofs;
  if (plan.proofs_asked > 0 || plan.proofs_planned > 0) {
    proofs = "and " + count(plan.proofs_planned, plan.proofs_asked) +
             (plan.proofs_asked == 1 ? " proof" : " proofs");
  }
  const bool fewer =
      plan.prints_planned < plan.prints_asked || plan.proofs_planned < plan.proofs_asked;
  out.push_back({"Prints", count(plan.prints_planned, plan.prints_asked), proofs, fewer});
  if (auto stacking = stack_fact(plan, clock)) out.push_back(std::move(*stacking));
  return out;
}

std::string verdict(const Plan& plan, const Clock& clock) {
  if (plan.pulls.empty()) return "Nothing can be printed as asked: the warnings say why.";
  const int missing = plan.prints_asked - plan.prints_planned;
  std::string out = missing <= 0
                        ? "Everything asked for fits."
                        : std::to_string(missing) + " of the " + std::to_string(plan.prints_asked) +
                              " prints asked for do not fit.";
  if (missing <= 0 && plan.proofs_planned < plan.proofs_asked) out = "Not all proofs fit.";
  if (plan.proved) return out + " No plan of as many prints ends earlier.";
  return out + " No plan of as many prints can end before " +
         clock_text(clock, instant(plan, plan.bound_finish)) + ".";
}

PullRow pull_row(const Plan& plan, const Clock& clock, const planner::Pull& pull) {
  const auto at = [&](HalfMinutes t) {
    const auto when = instant(plan, t);
    const bool same_day = local_day(clock, when) == local_day(clock, instant(plan, pull.at));
    // A window reaches into other days: their name says enough.
    return same_day ? clock_text(clock, when) : short_date_text(clock, when).substr(0, 3);
  };
  const auto share = [](units::Moisture m) { return units::fixed(m.parts_of_one(), 2); };
  PullRow row;
  row.label = print_label(pull.print, pull.proof);
  row.number = std::to_string(pull.print) + (pull.proof ? " proof" : "");
  row.plate = clean(pull.plate);
  row.printer = clean(pull.printer);
  row.sheet = pull.sheet > 0 ? std::to_string(pull.sheet) : "";
  row.at = at(pull.at);
  row.ready_from = at(pull.ready_from);
  row.ready_until = at(pull.ready_until);
  row.moisture = share(pull.moisture.mean);
  row.band = share(pull.moisture.low) + "-" + share(pull.moisture.high);
  row.chance = chance_text(pull.ready);
  row.along = units::text(pull.along);
  row.across = units::text(pull.across);
  if (pull.misfit) {
    row.misfit = units::fixed(units::in_millimetres(pull.misfit->worst), 2) + " mm";
    row.within = chance_text(pull.misfit->within);
  }
  if (pull.at < pull.ready_from) {
    row.note = "before its paper is printable";
  } else if (pull.at > pull.ready_until) {
    row.note = "after its paper has dried too far";
  } else if (pull.ready.parts_of_one() < 0.5) {
    row.note = "less likely printable than not";
  }
  return row;
}

AfterRow after_row(const Plan& plan, const Clock& clock, const planner::AfterStep& step) {
  const Instant end = instant(plan, plan.finish);
  const Instant at = end + step.since_finish;
  std::string when = short_date_text(clock, at);
  if (step.since_finish < std::chrono::hours(48)) when += ", " + clock_text(clock, at);
  return {when, clean(step.what), clean(step.basis)};
}

std::vector<std::string> cleaned(const std::vector<std::string>& lines) {
  std::vector<std::string> out;
  for (const auto& line : lines) out.push_back(clean(line));
  return out;
}

}  // namespace

std::string pull_name(const planner::Pull& pull) {
  return clean(pull.plate) + ", " + print_label(pull.print, pull.proof);
}

std::string print_label(int print, bool proof) {
  return "print " + std::to_string(print) + (proof ? " (proof)" : "");
}

std::string chance_text(units::Chance chance) {
  const double percent = chance.percent();
  if (percent > 99) return ">99 %";
  if (percent < 1) return "<1 %";
  return units::fixed(percent, 0) + " %";
}

View view(const Plan& plan, const Clock& clock) {
  View v;
  v.title = clean(plan.title.empty() ? "A printing day" : plan.title);
  v.date = date_text(clock, plan.opens);
  v.zone = clean(plan.zone);
  v.facts = facts(plan, clock);
  v.verdict = verdict(plan, clock);
  v.summary = cleaned(plan.summary);
  v.paper = paper_batches(plan, clock);
  v.steps = step_blocks(plan, clock);
  v.chart = chart(plan, clock);
  for (const auto& pull : plan.pulls) {
    v.pulls.push_back(pull_row(plan, clock, pull));
    v.any_misfit = v.any_misfit || pull.misfit.has_value();
  }
  v.pulls_note =
      "Estimates. Moisture is water by weight of dry paper; of ten likely sheets eight lie in the "
      "band. Chance: that the sheet is found printable. Growth is from the dry sheet, along and "
      "across the grain.";
  if (v.any_misfit) {
    v.pulls_note +=
        " Misfit: this plate against the first, at the worst corner, before the error of placing; "
        "then the chance that it stays within the tolerance.";
  }
  v.late = late_lines(plan, clock);
  add_ways(plan, clock, v);
  for (const auto& s : plan.short_of) v.short_of.push_back(clean(s.text));
  for (const auto& w : plan.warnings) v.warnings.push_back({clean(w.text), clean(w.help)});
  for (const auto& step : plan.after) v.after.push_back(after_row(plan, clock, step));
  if (!plan.after.empty()) v.after_basis = "Dates: " + clean(plan.after.front().basis) + ".";
  v.next_day = next_day_lines(plan);
  for (const auto& c : plan.cautions) v.cautions.push_back(clean(c.text));
  v.assumptions = cleaned(plan.assumptions);
  if (plan.climate) v.air = cleaned(plan.climate->notes);
  v.defaults = cleaned(plan.defaults_used);
  v.touch_test = "The touch test has the last word: limp, cool, no shine.";
  add_sheets(plan, clock, v);
  add_fit(plan, v);
  v.script_data = script_data(plan, clock, v);
  v.footer =
      "Planning aid only. Touch-test the paper. Follow local codes, your workshop's rules, machine "
      "maker's instructions and each product's SDS. It does not set press pressure.";
  return v;
}

}  // namespace dampline::report
