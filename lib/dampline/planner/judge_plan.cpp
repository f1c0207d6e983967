#include <algorithm>
#include <set>

#include <dampline/planner/judge_plan.hpp>
#include <dampline/planner/registering.hpp>
#include <dampline/planner/today.hpp>
#include <dampline/readiness/limits.hpp>
#include <dampline/session/words.hpp>
#include <dampline/session/zone.hpp>
#include <dampline/units/suggest.hpp>
#include <dampline/units/text.hpp>

namespace dampline::planner {
namespace {

constexpr double doubtful = 0.5;  // chance of being ready below which a pull is warned of

void warn_of_pulls(const std::vector<CheckedPull>& pulls, Plan& plan) {
  int unlikely = 0;
  for (const auto& p : pulls) {
    if (p.judgement.verdict != readiness::Verdict::ready) {
      plan.warnings.push_back({"pull-outside-window",
                               "print " + std::to_string(p.pull.print) + ", " + p.pull.plate +
                                   ": the sheet is expected " +
                                   readiness::word(p.judgement.verdict) + "; " + p.judgement.reason,
                               "touch it first; blot or mist and cover as it needs"});
    } else if (p.pull.ready.parts_of_one() < doubtful) {
      ++unlikely;
    }
  }
  if (unlikely > 0) {
    plan.warnings.push_back(
        {"doubtful-pulls",
         std::to_string(unlikely) + " of " + std::to_string(pulls.size()) +
             " pulls are more likely than not to find a sheet of this paper outside the band: its "
             "properties are too little known",
         "weigh a sheet dry and after blotting, and touch-test before each pull"});
  }
}

void warn_of_register(const session::Session& s, Plan& plan) {
  const Pull* worst = nullptr;
  for (const auto& pull : plan.pulls) {
    if (!pull.misfit) continue;
    if (worst == nullptr || pull.misfit->within < worst->misfit->within) worst = &pull;
  }
  if (worst == nullptr || worst->misfit->within.parts_of_one() >= doubtful) return;
  plan.warnings.push_back(
      {"register",
       "print " + std::to_string(worst->print) + ": the later image stays within " +
           units::text(s.registering.tolerance) + " with a chance of only " +
           units::fixed(worst->misfit->within.percent(), 0) + " %",
       s.edition.printed.empty()
           ? "hold the sheet in the press and cover it between plates, or place more closely"
           : "damp the sheets as they were at their first pull, or place more closely"});
}

std::set<std::string> circumstances(const session::Session& s) {
  std::set<std::string> tags{"always", "press", "lifting", "mould", "rest", "solvent"};
  if (s.equipment.tub) tags.insert("tub");
  if (s.equipment.hot_plate) tags.insert("hot_plate");
  for (const auto& plate : s.plates) {
    if (plate.ink.starts_with("oil")) tags.insert("oil_ink");
    if (plate.process != "monotype") tags.insert("blades");
  }
  return tags;
}

void add_cautions(const session::Session& s, const Knowledge& k, Plan& plan) {
  const auto tags = circumstances(s);
  for (const auto& rule : k.cautions) {
    const bool applies = std::any_of(rule.when.begin(), rule.when.end(),
                                     [&](const auto& tag) { return tags.contains(tag); });
    if (applies) plan.cautions.push_back({rule.code, rule.text});
  }
}

void add_after(const session::Session& s, const Knowledge& k, Plan& plan) {
  if (plan.pulls.empty()) return;
  const auto finish = plan.opens + std::chrono::duration_cast<std::chrono::seconds>(plan.finish);
  plan.after = after_steps(k.drying, session::word(s.equipment.drying), finish,
                           [&](auto at) { return session::offset_at(s.day.zone, at); });
}

void add_assumptions(const session::Session& s, const Craft& craft, const PaperCase& paper,
                     Plan& plan) {
  plan.assumptions = {
      "Growth of a paper nobody has measured is uncertain by about a third; differences between "
      "pulls are firmer.",
      "Bands of readiness and step times are common practice; your touch test has the last word."};
  if (plates_meet(s)) {
    plan.assumptions.push_back("A first pass through the press stretches a damp sheet by " +
                               units::text(size::usual_nip) +
                               ", its long side first: assumed, and counted in the misfit.");
  }
  const auto open = readiness::uncovered(paper.stock);
  plan.assumptions.push_back("The trade leaves a blotted sheet uncovered for " +
                             units::text(open.longest) + " at most (" + open.basis + ").");
  for (const auto& person : s.people) {
    if (!person.learner) continue;
    plan.assumptions.push_back(person.name + " is at the press for the first time and takes " +
                               units::shortest(craft.learner_pace) + " times the typical times (" +
                               craft.basis + "): few prints, and time to look at each.");
  }
  if (s.damping.method == "pack") {
    plan.assumptions.push_back(
        "A pack is simulated with its water already shared evenly between the sheets.");
  }
}

// As a text of a session file.
std::string quoted(const std::string& text) {
  std::string out = "\"";
  for (const char c : text) {
    if (c == '"' || c == '\\') out += '\\';
    out += c;
  }
  return out + "\"";
}

// Sheets are dried and come back: what they are by then goes into the session of that day.
void tell_next_day(const session::Session& s, Plan& plan) {
  const auto today = plates_today(s);
  const auto& order = s.edition.order;
  if (s.edition.sheet_each || s.edition.printed.size() + today.size() >= order.size()) return;
  plan.warnings.push_back({"other-days",
                           "this day prints " + units::listed(today, "\"", "and") +
                               " only; the other plates follow on dried sheets",
                           "the end of this plan says what to write for the next day"});
  if (plan.pulls.empty()) return;
  Resume r;
  r.printed = s.edition.printed;
  r.printed.insert(r.printed.end(), today.begin(), today.end());
  double along = 0, across = 0, pulls = 0;
  for (const auto& pull : plan.pulls) {
    if (pull.plate != today.front()) continue;
    along += pull.along.parts_of_one();
    across += pull.across.parts_of_one();
    ++pulls;
  }
  if (s.edition.printed.empty() && pulls > 0) {
    r.along = units::Strain(along / pulls);
    r.across = units::Strain(across / pulls);
  } else if (s.edition.first_pull) {
    r.along = s.edition.first_pull->along;
    r.across = s.edition.first_pull->across;
  }
  r.prints = plan.prints_planned;
  r.proofs = plan.proofs_planned;
  for (const auto& plate : r.printed) r.lines += (r.lines.empty() ? "" : ", ") + quoted(plate);
  r.lines = "printed = [" + r.lines + "]\n";
  if (r.along.parts_of_one() > 0) {
    r.lines += "first_pull = { along = \"" + units::text(r.along) + "\", across = \"" +
               units::text(r.across) + "\" }\n";
  }
  r.lines += "prints = " + std::to_string(r.prints) + "\nproofs = " + std::to_string(r.proofs);
  plan.resume = std::move(r);
}

}  // namespace

void judge_plan(const session::Session& s, const Knowledge& k, const PaperCase& paper,
                const std::vector<CheckedPull>& pulls, bool most_proved, Plan& plan) {
  for (const auto& doubt : s.warnings) plan.warnings.push_back({"session", doubt.what, doubt.help});
  warn_of_pulls(pulls, plan);
  warn_of_register(s, plan);
  if (!plan.short_of.empty()) {
    const std::string how = most_proved ? "no more can fit" : "more may fit, none was found";
    plan.warnings.push_back({plan.pulls.empty() ? "nothing-fits" : "fewer-prints",
                             std::to_string(plan.prints_planned) + " of " +
                                 std::to_string(plan.prints_asked) + " prints and " +
                                 std::to_string(plan.proofs_planned) + " of " +
                                 std::to_string(plan.proofs_asked) + " proofs fit this day: " + how,
                             "see what is short; --advice plans more hands, other hours and the "
                             "like, and tells the gain"});
  }
  tell_next_day(s, plan);
  add_cautions(s, k, plan);
  add_after(s, k, plan);
  plan.supplies = k.craft.supplies;
  add_assumptions(s, k.craft, paper, plan);
}

}  // namespace dampline::planner
