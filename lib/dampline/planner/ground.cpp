#include <algorithm>

#include <dampline/planner/ground.hpp>

namespace dampline::planner {
namespace {

std::size_t at(int i) { return static_cast<std::size_t>(i); }

// Does a sheet get its cover in one activity, to be pulled in the other?
bool covers_for(const Draft& d, int covering, int pulling) {
  return std::any_of(d.pulls.begin(), d.pulls.end(), [&](const DraftPull& pull) {
    return pull.pulled.activity == pulling &&
           d.sheets[at(pull.sheet - 1)].covered.activity == covering;
  });
}

// Inking and wiping before a print.
bool charges(const Draft& d, int activity) {
  const auto& parts = d.blocks[at(activity)].parts;
  return !parts.empty() && parts.front().print > 0 && pull_in(d, activity) == nullptr;
}

// Loads for a later batch than the one that is lifted.
bool empties_the_tub(const Draft& d, int from, int to) {
  const auto is_lifted = [&](const auto& soak) { return soak.second == from; };
  const auto is_loaded = [&](const auto& soak) { return soak.first == to; };
  return std::any_of(d.soaks.begin(), d.soaks.end(), is_lifted) &&
         std::any_of(d.soaks.begin(), d.soaks.end(), is_loaded);
}

bool soaks(const Draft& d, int loading, int lifting) {
  return std::find(d.soaks.begin(), d.soaks.end(), std::pair(loading, lifting)) != d.soaks.end();
}

}  // namespace

bool is_break(const Draft& d, int activity) {
  const auto& parts = d.blocks[at(activity)].parts;
  return !parts.empty() && (parts.front().kind == "break" || parts.front().kind == "short-rest");
}

const DraftPull* pull_in(const Draft& d, int activity) {
  const auto found = std::find_if(d.pulls.begin(), d.pulls.end(), [&](const DraftPull& pull) {
    return pull.pulled.activity == activity;
  });
  return found == d.pulls.end() ? nullptr : &*found;
}

Ground ground_of(const Draft& d, int from, int to, int least) {
  const bool is_limit = least < 0;
  if (to == d.problem.sink) return Ground::finish;
  if (is_break(d, from) || is_break(d, to)) return Ground::set_time;
  // Which way round says enough here: a window may lie within the work at either end of it.
  if (covers_for(d, from, to) && (from != d.problem.source || least != 0)) return Ground::rest;
  if (covers_for(d, to, from)) return Ground::keeps;
  if (from == d.problem.source) return pull_in(d, to) && least > 0 ? Ground::rest : Ground::opening;
  if (to == d.problem.source) return pull_in(d, from) ? Ground::keeps : Ground::set_time;
  if (soaks(d, from, to)) return Ground::soak;
  if (soaks(d, to, from)) return Ground::tub_limit;
  if (is_limit && pull_in(d, from) && pull_in(d, to)) return Ground::between;
  if (pull_in(d, from) && charges(d, to)) return is_limit ? Ground::ink_waits : Ground::plate;
  if (empties_the_tub(d, from, to)) return Ground::tub;
  return Ground::order;
}

Ground ground_of(const Draft& d, const scheduling::Lag& lag) {
  const auto length = [&](int a) { return d.problem.activities[at(a)].duration; };
  const int least =
      lag.least + (lag.from_end ? length(lag.from) : 0) - (lag.to_end ? length(lag.to) : 0);
  return ground_of(d, lag.from, lag.to, least);
}

}  // namespace dampline::planner
