#pragma once

#include <span>

#include <dampline/scheduling/trail.hpp>

namespace dampline::scheduling {

/// The learnt clauses, watched by two literals each.
///
/// A clause lies in one array: size, glue, last use, then its literals; the first two are watched.
class Clauses {
 public:
  explicit Clauses(int halves) { watches_.fit(halves); }

  /// Adds a clause of two literals or more and returns its place. When it is to imply something,
  /// literals[0] is what it implies and literals[1] the false literal of the highest level.
  int add(std::span<const Literal> literals, int glue);

  /// Follows one bound change of `half`, from `old` (exclusive) to `now`. Returns the place of a
  /// clause whose literals are all false, or -1.
  int propagate(Trail& trail, int half, int old, int now);

  [[nodiscard]] std::span<const Literal> literals(int place) const {
    return {store_.data() + place + 1, static_cast<std::size_t>(store_[place].half)};
  }

  [[nodiscard]] int count() const { return places_.count(); }

  /// Notes that a clause took part in a conflict; `glue` is how many levels it joined there.
  void used(int place, int glue, long long when);

  [[nodiscard]] int glue(int place) const { return store_[place].value; }

  /// Forgets about half of the clauses, those of old use first, or those of high glue, and all
  /// that hold at level 0. Only at level 0, where no clause is a reason.
  void reduce(const Trail& trail, long long when, bool by_glue);

 private:
  struct Watch {
    int place;
    Literal other;  ///< some literal of the clause that may well be true
  };
  /// The watches of one half. The thresholds stand apart because most visits read nothing else.
  struct Row {
    Flat<int> threshold;  ///< the watched literal is false once the half's bound reaches it
    Flat<Watch> watch;

    void add(int limit, Watch w) {
      threshold.push_back(limit);
      watch.push_back(w);
    }
    void remove_marked(int from);
    void clear() {
      threshold.clear();
      watch.clear();
    }
  };

  void watch(int place);

  Flat<Literal> store_;
  Flat<int> places_;
  Flat<Row> watches_;
};

}  // namespace dampline::scheduling
