#include <algorithm>
#include <map>
#include <utility>

#include <dampline/scheduling/cliques.hpp>
#include <dampline/scheduling/model.hpp>
#include <dampline/scheduling/network.hpp>

namespace dampline::scheduling {
namespace {

/// Renumbers the groups by their first activity, so that numbers follow the problem.
void name_starts(const Problem& problem, const Groups& groups, const Flat<int>& distance,
                 Model& model) {
  const int n = static_cast<int>(problem.activities.size());
  Flat<int> number;
  number.fit(groups.count, -1);
  Flat<int> earliest;
  model.start_of.fit(n, 0);
  model.offset_of.fit(n, 0);
  for (int i = 0; i < n; ++i) {
    int& start = number[groups.group[i]];
    if (start < 0) {
      start = model.starts++;
      earliest.push_back(distance[i]);
    }
    model.start_of[i] = start;
    earliest[start] = std::min(earliest[start], distance[i]);
  }
  for (int i = 0; i < n; ++i) {
    model.offset_of[i] = distance[i] - earliest[model.start_of[i]];
  }
  model.source = model.start_of[problem.source];
  model.sink = model.start_of[problem.sink];
  model.sink_offset = model.offset_of[problem.sink];
  model.low = earliest;
  model.decided = model.starts;
  model.goal = model.sink;
  model.goal_offset = model.sink_offset;
}

/// One arc a pair of starts and direction, the strongest; both halves of each.
void lay_arcs(const Network& network, Model& model) {
  std::map<std::pair<int, int>, int> strongest;
  for (const auto& edge : network.edges) {
    const int from = model.start_of[edge.from];
    const int to = model.start_of[edge.to];
    if (from == to) continue;
    const int length = edge.length + model.offset_of[edge.from] - model.offset_of[edge.to];
    const auto [place, is_new] = strongest.insert({{from, to}, length});
    if (!is_new) place->second = std::max(place->second, length);
  }
  Flat<Flat<Model::Arc>> rows;
  rows.fit(2 * model.starts);
  for (const auto& [ends, length] : strongest) {
    const auto [from, to] = ends;
    // What only repeats the limits of a start is in its first bounds already.
    if (from == model.source || to == model.source) continue;
    rows[2 * from].push_back({2 * to, length});
    rows[2 * to + 1].push_back({2 * from + 1, length});
  }
  model.first_arc.push_back(0);
  for (const auto& row : rows) {
    model.arcs.insert(model.arcs.end(), row.begin(), row.end());
    model.first_arc.push_back(model.arcs.count());
  }
}

/// The latest starts, by the same paths walked against the arcs.
void find_latest(const Network& network, const Problem& problem, Model& model) {
  Network back;
  back.nodes = network.nodes;
  for (const auto& edge : network.edges)
    back.edges.push_back({edge.to, edge.from, edge.length, edge.lag});
  const auto paths = longest_paths(back, problem.source);
  model.high.fit(model.starts, 0);
  for (int i = 0; i < network.nodes; ++i) {
    model.high[model.start_of[i]] = -paths.distance[i] - model.offset_of[i];
  }
}

}  // namespace

Built build(const Problem& problem) {
  Built built;
  const auto network = network_of(problem);
  const auto paths = longest_paths(network, problem.source);
  if (!paths.cycle.empty()) {
    built.is_possible = false;
    built.cycle = paths.cycle;
    built.cycle_lags = paths.cycle_lags;
    built.excess = paths.excess;
    return built;
  }
  const auto groups = rigid_groups(network, paths.distance);
  name_starts(problem, groups, paths.distance, built.model);
  find_latest(network, problem, built.model);
  lay_arcs(network, built.model);
  lay_calendars(problem, built.model);
  built.is_possible = lay_tasks(problem, built.model);
  if (built.is_possible) lay_cliques(built.model);
  return built;
}

}  // namespace dampline::scheduling
