#pragma once

#include <dampline/scheduling/flat.hpp>

namespace dampline::scheduling {

/// bound[half] >= value. Every start x has two halves: 2x bounds x from below, 2x+1 bounds -x.
struct Literal {
  int half = 0;
  int value = 0;
};

[[nodiscard]] constexpr Literal negation(Literal l) { return {l.half ^ 1, 1 - l.value}; }
[[nodiscard]] constexpr Literal at_least(int x, int value) { return {2 * x, value}; }
[[nodiscard]] constexpr Literal at_most(int x, int value) { return {2 * x + 1, -value}; }

/// Why a bound moved. `a` and `b` of the entry say which one: arc: length and source half;
/// clause: its place; peak: task and instant; gate: its number; bend: its number; order: the job
/// moved and the other one; sum: its number; link: length and source half; edge: job and the end of
/// what comes before it; precede: job.
enum class Cause : int {
  root,
  decision,
  arc,
  clause,
  peak,
  gate,
  bend,
  order,
  sum,
  link,
  edge,
  precede
};

struct Entry {
  int half;
  int value;
  int previous;  ///< the entry this half had before; -1 for its first
  int level;
  Cause cause;
  int a;
  int b;
};

/// All bound changes in order, with their reasons; going back undoes them.
///
/// An entry may cross the opposite bound: that is the conflict, and the caller analyses the two
/// halves at once, so that no propagator has to build conflicts of its own.
class Trail {
 public:
  explicit Trail(int starts) {
    bound_.fit(2 * starts, 0);
    top_.fit(2 * starts, -1);
  }

  void begin(int half, int value) {
    bound_[half] = value;
    top_[half] = entries_.count();
    entries_.push_back({half, value, -1, 0, Cause::root, 0, 0});
  }

  [[nodiscard]] int halves() const { return bound_.count(); }
  [[nodiscard]] int bound(int half) const { return bound_[half]; }
  [[nodiscard]] int low(int x) const { return bound_[2 * x]; }
  [[nodiscard]] int high(int x) const { return -bound_[2 * x + 1]; }
  [[nodiscard]] bool is_fixed(int x) const { return bound_[2 * x] == -bound_[2 * x + 1]; }
  [[nodiscard]] bool is_true(Literal l) const { return bound_[l.half] >= l.value; }
  [[nodiscard]] bool is_false(Literal l) const { return bound_[l.half ^ 1] >= 1 - l.value; }
  [[nodiscard]] int level() const { return starts_.count(); }
  [[nodiscard]] int size() const { return entries_.count(); }
  [[nodiscard]] const Entry& entry(int place) const { return entries_[place]; }

  /// The earliest entry that makes a true literal true.
  [[nodiscard]] int place_of(Literal l) const {
    int place = top_[l.half];
    for (int before = entries_[place].previous; before >= 0 && entries_[before].value >= l.value;
         before = entries_[place].previous) {
      place = before;
    }
    return place;
  }

  /// What the bound of a half was before the entry at `place` came.
  [[nodiscard]] int bound_before(int half, int place) const {
    int at = top_[half];
    while (at >= place) at = entries_[at].previous;
    return entries_[at].value;
  }

  /// Moves a bound that does not hold yet; false when it crosses the opposite one.
  bool raise(Literal l, Cause cause, int a, int b) {
    entries_.push_back({l.half, l.value, top_[l.half], level(), cause, a, b});
    top_[l.half] = entries_.count() - 1;
    bound_[l.half] = l.value;
    return bound_[l.half ^ 1] + l.value <= 0;
  }

  void decide(Literal l) {
    starts_.push_back(entries_.count());
    raise(l, Cause::decision, 0, 0);
  }

  /// Undoes everything above a level.
  void back_to(int level) {
    if (level >= starts_.count()) return;
    const int keep = starts_[level];
    for (int place = entries_.count() - 1; place >= keep; --place) {
      const Entry& entry = entries_[place];
      top_[entry.half] = entry.previous;
      bound_[entry.half] = entries_[entry.previous].value;
    }
    entries_.grow(keep, Entry{});
    starts_.grow(level, 0);
  }

 private:
  Flat<int> bound_;
  Flat<int> top_;
  Flat<Entry> entries_;
  Flat<int> starts_;
};

}  // namespace dampline::scheduling
