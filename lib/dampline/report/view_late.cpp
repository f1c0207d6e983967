#include <algorithm>

#include <dampline/report/characters.hpp>
#include <dampline/report/view_parts.hpp>

namespace dampline::report {

std::vector<Fact> late_facts(const planner::Plan& plan, const Clock& clock) {
  const auto& late = *plan.late;
  std::vector<Fact> out;
  out.push_back(
      {"Planned again", clock_text(clock, instant(plan, late.at)),
       std::to_string(late.done) + " steps done, " + std::to_string(late.running) + " running"});
  const auto next = std::find_if(plan.pulls.begin(), plan.pulls.end(),
                                 [&](const auto& pull) { return pull.at >= late.at; });
  if (next != plan.pulls.end()) {
    out.push_back({"Next pull", clock_text(clock, instant(plan, next->at)), pull_name(*next)});
  }
  return out;
}

namespace {

struct Told {
  std::string before, after;  // the numbers of the sheets stand between them
  bool planned = false;
  std::vector<int> sheets;
};

// What is told of several sheets in the same words is told once.
std::vector<std::string> rescues(const planner::LateDay& late) {
  std::vector<Told> told;
  for (const auto& rescue : late.rescues) {
    Told one{clean(rescue.text), "", !rescue.step.empty(), {}};
    if (rescue.sheets.size() == 1) {
      const auto name = "heet " + std::to_string(rescue.sheets.front());
      if (const auto at = one.before.find(name); at != std::string::npos) {
        one.after = one.before.substr(at + name.size());
        one.before.resize(at);
        one.sheets = rescue.sheets;
      }
    }
    const auto same = std::find_if(told.begin(), told.end(), [&](const Told& t) {
      return !one.sheets.empty() && t.before == one.before && t.after == one.after &&
             t.planned == one.planned;
    });
    if (same != told.end()) {
      same->sheets.push_back(one.sheets.front());
    } else {
      told.push_back(std::move(one));
    }
  }
  std::vector<std::string> out;
  for (const auto& t : told) {
    const std::string number =
        t.sheets.empty() ? "" : (t.sheets.size() == 1 ? "heet " : "heets ") + number_list(t.sheets);
    const std::string each = t.sheets.size() > 1 ? " (each)" : "";
    out.push_back(t.before + number + each + t.after + (t.planned ? " It is in the plan." : ""));
  }
  return out;
}

}  // namespace

std::vector<std::string> late_lines(const planner::Plan& plan, const Clock& clock) {
  if (!plan.late) return {};
  const auto& late = *plan.late;
  const auto at = [&](planner::HalfMinutes t) {
    return clock_text(clock, instant(plan, t), Round::up);
  };
  std::vector<std::string> out;
  if (plan.pulls.empty()) {
    out.push_back("Nothing can be printed any more today.");
  } else {
    out.push_back("Cleaned up at " + at(plan.finish) + "; this morning it was " +
                  at(late.finish_before) + ".");
  }
  if (late.lost.empty()) {
    out.push_back("Nothing that was planned this morning is lost.");
  } else {
    const int before = late.prints_before + late.proofs_before;
    out.push_back("Lost: print" + std::string(late.lost.size() == 1 ? " " : "s ") +
                  number_list(late.lost) + ", of the " + std::to_string(before) +
                  " prints and proofs planned this morning.");
  }
  for (auto& line : rescues(late)) out.push_back(std::move(line));
  for (const auto& note : late.notes) out.push_back(clean(note));
  return out;
}

std::vector<std::string> next_day_lines(const planner::Plan& plan) {
  if (!plan.resume) return {};
  std::vector<std::string> out{
      "Write into the session of the next day, under [edition], with the date, and in place of the "
      "prints and proofs asked for now those that came out well:"};
  std::string line;
  for (const char c : plan.resume->lines + "\n") {
    if (c != '\n') {
      line += c;
      continue;
    }
    out.push_back(clean(line));
    line.clear();
  }
  out.push_back(
      "The sheets are damped again then, and the misfit of the next plate is reckoned against the "
      "size they had at their first pull. Two pencil marks, measured then and now, know better.");
  return out;
}

}  // namespace dampline::report
