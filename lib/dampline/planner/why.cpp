#include <algorithm>
#include <stdexcept>

#include <dampline/planner/aims.hpp>
#include <dampline/planner/lay_out.hpp>
#include <dampline/planner/why_link.hpp>
#include <dampline/scheduling/check.hpp>
#include <dampline/scheduling/slack.hpp>

namespace dampline::planner {
namespace {

std::size_t at(int i) { return static_cast<std::size_t>(i); }

class Search {
 public:
  Search(const scheduling::Problem& problem, const std::vector<int>& starts, const Ties& ties)
      : problem_(problem), starts_(starts), ties_(ties) {}

  void tell(int activity, Why& why) const {
    const auto down = scheduling::why(problem_, starts_, activity);
    if (!ends_at_ground(down)) {
      if (const auto up = towards_ground(activity); !up.empty()) {
        follow(up, true, why.needed_for);
        follow(scheduling::why(problem_, starts_, up.back()), false, why.waits_for);
        return;
      }
    }
    follow(down, false, why.waits_for);
  }

 private:
  [[nodiscard]] bool ends_at_ground(const std::vector<int>& chain) const {
    return chain.back() == problem_.source;
  }

  void follow(const std::vector<int>& chain, bool up, std::vector<WhyLink>& links) const {
    for (std::size_t i = 1; i < chain.size(); ++i) {
      const auto reasons = up ? scheduling::needs(problem_, starts_, chain[i - 1])
                              : scheduling::holds(problem_, starts_, chain[i - 1]);
      links.push_back(ties_.link(reasons, chain[i - 1], chain[i], up));
    }
  }

  // The fewest steps from an activity by what needs it to one that is held from below without it;
  // nothing when there is none.
  [[nodiscard]] std::vector<int> towards_ground(int activity) const {
    std::vector<int> parent(starts_.size(), -1);
    std::vector<int> seen{activity};
    parent[at(activity)] = activity;
    for (std::size_t next = 0; next < seen.size(); ++next) {
      const int here = seen[next];
      if (here != activity) {
        std::vector<int> way{here};
        while (way.back() != activity) way.push_back(parent[at(way.back())]);
        const auto down = scheduling::why(problem_, starts_, here);
        const bool turns_back = std::any_of(down.begin() + 1, down.end(), [&](int a) {
          return std::find(way.begin(), way.end(), a) != way.end();
        });
        if (ends_at_ground(down) && !turns_back) return {way.rbegin(), way.rend()};
      }
      for (const auto& need : scheduling::needs(problem_, starts_, here)) {
        if (need.is_pause || parent[at(need.activity)] >= 0) continue;
        parent[at(need.activity)] = here;
        seen.push_back(need.activity);
      }
    }
    return {};
  }

  const scheduling::Problem& problem_;
  const std::vector<int>& starts_;
  const Ties& ties_;
};

// By how much an activity could move; nothing is claimed that the checker refuses.
HalfMinutes room(const scheduling::Problem& p, const std::vector<int>& starts, int activity,
                 int finish, int scheduling::Slack::*end) {
  std::vector<int> other;
  for (const auto& each : scheduling::slack(p, starts, finish)) other.push_back(each.*end);
  if (!scheduling::check(p, other).empty()) return HalfMinutes(0);
  return HalfMinutes(std::abs(other[at(activity)] - starts[at(activity)]));
}

void measure_slack(const Fit& fit, const scheduling::Problem& as_planned, int activity, Why& why) {
  const auto& p = fit.draft.problem;
  const int finish = fit.starts[at(p.sink)];
  using scheduling::Slack;
  why.earlier = room(as_planned, fit.starts, activity, finish, &Slack::earliest);
  why.later = room(as_planned, fit.starts, activity, finish, &Slack::latest);
  why.later_nearer = room(p, fit.starts, activity, finish, &Slack::latest);
  why.later_at_all = room(p, fit.starts, activity, p.horizon, &Slack::latest);
}

void find_windows(const Draft& d, const std::vector<int>& starts, const Treatment& t, int activity,
                  Why& why) {
  for (const auto& pull : d.pulls) {
    if (pull.pulled.activity != activity) continue;
    const auto covered = when(d.sheets[at(pull.sheet - 1)].covered, starts);
    const WhyWindow window{pull.print, {}, covered + t.opens, covered + t.closes, t.opens};
    const bool same = !why.windows.empty() && why.windows.back().print == pull.print &&
                      why.windows.back().from == window.from;
    if (!same) why.windows.push_back(window);
    why.windows.back().pulled.push_back(when(pull.pulled, starts));
  }
}

// A window's end is kept clear of: the bare wait is shorter (longer, for how long a sheet keeps).
void note_margin(HalfMinutes margin, const Treatment& t, std::vector<WhyLink>& links) {
  for (auto& link : links) {
    if (link.ground == Ground::rest) {
      link.clear = std::clamp(link.wait - t.opens, HalfMinutes(0), margin);
    } else if (link.ground == Ground::keeps) {
      link.clear = std::clamp(t.closes - link.wait, HalfMinutes(0), margin);
    }
  }
}

// The step just before it in the same piece of work.
std::string part_before(const std::vector<Step>& steps, const Ties& ties, int activity,
                        const Step& step) {
  for (const auto& other : steps) {
    const bool just_before = other.end == step.start && other.id != step.id;
    if (just_before && ties.activity_of(other.id) == activity) return other.id;
  }
  return {};
}

}  // namespace

Why why(const Fit& fit, const std::vector<Step>& steps, const Treatment& treatment,
        const std::string& step) {
  const auto& draft = fit.draft;
  const auto& starts = fit.starts;
  const Ties ties(draft, starts, steps);
  Why why;
  why.step = step;
  int activity = draft.problem.sink;
  if (step == "finish") {
    why.name = "the finish";
    why.start = why.end = HalfMinutes(starts[at(activity)]);
  } else {
    const auto found =
        std::find_if(steps.begin(), steps.end(), [&](const Step& s) { return s.id == step; });
    activity = ties.activity_of(step);
    if (found == steps.end() || activity < 0) throw std::invalid_argument("no step " + step);
    why.name = found->what;
    why.start = found->start;
    why.end = found->end;
    why.after = part_before(steps, ties, activity, *found);
  }
  why.begins = HalfMinutes(starts[at(activity)]);
  const auto as_planned = kept(draft, treatment, fit.finish, fit.margin);
  Search(as_planned, starts, ties).tell(activity, why);
  note_margin(fit.margin, treatment, why.needed_for);
  note_margin(fit.margin, treatment, why.waits_for);
  measure_slack(fit, as_planned, activity, why);
  find_windows(draft, starts, treatment, activity, why);
  return why;
}

}  // namespace dampline::planner
