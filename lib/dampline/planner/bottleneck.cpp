#include <algorithm>
#include <cmath>

#include <dampline/planner/bottleneck.hpp>
#include <dampline/units/text.hpp>

namespace dampline::planner {
namespace {

constexpr double taken_much = 2.0 / 3;

double share(const Utilisation& u) {
  return u.available.count() > 0 ? static_cast<double>(u.busy.count()) / u.available.count() : 0;
}

HalfMinutes offered(const scheduling::Resource& resource, HalfMinutes finish) {
  HalfMinutes sum{};
  for (int t = 0; t < finish.count(); ++t) sum += HalfMinutes(scheduling::capacity_at(resource, t));
  return sum;
}

std::string words(const Resource& resource) {
  switch (resource.kind) {
    case ResourceKind::person:
      return resource.name + "'s hands";
    case ResourceKind::plate:
      return "the plate \"" + resource.name + "\"";
    default:
      return (resource.name.starts_with("the ") ? "" : "the ") + resource.name;
  }
}

std::string time(HalfMinutes t) { return units::text(units::minutes(std::round(t.count() / 2.0))); }

std::string percent(const Utilisation& u) { return units::fixed(100 * share(u), 0) + " %"; }

}  // namespace

std::vector<Utilisation> utilisation(const Draft& d, const std::vector<Step>& steps,
                                     HalfMinutes finish) {
  std::vector<Utilisation> out;
  for (std::size_t r = 0; r < d.resources.size(); ++r) {
    if (d.resources[r].kind == ResourceKind::drying) continue;
    Utilisation u;
    u.resource = static_cast<int>(r);
    u.available = offered(d.problem.resources[r], finish);
    for (const auto& step : steps) {
      const bool is_pause = step.kind == "break" || step.kind == "short-rest";
      for (const auto& use : step.uses) {
        if (use.resource != u.resource) continue;
        const auto taken = (std::min(step.end, finish) - std::min(step.start, finish)) * use.amount;
        (is_pause ? u.available : u.busy) += is_pause ? -taken : taken;
      }
    }
    out.push_back(u);
  }
  std::stable_sort(out.begin(), out.end(),
                   [](const auto& a, const auto& b) { return share(a) > share(b); });
  return out;
}

std::string bottleneck_sentence(const std::vector<Resource>& resources,
                                const std::vector<Utilisation>& all) {
  if (all.empty()) return {};
  const auto& first = all.front();
  const auto of = [&](const Utilisation& u) {
    return resources[static_cast<std::size_t>(u.resource)];
  };
  if (share(first) < taken_much) {
    return "No hands, press or plate are the bottleneck (" + words(of(first)) +
           ", the most taken, " + "for " + percent(first) +
           " of the time to the finish): the day waits for paper and ink.";
  }
  std::string out = "The bottleneck: " + words(of(first)) + ", taken for " + time(first.busy) +
                    " of " + time(first.available) + " to the finish (" + percent(first) + ")";
  if (all.size() > 1) out += "; next " + words(of(all[1])) + " (" + percent(all[1]) + ")";
  return out + ".";
}

}  // namespace dampline::planner
