#pragma once

#include <algorithm>

#include <dampline/scheduling/flat.hpp>

namespace dampline::scheduling {

/// When a set of jobs, one at a time, can be done at the earliest, kept while jobs come and go: a
/// balanced tree over the jobs in order of their earliest starts ([vilim2004] section 2).
class Theta {
 public:
  /// No job yet, `many` to come.
  void begin(int many) {
    leaves_ = 1;
    while (leaves_ < many) leaves_ *= 2;
    nodes_.fit(2 * leaves_, Node{});
  }

  void add(int leaf, int start, int length) { set(leaf, {length, start + length}); }
  void remove(int leaf) { set(leaf, Node{}); }

  [[nodiscard]] int done() const { return nodes_[1].done; }

 private:
  static constexpr int never = -(1 << 29);
  struct Node {
    int work = 0;
    int done = never;
  };

  void set(int leaf, Node node) {
    Node* const nodes = nodes_.data();
    int at = leaves_ + leaf;
    nodes[at] = node;
    for (at /= 2; at > 0; at /= 2) {
      const Node a = nodes[2 * at];
      const Node b = nodes[2 * at + 1];
      nodes[at] = {a.work + b.work, std::max(b.done, a.done + b.work)};
    }
  }

  int leaves_ = 1;
  Flat<Node> nodes_;
};

/// The same with jobs that are `shaded`: at most one of them counts for the second answer, the one
/// that delays most ([vilim2004] section 4).
class ShadedTheta {
 public:
  /// For `many` jobs, which are then put in, and built, before any other call.
  void begin(int many) {
    leaves_ = 1;
    while (leaves_ < many) leaves_ *= 2;
    nodes_.fit(2 * leaves_, Node{});
  }
  void put(int leaf, int start, int length, bool is_shaded) {
    const int done = start + length;
    nodes_[leaves_ + leaf] = is_shaded ? Node{0, never, length, done, leaf, leaf}
                                       : Node{length, done, length, done, -1, -1};
  }
  void build() {
    for (int at = leaves_ - 1; at > 0; --at) join(at);
  }

  void shade(int leaf, int start, int length) {
    set(leaf, {0, never, length, start + length, leaf, leaf});
  }
  void remove(int leaf) { set(leaf, Node{}); }

  [[nodiscard]] int done() const { return nodes_[1].done; }
  [[nodiscard]] int done_shaded() const { return nodes_[1].done_shaded; }
  [[nodiscard]] int shaded() const { return nodes_[1].who_done; }  ///< the one that counts, or -1

 private:
  static constexpr int never = -(1 << 29);
  struct Node {
    int work = 0;
    int done = never;
    int work_shaded = 0;
    int done_shaded = never;
    int who_work = -1;
    int who_done = -1;
  };

  void set(int leaf, const Node& node) {
    int at = leaves_ + leaf;
    nodes_[at] = node;
    for (at /= 2; at > 0; at /= 2) join(at);
  }

  void join(int at) {
    const Node& a = nodes_[2 * at];
    const Node& b = nodes_[2 * at + 1];
    Node& n = nodes_[at];
    n.work = a.work + b.work;
    n.done = std::max(b.done, a.done + b.work);
    const int left = a.work_shaded + b.work;
    const int right = a.work + b.work_shaded;
    n.work_shaded = std::max(left, right);
    n.who_work = left >= right ? a.who_work : b.who_work;
    n.done_shaded = b.done_shaded;
    n.who_done = b.who_done;
    if (const int done = a.done_shaded + b.work; done > n.done_shaded) {
      n.done_shaded = done;
      n.who_done = a.who_done;
    }
    if (const int done = a.done + b.work_shaded; done > n.done_shaded) {
      n.done_shaded = done;
      n.who_done = b.who_work;
    }
  }

  int leaves_ = 1;
  Flat<Node> nodes_;
};

}  // namespace dampline::scheduling
