#include <algorithm>
#include <limits>
#include <map>
#include <utility>

#include <dampline/scheduling/model.hpp>

namespace dampline::scheduling {
namespace {

/// Lags, and the limits 0 <= start <= horizon, as arcs between activities.
struct Network {
  struct Edge {
    int from;
    int to;
    int length;
  };
  int nodes = 0;
  Flat<Edge> edges;
};

Network network_of(const Problem& problem) {
  Network network;
  network.nodes = static_cast<int>(problem.activities.size());
  for (const auto& lag : problem.lags) {
    if (lag.from != lag.to) {
      network.edges.push_back({lag.from, lag.to, lag.least});
    } else if (lag.least > 0) {
      network.edges.push_back({lag.from, lag.to, lag.least});
    }
  }
  for (int i = 0; i < network.nodes; ++i) {
    if (i == problem.source) continue;
    network.edges.push_back({problem.source, i, 0});
    network.edges.push_back({i, problem.source, -problem.horizon});
  }
  return network;
}

struct Longest {
  Flat<int> distance;
  std::vector<int> cycle;  ///< not empty: these nodes close a cycle of positive length
};

/// Bellman-Ford with a queue of rounds; the predecessor graph gives the cycle.
Longest longest_paths(const Network& network, int source) {
  constexpr int unreached = std::numeric_limits<int>::min();
  Longest result;
  result.distance.fit(network.nodes, unreached);
  result.distance[source] = 0;
  Flat<int> parent;
  parent.fit(network.nodes, -1);
  int changed = -1;
  for (int round = 0; round <= network.nodes; ++round) {
    changed = -1;
    for (const auto& edge : network.edges) {
      const int from = result.distance[edge.from];
      if (from == unreached || from + edge.length <= result.distance[edge.to]) continue;
      result.distance[edge.to] = from + edge.length;
      parent[edge.to] = edge.from;
      changed = edge.to;
    }
    if (changed < 0) return result;
    if (result.distance[source] > 0) break;
  }
  // Some ancestor of the last change lies on the cycle; walking far enough back reaches it.
  int at = result.distance[source] > 0 ? source : changed;
  for (int step = 0; step < network.nodes && parent[at] >= 0; ++step) at = parent[at];
  int walk = at;
  do {
    result.cycle.push_back(walk);
    walk = parent[walk];
  } while (walk != at);
  std::reverse(result.cycle.begin(), result.cycle.end());
  return result;
}

/// Strongly connected groups of the tight arcs: cycles of length zero, so rigid.
class Groups {
 public:
  Groups(const Network& network, const Flat<int>& distance) {
    const int n = network.nodes;
    first_.fit(n + 1, 0);
    const auto tight = [&](const Network::Edge& e) {
      return distance[e.from] + e.length == distance[e.to];
    };
    for (const auto& e : network.edges) {
      if (tight(e)) ++first_[e.from + 1];
    }
    for (int i = 0; i < n; ++i) first_[i + 1] += first_[i];
    next_.fit(first_[n], 0);
    Flat<int> fill(first_);
    for (const auto& e : network.edges) {
      if (tight(e)) next_[fill[e.from]++] = e.to;
    }
    group.fit(n, -1);
    index_.fit(n, -1);
    lowest_.fit(n, 0);
    for (int i = 0; i < n; ++i) {
      if (index_[i] < 0) visit(i);
    }
  }

  Flat<int> group;
  int count = 0;

 private:
  /// [tarjan1972], with its own stack: chains of lags may be long.
  void visit(int root) {
    Flat<std::pair<int, int>> calls;
    enter(root, calls);
    while (!calls.empty()) {
      auto& [node, edge] = calls.back();
      if (edge < first_[node + 1]) {
        const int to = next_[edge++];
        if (index_[to] < 0) {
          enter(to, calls);
        } else if (group[to] < 0) {
          lowest_[node] = std::min(lowest_[node], index_[to]);
        }
        continue;
      }
      const int done = node;
      calls.pop_back();
      if (!calls.empty()) {
        const int above = calls.back().first;
        lowest_[above] = std::min(lowest_[above], lowest_[done]);
      }
      if (lowest_[done] == index_[done]) close(done);
    }
  }

  void enter(int node, Flat<std::pair<int, int>>& calls) {
    index_[node] = lowest_[node] = order_++;
    open_.push_back(node);
    calls.push_back({node, first_[node]});
  }

  void close(int root) {
    for (int node = -1; node != root;) {
      node = open_.back();
      open_.pop_back();
      group[node] = count;
    }
    ++count;
  }

  Flat<int> first_;
  Flat<int> next_;
  Flat<int> index_;
  Flat<int> lowest_;
  Flat<int> open_;
  int order_ = 0;
};

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
  for (const auto& edge : network.edges) back.edges.push_back({edge.to, edge.from, edge.length});
  const auto paths = longest_paths(back, problem.source);
  model.high.fit(model.starts, 0);
  for (int i = 0; i < network.nodes; ++i) {
    model.high[model.start_of[i]] = -paths.distance[i] - model.offset_of[i];
  }
}

/// Joins what the activities of one start hold of a resource into pieces of constant amount.
void lay_tasks(const Problem& problem, Built& built) {
  Model& model = built.model;
  const int resources = static_cast<int>(problem.resources.size());
  const int n = static_cast<int>(problem.activities.size());
  Flat<Flat<std::map<int, int>>> change;  // resource, start: offset -> step of use
  change.fit(resources);
  for (auto& row : change) row.fit(model.starts);
  for (int i = 0; i < n; ++i) {
    const auto& activity = problem.activities[static_cast<std::size_t>(i)];
    if (activity.duration == 0) continue;
    for (const auto& use : activity.uses) {
      auto& steps = change[use.resource][model.start_of[i]];
      steps[model.offset_of[i]] += use.amount;
      steps[model.offset_of[i] + activity.duration] -= use.amount;
    }
  }
  model.first_task.push_back(0);
  for (int r = 0; r < resources; ++r) {
    model.capacity.push_back(problem.resources[static_cast<std::size_t>(r)].capacity);
    for (int x = 0; x < model.starts; ++x) {
      int amount = 0;
      int since = 0;
      for (const auto& [offset, step] : change[r][x]) {
        if (step == 0) continue;
        if (amount > 0) {
          model.tasks.push_back({x, since, offset - since, amount});
          model.span = std::max(model.span, model.high[x] + offset + 1);
        }
        amount += step;
        since = offset;
        if (amount > model.capacity[r]) built.is_possible = false;
      }
    }
    model.first_task.push_back(model.tasks.count());
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
    return built;
  }
  const Groups groups(network, paths.distance);
  name_starts(problem, groups, paths.distance, built.model);
  find_latest(network, problem, built.model);
  lay_arcs(network, built.model);
  lay_tasks(problem, built);
  return built;
}

}  // namespace dampline::scheduling
