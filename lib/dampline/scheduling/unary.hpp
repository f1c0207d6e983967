#pragma once

#include <dampline/scheduling/model.hpp>
#include <dampline/scheduling/theta.hpp>
#include <dampline/scheduling/trail.hpp>

namespace dampline::scheduling {

/// Work of which no two pieces go on at once: what one pair of hands or one press does, and any
/// other tasks of which each two ask for more than there is.
///
/// Overload, edge-finding and detectable precedences, each in O(n log n) [vilim2004], with reasons
/// [vilim2005]. Everything is written for one direction of time and used for both: seen from side
/// 1 the clock runs backwards and latest ends are earliest starts.
class Unary {
 public:
  explicit Unary(const Model& model);

  /// A bound of start x moved.
  void note(int x) {
    if (cliques_of_.empty()) return;
    for (const int c : cliques_of_[x]) {
      if (is_moved_[c] != 0) continue;
      is_moved_[c] = 1;
      moved_.push_back(c);
    }
  }

  /// How propagate() ended. overload: see explain_overload.
  enum class End { quiet, moved, crossed, overload };

  /// Works through one of the cliques noted. `moved` when a bound moved, so that what is cheaper
  /// may come first.
  End propagate(Trail& trail);

  /// Never passes a clique over, however long it has had nothing to say.
  void never_pause() { may_pause_ = false; }

  /// Forgets what was noted, after going back.
  void forget();

  /// Literals true before `place` that make the entry reach `value`.
  void explain(const Trail& trail, const Entry& entry, int place, int value,
               Flat<Literal>& out) const;

  /// Literals that are true and cannot be, after propagate() returned overload.
  void explain_overload(const Trail& trail, Flat<Literal>& out) const;

 private:
  /// A job as one side sees it: est = bound[half] + shift, lct = shift + length - bound[half ^ 1].
  struct Job {
    int clique;
    int half;
    int shift;
    int length;
  };
  /// One as it is now, under its number in the clique.
  struct Now {
    int job;
    int est;
    int lct;
    int length;
  };
  /// A job that may be part of a reason.
  struct Part {
    int job;
    int est;
    int lct;
    int length;
    bool delays;  ///< what comes after it cannot start sooner
    bool crowds;  ///< without it the others would fit
  };

  [[nodiscard]] static Literal starts_by_then(const Job& job, int est) {
    return {job.half, est - job.shift};
  }
  [[nodiscard]] static Literal ends_by(const Job& job, int lct) {
    return {job.half ^ 1, job.shift + job.length - lct};
  }

  bool look(const Trail& trail, int clique);
  void turn_round(int clique);
  bool find_edges(Trail& trail, int clique, int side);
  bool find_precedences(Trail& trail);
  bool push(Trail& trail, int k, int est, Cause cause, int limit);
  [[nodiscard]] int first(int clique, int side) const { return first_[2 * clique + side]; }

  void gather(const Trail& trail, int clique, int side, int job, int place, int limit,
              bool by_start) const;
  [[nodiscard]] int mark_until(int until) const;
  [[nodiscard]] int mark_too_much(int length, int latest, int limit) const;
  void explain_edge(const Trail& trail, int job, int limit, int place, int value,
                    Flat<Literal>& out) const;
  void explain_precedence(const Trail& trail, int job, int place, int value,
                          Flat<Literal>& out) const;

  Flat<Job> jobs_;  ///< clique by clique, side 0 then side 1
  Flat<int> first_;
  Flat<Flat<int>> cliques_of_;
  Flat<int> moved_;
  Flat<char> is_moved_;
  Flat<int> pause_;  ///< of a clique that has had nothing to say: how often to pass it over
  Flat<int> passed_;
  bool may_pause_ = true;
  Flat<Now> now_;  ///< what is not yet over, nor yet to come, in the clique looked at
  Flat<int> by_est_, by_lct_, by_lst_, by_ect_;
  Flat<int> place_;  ///< by earliest start
  Flat<long long> sorted_;
  Theta theta_;
  ShadedTheta shaded_;
  bool is_over_ = false;
  int over_clique_ = 0, over_side_ = 0, over_limit_ = 0;
  mutable Flat<Part> parts_;
};

}  // namespace dampline::scheduling
