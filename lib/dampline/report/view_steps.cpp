#include <algorithm>
#include <set>

#include <dampline/report/characters.hpp>
#include <dampline/report/view_parts.hpp>

namespace dampline::report {

namespace {

using planner::HalfMinutes;
using planner::Plan;
using planner::ResourceKind;
using planner::Step;

auto is(ResourceKind kind) {
  return [kind](ResourceKind other) { return other == kind; };
}

bool names_sheets(const std::string& text) {
  for (const std::string_view word : {"sheet ", "sheets "}) {
    const auto at = text.find(word);
    const auto next = at + word.size();
    if (at != std::string::npos && next < text.size() && text[next] >= '0' && text[next] <= '9') {
      return true;
    }
  }
  return false;
}

/// The step's own words, with the sheets where they have to be picked out: not again for the steps
/// of a print once its sheet lies on the bed.
std::string with_sheets(const Step& step) {
  std::string out = clean(step.what);
  const bool picked = step.print > 0 && step.kind != "place";
  if (step.sheets.empty() || picked || names_sheets(out)) return out;
  return out + (step.sheets.size() == 1 ? ", sheet " : ", sheets ") + number_list(step.sheets);
}

class Rows {
 public:
  Rows(const Plan& plan, const Clock& clock) : plan_(plan), clock_(clock) {
    presses_ = std::count_if(plan.resources.begin(), plan.resources.end(),
                             [](const auto& r) { return r.kind == ResourceKind::press; });
  }

  StepRow row(const Step& step) {
    StepRow out;
    out.id = clean(step.id);
    out.start = step.start;
    out.end = step.end;
    out.from = clock_text(clock_, instant(plan_, step.start));
    out.until = clock_text(clock_, instant(plan_, step.end));
    out.length = length_text(step.end - step.start);
    out.who = resource_names(plan_, step, is(ResourceKind::person));
    out.what = with_sheets(step);
    if (presses_ > 1) out.where = resource_names(plan_, step, is(ResourceKind::press));
    out.family = family_of(step.kind);
    out.pull = step.kind == "pull";
    const std::string cue = clean(step.cue);
    const bool is_new = !cue.empty() && seen_.insert(cue).second;
    if (is_new) {
      out.cue = cue;
    } else if (step.kind == "place") {
      out.cue = "Touch test: limp, cool, no shine.";
    }
    return out;
  }

 private:
  const Plan& plan_;
  const Clock& clock_;
  std::ptrdiff_t presses_ = 0;
  std::set<std::string> seen_;  // cues shown already: said forty times they are not read
};

/// The pulls that follow one another on a sheet held in the press are one goal.
std::size_t goal_end(const Plan& plan, std::size_t first) {
  constexpr HalfMinutes together(30);
  std::size_t end = first + 1;
  while (end < plan.pulls.size() && plan.pulls[end].print == plan.pulls[first].print &&
         plan.pulls[end].at - plan.pulls[end - 1].at <= together) {
    ++end;
  }
  return end;
}

std::string goal(const Plan& plan, const Clock& clock, std::size_t first, std::size_t end) {
  std::string out = "Towards " + print_label(plan.pulls[first].print, plan.pulls[first].proof);
  for (std::size_t i = first; i < end; ++i) {
    const auto& pull = plan.pulls[i];
    out += (i == first ? ": pull " : ", ") + clean(pull.plate) + " " +
           clock_text(clock, instant(plan, pull.at));
  }
  return out;
}

bool begins_printing(const Step& step) {
  const Family family = family_of(step.kind);
  return step.print > 0 && (family == Family::ink || family == Family::press);
}

/// The same break for several people is one line.
bool joins_pause(const std::vector<StepRow>& rows, const StepRow& next) {
  if (rows.empty() || next.family != Family::pause) return false;
  const auto& last = rows.back();
  return last.family == Family::pause && last.start == next.start && last.end == next.end;
}

}  // namespace

std::string resource_names(const Plan& plan, const Step& step,
                           const std::function<bool(ResourceKind)>& wanted) {
  std::string out;
  for (const auto& use : step.uses) {
    const auto& resource = plan.resources.at(static_cast<std::size_t>(use.resource));
    if (!wanted(resource.kind)) continue;
    if (!out.empty()) out += ", ";
    out += clean(resource.name);
  }
  return out;
}

std::string number_list(std::vector<int> numbers) {
  std::sort(numbers.begin(), numbers.end());
  numbers.erase(std::unique(numbers.begin(), numbers.end()), numbers.end());
  std::string out;
  for (std::size_t i = 0; i < numbers.size();) {
    std::size_t end = i + 1;
    while (end < numbers.size() && numbers[end] == numbers[end - 1] + 1) ++end;
    if (!out.empty()) out += ", ";
    out += std::to_string(numbers[i]);
    if (end - i > 1) out += "-" + std::to_string(numbers[end - 1]);
    i = end;
  }
  return out;
}

std::vector<StepBlock> step_blocks(const Plan& plan, const Clock& clock) {
  std::vector<StepBlock> blocks;
  const auto open = [&](const std::string& heading) -> StepBlock& {
    if (blocks.empty() || blocks.back().heading != heading) blocks.push_back({heading, {}});
    return blocks.back();
  };
  const auto first_day = local_day(clock, plan.opens);
  const auto printing = std::find_if(plan.steps.begin(), plan.steps.end(), begins_printing);
  const HalfMinutes printing_from = printing == plan.steps.end() ? plan.finish : printing->start;
  std::size_t next = 0;  // the pulls from next to end are what the steps work towards
  std::size_t end = plan.pulls.empty() ? 0 : goal_end(plan, 0);
  Rows rows(plan, clock);
  for (const auto& step : plan.steps) {
    if (step.state == planner::StepState::done) continue;  // nobody has to read it any more
    const Instant at = instant(plan, step.start);
    while (next < end && plan.pulls[end - 1].at < step.start) {
      next = end;
      if (next < plan.pulls.size()) end = goal_end(plan, next);
    }
    StepBlock* block = nullptr;
    if (local_day(clock, at) < first_day) {
      block = &open("Before the day: " + date_text(clock, at));
    } else if (step.start < printing_from) {
      block = &open("Get ready");
    } else if (next < plan.pulls.size()) {
      block = &open(goal(plan, clock, next, end));
    } else {
      block = &open("Last print away, clean up");
    }
    StepRow row = rows.row(step);
    if (joins_pause(block->rows, row)) {
      if (!row.who.empty()) block->rows.back().who += ", " + row.who;
    } else {
      block->rows.push_back(std::move(row));
    }
  }
  return blocks;
}

}  // namespace dampline::report
