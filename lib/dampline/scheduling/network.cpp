#include <algorithm>
#include <limits>
#include <utility>

#include <dampline/scheduling/clock.hpp>
#include <dampline/scheduling/network.hpp>

namespace dampline::scheduling {
namespace {

/// Strongly connected groups of the tight arcs: cycles of length zero, so rigid.
class Grouping {
 public:
  Grouping(const Network& network, const Flat<int>& distance) {
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

}  // namespace

Network network_of(const Problem& problem) {
  Network network;
  network.nodes = static_cast<int>(problem.activities.size());
  for (int i = 0; i < static_cast<int>(problem.lags.size()); ++i) {
    const auto& lag = problem.lags[static_cast<std::size_t>(i)];
    const auto& from = problem.activities[static_cast<std::size_t>(lag.from)];
    const auto& to = problem.activities[static_cast<std::size_t>(lag.to)];
    // Work that may pause lasts its duration or longer.
    if (lag.to_end && to.may_pause && has_calendar(problem, to)) continue;
    const int length =
        lag.least + (lag.from_end ? from.duration : 0) - (lag.to_end ? to.duration : 0);
    if (lag.from != lag.to || length > 0) network.edges.push_back({lag.from, lag.to, length, i});
  }
  for (int i = 0; i < network.nodes; ++i) {
    if (i == problem.source) continue;
    network.edges.push_back({problem.source, i, 0, -1});
    network.edges.push_back({i, problem.source, -problem.horizon, -1});
  }
  return network;
}

Longest longest_paths(const Network& network, int source) {
  constexpr int unreached = std::numeric_limits<int>::min();
  Longest result;
  result.distance.fit(network.nodes, unreached);
  result.distance[source] = 0;
  Flat<int> parent;
  parent.fit(network.nodes, -1);
  Flat<const Network::Edge*> edge_to;
  edge_to.fit(network.nodes, nullptr);
  int changed = -1;
  for (int round = 0; round <= network.nodes; ++round) {
    changed = -1;
    for (const auto& edge : network.edges) {
      const int from = result.distance[edge.from];
      if (from == unreached || from + edge.length <= result.distance[edge.to]) continue;
      result.distance[edge.to] = from + edge.length;
      parent[edge.to] = edge.from;
      edge_to[edge.to] = &edge;
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
    if (edge_to[walk]->lag >= 0) result.cycle_lags.push_back(edge_to[walk]->lag);
    result.excess += edge_to[walk]->length;
    walk = parent[walk];
  } while (walk != at);
  std::reverse(result.cycle.begin(), result.cycle.end());
  std::reverse(result.cycle_lags.begin(), result.cycle_lags.end());
  return result;
}

Groups rigid_groups(const Network& network, const Flat<int>& distance) {
  Grouping grouping(network, distance);
  return {std::move(grouping.group), grouping.count};
}

}  // namespace dampline::scheduling
