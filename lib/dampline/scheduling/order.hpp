#pragma once

#include <utility>

#include <dampline/scheduling/flat.hpp>

namespace dampline::scheduling {

/// Starts by how much they took part in recent conflicts; a binary heap.
class Order {
 public:
  explicit Order(int starts) {
    score_.fit(starts, 0.0);
    where_.fit(starts, -1);
    for (int x = 0; x < starts; ++x) insert(x);
  }

  [[nodiscard]] bool is_empty() const { return heap_.empty(); }
  [[nodiscard]] double score(int x) const { return score_[x]; }

  void insert(int x) {
    if (where_[x] >= 0) return;
    where_[x] = heap_.count();
    heap_.push_back(x);
    up(where_[x]);
  }

  int take() {
    const int top = heap_[0];
    const int last = heap_.back();
    heap_.pop_back();
    where_[top] = -1;
    if (top != last) {
      heap_[0] = last;
      where_[last] = 0;
      down(0);
    }
    return top;
  }

  void bump(int x) {
    score_[x] += step_;
    if (score_[x] > 1e100) {
      for (double& score : score_) score *= 1e-100;
      step_ *= 1e-100;
    }
    if (where_[x] >= 0) up(where_[x]);
  }

  void decay() { step_ /= 0.95; }

  /// Before the first conflict: `order` from most to least.
  void start_with(const Flat<int>& order) {
    double score = 1e-3;
    for (const int x : order) {
      score *= 0.999;
      score_[x] = score;
    }
    heap_.clear();
    where_.fit(where_.count(), -1);
    for (const int x : order) insert(x);
  }

 private:
  [[nodiscard]] bool before(int a, int b) const {
    return score_[a] != score_[b] ? score_[a] > score_[b] : a < b;
  }

  void up(int i) {
    const int x = heap_[i];
    while (i > 0) {
      const int parent = (i - 1) / 2;
      if (!before(x, heap_[parent])) break;
      heap_[i] = heap_[parent];
      where_[heap_[i]] = i;
      i = parent;
    }
    heap_[i] = x;
    where_[x] = i;
  }

  void down(int i) {
    const int x = heap_[i];
    for (int child = 2 * i + 1; child < heap_.count(); child = 2 * i + 1) {
      if (child + 1 < heap_.count() && before(heap_[child + 1], heap_[child])) ++child;
      if (!before(heap_[child], x)) break;
      heap_[i] = heap_[child];
      where_[heap_[i]] = i;
      i = child;
    }
    heap_[i] = x;
    where_[x] = i;
  }

  Flat<double> score_;
  Flat<int> heap_;
  Flat<int> where_;
  double step_ = 1.0;
};

}  // namespace dampline::scheduling
