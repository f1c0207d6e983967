#include <algorithm>
#include <limits>
#include <utility>

#include <dampline/scheduling/clauses.hpp>

namespace dampline::scheduling {
namespace {

constexpr int removed = std::numeric_limits<int>::min();

/// The first index from `i` on whose value lies in (old, now]; n when there is none. In blocks,
/// so that the compiler compares several at once.
int next_within(const int* value, int i, int n, int old, int now) {
  constexpr int block = 8;
  for (; i + block <= n; i += block) {
    int hits = 0;
    for (int k = 0; k < block; ++k) {
      hits |= static_cast<int>(value[i + k] > old) & static_cast<int>(value[i + k] <= now);
    }
    if (hits != 0) break;
  }
  while (i < n && (value[i] <= old || value[i] > now)) ++i;
  return i;
}

}  // namespace

// A clause at `place`: store_[place] = {size, glue}, then `size` literals, then {last use, 0}.

int Clauses::add(std::span<const Literal> literals, int glue) {
  const int place = store_.count();
  store_.push_back({static_cast<int>(literals.size()), glue});
  store_.insert(store_.end(), literals.begin(), literals.end());
  store_.push_back({0, 0});
  places_.push_back(place);
  watch(place);
  return place;
}

void Clauses::watch(int place) {
  const Literal first = store_[place + 1];
  const Literal second = store_[place + 2];
  watches_[first.half ^ 1].add(1 - first.value, {place, second});
  watches_[second.half ^ 1].add(1 - second.value, {place, first});
}

void Clauses::Row::remove_marked(int from) {
  int kept = from;
  for (int i = from; i < threshold.count(); ++i) {
    if (threshold[i] == removed) continue;
    threshold[kept] = threshold[i];
    watch[kept++] = watch[i];
  }
  threshold.grow(kept);
  watch.grow(kept);
}

int Clauses::propagate(Trail& trail, int half, int old, int now) {
  auto& row = watches_[half];
  const int n = row.threshold.count();
  int first_removed = n;
  int broken = -1;
  for (int i = next_within(row.threshold.data(), 0, n, old, now); i < n;
       i = next_within(row.threshold.data(), i + 1, n, old, now)) {
    const Watch w = row.watch[i];
    if (trail.is_true(w.other)) continue;
    Literal* const literal = store_.data() + w.place + 1;
    const int size = store_[w.place].half;
    // The falsified literal goes to slot 1. No other literal of the clause has its half.
    if (literal[0].half == (half ^ 1)) std::swap(literal[0], literal[1]);
    if (trail.is_true(literal[0])) {
      row.watch[i].other = literal[0];
      continue;
    }
    int k = 2;
    while (k < size && trail.is_false(literal[k])) ++k;
    if (k < size) {
      std::swap(literal[1], literal[k]);
      watches_[literal[1].half ^ 1].add(1 - literal[1].value, {w.place, literal[0]});
      row.threshold[i] = removed;
      first_removed = std::min(first_removed, i);
      continue;
    }
    if (trail.is_false(literal[0])) {
      broken = w.place;
      break;
    }
    trail.raise(literal[0], Cause::clause, w.place, 0);  // fits: it is not false
  }
  if (first_removed < n) row.remove_marked(first_removed);
  return broken;
}

void Clauses::used(int place, int glue, long long when) {
  Literal& head = store_[place];
  head.value = std::min(head.value, glue);
  store_[place + 1 + head.half] = {static_cast<int>(when), 0};
}

void Clauses::reduce(const Trail& trail, long long when, bool by_glue) {
  const auto last_use = [&](int place) { return store_[place + 1 + store_[place].half].half; };
  Flat<int> by_worth(places_);
  const auto holds = [&](int place) {
    const auto all = literals(place);
    return std::any_of(all.begin(), all.end(), [&](Literal l) { return trail.is_true(l); });
  };
  std::erase_if(by_worth, holds);
  // Binding glue stays; so does what the last stretch of conflicts needed.
  const auto stays = [&](int place) {
    return glue(place) <= 2 || (glue(place) <= (by_glue ? 3 : 6) && last_use(place) + 10000 > when);
  };
  const auto middle = std::stable_partition(by_worth.begin(), by_worth.end(), stays);
  std::stable_sort(middle, by_worth.end(), [&](int a, int b) {
    if (by_glue) return std::pair(glue(a), last_use(b)) < std::pair(glue(b), last_use(a));
    return std::pair(last_use(b), glue(a)) < std::pair(last_use(a), glue(b));
  });
  const auto drop = (by_worth.end() - middle) / 2;
  by_worth.erase(by_worth.end() - drop, by_worth.end());
  std::sort(by_worth.begin(), by_worth.end());
  Flat<Literal> old;
  old.swap(store_);
  places_.clear();
  for (auto& row : watches_) row.clear();
  for (const int place : by_worth) {
    const auto from = old.begin() + place;
    const int size = from->half;
    places_.push_back(store_.count());
    store_.insert(store_.end(), from, from + size + 2);
  }
  for (const int place : places_) watch(place);
}

}  // namespace dampline::scheduling
