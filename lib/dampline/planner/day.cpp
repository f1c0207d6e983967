#include <algorithm>
#include <set>

#include <dampline/planner/felt.hpp>
#include <dampline/planner/in_the_way.hpp>
#include <dampline/planner/judge_plan.hpp>
#include <dampline/planner/lay_out.hpp>
#include <dampline/planner/look_up.hpp>
#include <dampline/planner/paper_case.hpp>
#include <dampline/planner/shortage.hpp>
#include <dampline/planner/worked_day.hpp>
#include <dampline/session/zone.hpp>
#include <dampline/units/suggest.hpp>
#include <dampline/units/text.hpp>

namespace dampline::planner {
namespace {

constexpr int most_tries = 4;           // to make the plan again with a tighter window
constexpr HalfMinutes step_inward{10};  // what a window is tightened by

// A pull that finds its sheet outside the band draws the window in past it; unless others that
// waited no longer (no shorter, for a dry one) were ready: then waiting is not what it lacks.
bool tighten(Treatment& t, const std::vector<CheckedPull>& pulls) {
  const auto before = t;
  std::optional<HalfMinutes> least, most;  // that a ready one waited
  for (const auto& p : pulls) {
    if (p.judgement.verdict != readiness::Verdict::ready) continue;
    least = std::min(least.value_or(p.waited), p.waited);
    most = std::max(most.value_or(p.waited), p.waited);
  }
  for (const auto& p : pulls) {
    if (p.judgement.verdict == readiness::Verdict::too_dry) {
      if (!most || *most < p.waited) t.closes = std::min(t.closes, p.waited - step_inward);
    } else if (p.judgement.verdict != readiness::Verdict::ready) {
      if (!least || *least > p.waited) t.opens = std::max(t.opens, p.waited + step_inward);
    }
  }
  return t.opens != before.opens || t.closes != before.closes;
}

// A felt that is clammy before the day's pulls are done is changed for a dry one.
bool change_catcher(Treatment& t, const Outcome& outcome, int presses) {
  if (t.catcher_lasts || !outcome.catcher_lasts) return false;
  if (static_cast<int>(outcome.pulls.size()) <= *outcome.catcher_lasts * presses) return false;
  t.catcher_lasts = outcome.catcher_lasts;
  return true;
}

int presses_at_work(const Draft& draft) {
  std::set<int> presses;
  for (const auto& pull : draft.pulls) presses.insert(pull.press);
  return static_cast<int>(std::max(presses.size(), std::size_t{1}));
}

// Schedules and simulates until every pull finds its sheet ready, or no tighter window helps.
Outcome fit_and_check(const session::Session& s, const Knowledge& k, const PaperCase& paper,
                      const Registering& registering, Damping& damping,
                      const PlanOptions& options) {
  const FitOptions fit_options{options.conflicts, options.seed};
  Outcome outcome;
  auto fitted_with = damping.treatment;
  for (int i = 0; i < most_tries; ++i) {
    auto fitted = fit(s, k.craft, damping.treatment, fit_options);
    if (fitted.starts.empty()) {
      if (i == 0) outcome.fit = std::move(fitted);
      damping.treatment = fitted_with;  // what is told belongs to the plan that is kept
      break;
    }
    fitted_with = damping.treatment;
    outcome.fit = std::move(fitted);
    outcome.pulls =
        check_pulls(s, paper, damping, registering, outcome.fit.draft, outcome.fit.starts);
    const int presses = presses_at_work(outcome.fit.draft);
    outcome.catcher_lasts = catcher_lasts(k.craft.press, paper, outcome.pulls, presses);
    auto tighter = damping.treatment;
    const bool tightened = tighten(tighter, outcome.pulls);
    if (tightened && tighter.opens >= tighter.closes) break;
    if (!change_catcher(tighter, outcome, presses) && !tightened) break;
    if (i + 1 < most_tries) damping.treatment = tighter;
  }
  return outcome;
}

// A sheet let go between plates comes back before the next image would fall outside the tolerance,
// if a day can be made of that.
Outcome in_register(const session::Session& s, const Knowledge& k, const PaperCase& paper,
                    const Registering& registering, Damping& damping, const PlanOptions& options) {
  const auto longest = registering.longest_between();
  if (longest) {
    const auto before = damping;
    damping.treatment.most_between = HalfMinutes(static_cast<int>(units::in_si(*longest) / 30));
    auto outcome = fit_and_check(s, k, paper, registering, damping, options);
    if (!outcome.fit.starts.empty()) return outcome;
    damping = before;
  }
  return fit_and_check(s, k, paper, registering, damping, options);
}

// A day that takes not one print may have hands enough and too short a window.
Warning window_warning(const Damping& damping) {
  const auto& t = damping.treatment;
  const auto time = [](HalfMinutes h) { return units::text(units::seconds(h.count() * 30.0)); };
  std::string text = "each sheet has to be pulled " + time(t.opens) + " to " + time(t.closes) +
                     " after it is blotted or covered";
  if (t.in_tub) text += ", and soaks for " + time(t.soak) + " before that";
  return {"window", text, "under [damping]: hold = \"covered\", or a shorter soak or rest"};
}

// What is left to chance in a plan of so many prints that ends as early as it does.
std::string margin_sentence(const Fit& fit) {
  return "No pull comes nearer than " + units::text(units::seconds(fit.margin.count() * 30.0)) +
         " to an end of its sheet's window" +
         (fit.margin_proved ? "; no plan with this finish keeps further off." : ".");
}

void count_prints(const session::Session& s, const Extent& extent, Plan& plan) {
  const int each = s.edition.sheet_each ? static_cast<int>(s.plates.size()) : 1;
  plan.prints_asked = s.edition.prints * each;
  plan.proofs_asked = s.edition.proofs * each;
  plan.prints_planned = extent.prints * each;
  plan.proofs_planned = extent.proofs * each;
}

Plan empty_plan(const session::Session& s) {
  Plan plan;
  plan.title = s.title;
  plan.zone = s.day.zone;
  plan.opens = session::opening(s.day);
  plan.until = day_length(s);
  plan.defaults_used = s.defaults_used;
  return plan;
}

}  // namespace

void put_on_the_clock(const WorkedDay& day, const Knowledge& k, const Damping& damping,
                      const Outcome& outcome, Plan& plan) {
  const auto& s = day.session;
  const auto& fit = outcome.fit;
  count_prints(s, fit.extent, plan);
  plan.resources = fit.draft.resources;
  plan.steps = lay_out(fit.draft, k.craft, fit.starts);
  for (const auto& p : outcome.pulls) plan.pulls.push_back(p.pull);
  if (!plan.pulls.empty()) {
    plan.summary.push_back(catcher_sentence(outcome.catcher_lasts, damping.treatment.catcher_lasts,
                                            plan.pulls.size(), presses_at_work(fit.draft)));
    plan.summary.push_back(margin_sentence(fit));
  }
  plan.batches = follow_batches(day.paper, damping, fit.draft, fit.starts);
  plan.finish = fit.finish;
  plan.bound_finish = fit.bound;
  plan.proved = fit.bound >= fit.finish;
  plan.margin = fit.margin;
  plan.margin_proved = fit.margin_proved;
  plan.idle_wet = fit.idle_wet;
}

std::variant<WorkedDay, session::InputErrors> work_out(const session::Session& as_written,
                                                       const Knowledge& k,
                                                       const PlanOptions& options) {
  WorkedDay day;
  day.session = as_written;
  auto& s = day.session;
  const auto why_this_order = put_in_order(s);
  auto looked_up = look_up(s, k);
  if (auto* errors = std::get_if<session::InputErrors>(&looked_up)) return std::move(*errors);
  const auto& subject = std::get<Subject>(looked_up);
  auto found = studio_air(s, k.craft.evening);
  if (auto* errors = std::get_if<session::InputErrors>(&found)) return std::move(*errors);
  day.studio = std::move(std::get<StudioAir>(found));
  day.paper = paper_case(s, k, subject, day.studio, options);
  day.damping = choose_damping(s, day.paper);
  const auto& registering =
      day.registering.emplace(s, k.craft, day.paper, day.damping, options.seed);

  Plan& plan = day.plan;
  plan = empty_plan(s);
  plan.defaults_used.insert(plan.defaults_used.end(), subject.defaults_used.begin(),
                            subject.defaults_used.end());
  count_prints(s, {}, plan);
  auto& damping = day.damping;
  if (damping.ready) day.outcome = in_register(s, k, day.paper, registering, damping, options);
  plan.summary = damping.summary;
  if (why_this_order) {
    plan.summary.push_back("The plates go on as " + units::listed(s.edition.order, "", "then") +
                           ": " + *why_this_order + ".");
  }
  if (auto sentence = registering.wait_sentence(); !sentence.empty()) {
    plan.summary.push_back(std::move(sentence));
  }
  plan.warnings = damping.warnings;
  for (const auto& found_in_log : {day.studio.doubts, day.studio.left_out}) {
    plan.warnings.insert(plan.warnings.end(), found_in_log.begin(), found_in_log.end());
  }
  plan.open_life = damping.open_life;
  plan.climate = day.studio.logged;
  day.blank = plan;
  const bool nothing = day.outcome.fit.starts.empty();
  if (!nothing) put_on_the_clock(day, k, damping, day.outcome, plan);
  if (damping.ready &&
      plan.prints_planned + plan.proofs_planned < plan.prints_asked + plan.proofs_asked) {
    plan.short_of = short_of(s, k.craft, damping.treatment);
  }
  if (damping.ready && nothing) plan.warnings.push_back(window_warning(damping));
  add_what_is_in_the_way(s, k.craft, day.paper, damping, day.outcome.fit, options, plan);
  judge_plan(s, k, day.paper, day.outcome.pulls, day.outcome.fit.most_proved, plan);
  return day;
}

std::variant<Plan, session::InputErrors> plan_day(const session::Session& s, const Knowledge& k,
                                                  const PlanOptions& options) {
  auto worked = work_out(s, k, options);
  if (auto* errors = std::get_if<session::InputErrors>(&worked)) return std::move(*errors);
  return std::move(std::get<WorkedDay>(worked).plan);
}

}  // namespace dampline::planner
