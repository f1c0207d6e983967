#include <algorithm>
#include <map>
#include <set>

#include <dampline/planner/lay_out.hpp>
#include <dampline/scheduling/justify.hpp>

namespace dampline::planner {
namespace {

std::size_t at(int i) { return static_cast<std::size_t>(i); }

// Ids of the steps that hold activity `a` where it is, as said in Step::because.
std::vector<std::string> held_by(const Draft& draft, const std::vector<int>& starts, int a) {
  std::vector<std::string> ids;
  for (const auto& hold : scheduling::holds(draft.problem, starts, a)) {
    const auto& holder = draft.blocks[at(hold.activity)];
    if (holder.parts.empty()) continue;
    const bool its_end =
        hold.resource >= 0 || hold.lag == draft.problem.activities[at(hold.activity)].duration;
    ids.push_back((its_end ? "" : "window: ") + holder.id);
  }
  std::sort(ids.begin(), ids.end());
  ids.erase(std::unique(ids.begin(), ids.end()), ids.end());
  return ids;
}

void add_block(const Draft& draft, const std::vector<int>& starts, int a,
               std::vector<Step>& steps) {
  const auto& block = draft.blocks[at(a)];
  HalfMinutes clock(starts[at(a)]);
  for (std::size_t i = 0; i < block.parts.size(); ++i) {
    const auto& part = block.parts[i];
    Step step;
    step.id = step_id(block, i);
    step.kind = part.kind;
    step.what = part.what;
    step.cue = part.cue;
    step.sheets = part.sheets;
    step.plate = part.plate;
    step.print = part.print;
    step.uses = part.uses;
    step.start = clock;
    clock += part.length;
    step.end = clock;
    if (i == 0) {
      step.because = held_by(draft, starts, a);
    } else {
      step.because = {step_id(block, i - 1)};
    }
    steps.push_back(std::move(step));
  }
}

int tub_index(const Draft& draft) {
  for (std::size_t r = 0; r < draft.resources.size(); ++r) {
    if (draft.resources[r].kind == ResourceKind::tub) return static_cast<int>(r);
  }
  return -1;
}

// Between the last sheet in and the first sheet out the batch soaks, with nobody's hands.
void add_soaks(const Draft& draft, const std::vector<int>& starts, const Craft& craft,
               std::vector<Step>& steps) {
  for (std::size_t b = 0; b < draft.soaks.size(); ++b) {
    const auto [loaded, lifted] = draft.soaks[b];
    const auto& sheets = draft.blocks[at(lifted)].parts.back().sheets;
    Step step;
    step.id = "soak-" + std::to_string(b + 1);
    step.kind = "soak";
    step.what = step_kind(craft, "soak").what;
    step.cue = step_kind(craft, "soak").cue;
    step.sheets = sheets;
    step.start = HalfMinutes(starts[at(loaded)] + draft.problem.activities[at(loaded)].duration);
    HalfMinutes out(starts[at(lifted)]);
    for (const auto& part : draft.blocks[at(lifted)].parts) {
      if (part.kind == "blot") break;
      out += part.length;
    }
    step.end = out;
    if (const int tub = tub_index(draft); tub >= 0) {
      step.uses.push_back({tub, static_cast<int>(sheets.size())});
    }
    step.because = {draft.blocks[at(loaded)].id};
    steps.push_back(std::move(step));
  }
}

// Clean work is planned with time for a wash. Where the hands are clean already the step is left
// out, and its minutes are in hand.
void drop_needless_washes(const Draft& draft, const Craft& craft, std::vector<Step>& steps) {
  std::set<int> inky;  // people, by resource
  std::map<std::string, std::vector<std::string>> dropped;
  std::vector<Step> kept;
  for (auto& step : steps) {
    const int person = step.uses.empty() ? -1 : step.uses.front().resource;
    const bool by_hand = person >= 0 && draft.resources[at(person)].kind == ResourceKind::person;
    if (by_hand && step.kind == "wash-hands") {
      if (!inky.contains(person)) {
        dropped[step.id] = step.because;
        continue;
      }
      inky.erase(person);
    }
    if (by_hand && step_kind(craft, step.kind).hands == Hands::inky) inky.insert(person);
    if (step.because.size() == 1 && dropped.contains(step.because.front())) {
      step.because = dropped[step.because.front()];
    }
    kept.push_back(std::move(step));
  }
  steps = std::move(kept);
}

// Rests are planned for as long as somebody is there; nobody needs one before or after all work.
void drop_needless_rests(std::vector<Step>& steps) {
  const auto is_rest = [](const Step& step) { return step.kind == "short-rest"; };
  struct Work {
    HalfMinutes first, last;
  };
  std::map<int, Work> work;  // by person
  for (const auto& step : steps) {
    if (is_rest(step) || step.kind == "break") continue;
    for (const auto& use : step.uses) {
      auto& of = work.try_emplace(use.resource, Work{step.start, step.end}).first->second;
      of.last = std::max(of.last, step.end);
    }
  }
  std::erase_if(steps, [&](const Step& step) {
    if (!is_rest(step)) return false;
    const auto of = work.find(step.uses.front().resource);
    return of == work.end() || step.end <= of->second.first || step.start >= of->second.last;
  });
}

}  // namespace

std::string step_id(const Block& block, std::size_t part) {
  if (part + 1 == block.parts.size()) return block.id;
  const auto& p = block.parts[part];
  std::string id = block.id + "/" + p.kind;
  if (!p.plate.empty()) id += "-" + p.plate;
  std::replace(id.begin(), id.end(), ' ', '-');
  return id;
}

HalfMinutes when(const Moment& moment, const std::vector<int>& starts) {
  return HalfMinutes(starts[at(moment.activity)]) + moment.offset;
}

std::vector<Step> lay_out(const Draft& draft, const Craft& craft, const std::vector<int>& starts) {
  std::vector<Step> steps;
  for (int a = 0; a < static_cast<int>(draft.blocks.size()); ++a) {
    add_block(draft, starts, a, steps);
  }
  add_soaks(draft, starts, craft, steps);
  std::stable_sort(steps.begin(), steps.end(),
                   [](const Step& a, const Step& b) { return a.start < b.start; });
  drop_needless_washes(draft, craft, steps);
  drop_needless_rests(steps);
  return steps;
}

}  // namespace dampline::planner
