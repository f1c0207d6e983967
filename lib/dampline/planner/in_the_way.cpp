#include <algorithm>

#include <dampline/planner/advice.hpp>
#include <dampline/planner/bottleneck.hpp>
#include <dampline/planner/clash.hpp>
#include <dampline/planner/in_the_way.hpp>
#include <dampline/planner/nearest.hpp>
#include <dampline/units/text.hpp>

namespace dampline::planner {
namespace {

// A changed day is searched with less than the day itself: a question takes a tenth of a second.
constexpr long long conflicts_a_change = 3000;
constexpr long long conflicts_a_clash = 10000;  // to refute takes longer than to find

// A rest that outlasts the sheet needs no schedule to be refused.
std::optional<Clash> rest_and_window(const session::Session& s, const Damping& d) {
  const auto& t = d.treatment;
  if (d.ready || !d.forecast.likely.opens || t.opens < t.closes) return std::nullopt;
  const auto words = [](HalfMinutes h) { return units::text(units::seconds(h.count() * 30.0)); };
  const bool bench = s.damping.hold == session::Hold::bench;
  return Clash{{(s.damping.rest ? "rest = \"" : "a rest of \"") + words(t.opens) + "\"",
                (bench ? "hold = \"bench\": each sheet" : "each sheet") +
                    std::string(" ready for ") + words(t.closes) + " at most"},
               true};
}

}  // namespace

void add_what_is_in_the_way(const session::Session& s, const Craft& craft, const PaperCase& paper,
                            const Damping& damping, const Fit& fit, const PlanOptions& options,
                            Plan& plan) {
  const bool nothing = fit.starts.empty();
  if (!nothing) {
    plan.utilisation = utilisation(fit.draft, plan.steps, fit.finish);
    plan.bottleneck = bottleneck_sentence(plan.resources, plan.utilisation);
  }
  if (!nothing && !options.advice) return;
  const FitOptions cheap{std::min(options.conflicts, conflicts_a_change), options.seed};
  const FitOptions long_enough{std::min(options.conflicts, conflicts_a_clash), options.seed};
  const int planned = fit.extent.proofs + fit.extent.prints;
  const int asked = s.edition.proofs + s.edition.prints;
  const auto& t = damping.treatment;
  if (!nothing) plan.advice = advise(s, craft, t, fit, cheap);
  if (planned >= asked) return;
  const auto add = [&](std::optional<Clash> found) {
    if (found) plan.clashes.push_back(std::move(*found));
  };
  if (damping.ready) {
    if (nothing) {
      add(clash(s, craft, t, 1, 0, long_enough));
    } else {
      add(clash(s, craft, t, asked, planned, long_enough));
      const int most = most_rounds(s);
      if (most < asked && planned < most) add(clash(s, craft, t, most, planned, long_enough));
    }
  } else {
    add(rest_and_window(s, damping));
  }
  const Retreat retreat = [&](const session::Session& changed) -> std::optional<Treatment> {
    const auto again = choose_damping(changed, paper);
    if (!again.ready) return std::nullopt;
    return again.treatment;
  };
  plan.nearest = nearest_days(s, craft, t, asked, planned, retreat, cheap);
}

}  // namespace dampline::planner
