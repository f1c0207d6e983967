#include <dampline/report/characters.hpp>
#include <dampline/report/view_parts.hpp>
#include <dampline/units/suggest.hpp>

namespace dampline::report {

namespace {

using planner::AdvisedChange;
using planner::HalfMinutes;
using planner::Plan;

std::string clash_text(const planner::Clash& clash) {
  std::string out;
  for (const auto& demand : clash.demands) out += (out.empty() ? "" : "; ") + clean(demand);
  return out + (clash.is_minimal ? ". Without any one of them there is a plan."
                                 : ". Fewer of them may do: that is not proved.");
}

std::string gain_text(const Plan& plan, const Clock& clock, const AdvisedChange& change) {
  const auto finish = clock_text(clock, instant(plan, change.finish), Round::up);
  const auto gain = change.gain > 0
                        ? std::to_string(change.gain) + (change.gain == 1 ? " print" : " prints") +
                              " more, finished " + finish
                        : "finished " + length_text(change.gain_time) + " earlier, " + finish;
  return clean(change.change) + ": " + gain + (change.is_proved ? "." : "; more is not ruled out.");
}

}  // namespace

void add_ways(const Plan& plan, const Clock& clock, View& view) {
  view.bottleneck = clean(plan.bottleneck);
  for (const auto& clash : plan.clashes) view.clashes.push_back(clash_text(clash));
  for (const auto& day : plan.nearest) {
    view.ways_out.push_back(clean(day.change) +
                            (day.is_proved ? "." : "; perhaps less of it would do."));
  }
  if (!plan.advice) return;
  for (const auto& change : plan.advice->changes) {
    view.gains.push_back(gain_text(plan, clock, change));
  }
  if (plan.advice->changes.empty()) view.gains.push_back("No single change that was tried helps.");
  std::vector<std::string> idle;
  for (const auto& words : plan.advice->idle) idle.push_back(clean(words));
  if (!idle.empty()) view.gains.push_back("No gain from " + units::listed(idle, "", "or") + ".");
  view.gains.push_back(
      "Each was found by planning the changed day, the paper treated as now, with " +
      std::to_string(plan.advice->conflicts) + " conflicts to each question.");
}

}  // namespace dampline::report
