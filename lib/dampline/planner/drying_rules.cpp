#include <algorithm>

#include <dampline/planner/drying_rules.hpp>

namespace dampline::planner {

using std::chrono::minutes;
using std::chrono::seconds;
using std::chrono::sys_seconds;

std::string change_words(std::size_t i) {
  return i == 1 ? "change the blotters; more weight on the boards" : "change the blotters";
}

std::vector<AfterStep> after_steps(const DryingRules& rules, const std::string& way,
                                   sys_seconds finish,
                                   const std::function<minutes(sys_seconds)>& offset) {
  std::vector<AfterStep> out;
  const auto add = [&](const char* kind, units::Duration since, const std::string& what) {
    const minutes due(std::lround(units::in_minutes(since)));
    const auto at = in_waking_hours(rules.night, offset, finish + due);
    out.push_back({.since_finish = due,
                   .what = what,
                   .basis = rules.basis,
                   .kind = kind,
                   .put_off = std::chrono::floor<minutes>(at - (finish + due))});
  };
  const auto& flat = rules.flat.at(way);
  if (way == "boards") {
    for (std::size_t i = 0; i < rules.changes.size(); ++i) {
      add("blotters", rules.changes[i], change_words(i));
    }
    add("blotters", std::max(rules.then_every, rules.changes.back()),
        "change the blotters daily until they no longer feel cool");
  }
  if (const auto looks = rules.looks.find(way); looks != rules.looks.end()) {
    for (const auto& look : looks->second) add("look", look.at, look.what);
  }
  if (flat.flatten_from) add("flatten", *flat.flatten_from, flatten_words);
  add("flat", flat.usual, flat.what);
  add("ink", rules.ink.usual, rules.ink.what);
  add("stack", rules.stack.usual, rules.stack.what);
  std::stable_sort(out.begin(), out.end(), [](const AfterStep& a, const AfterStep& b) {
    return a.since_finish < b.since_finish;
  });
  return out;
}

sys_seconds in_waking_hours(const Night& night, const std::function<minutes(sys_seconds)>& offset,
                            sys_seconds at) {
  using std::chrono::days;
  using std::chrono::floor;
  const auto clock = [&](sys_seconds t) {
    const auto here = t + (offset ? offset(t) : minutes(0));
    return floor<minutes>(here - floor<days>(here));
  };
  const minutes now = clock(at);
  if (now >= night.until && now < night.from) return at;
  const minutes day(now < night.until ? 0 : 24 * 60);
  const auto out = floor<minutes>(at + night.until + day - now);
  // The clocks may change in that night.
  return out - (clock(out) - night.until);
}

}  // namespace dampline::planner
