#pragma once

#include <dampline/scheduling/propagator.hpp>

namespace dampline::scheduling {

/// Turns a conflict into a clause: first unique implication point, then minimised.
///
/// What has to be explained is kept as one needed value a half (a larger one makes a smaller one
/// true). Every reason is made for the value that is needed, not for the value that was reached,
/// so that lags and peaks explain with the weakest literals that do.
class Analysis {
 public:
  explicit Analysis(Propagator& propagator);

  /// Learns from the flaw of the propagator. False: it holds without any decision, so there is
  /// no schedule.
  bool learn(long long when);

  Flat<Literal> clause;  ///< [0] becomes true after going back, [1] is false the longest
  int back_level = 0;    ///< where to go back to
  int glue = 0;          ///< levels in the clause
  Flat<int> touched;     ///< starts that took part, with repetition

 private:
  static constexpr int none = -(1 << 30);

  void find_conflict();
  void need(Literal l);
  void explain(int place, int value, Flat<Literal>& out);
  void explain_peak(const Entry& entry, int place, Flat<Literal>& out);
  void choose_holders(int resource, int instant, int except, int more_than, int place,
                      Flat<Literal>& out);
  void minimise();
  bool is_implied(Literal l, int depth);
  void finish();

  const Model& model_;
  const Trail& trail_;
  Clauses& clauses_;
  const Timetable& timetable_;
  const Propagator& propagator_;

  Flat<Literal> conflict_;  ///< literals that are all true and cannot be
  Flat<int> needed_;        ///< half -> value, or none
  Flat<int> place_;         ///< half -> trail place of that value
  Flat<int> open_;          ///< halves with a need, in no order
  int current_ = 0;         ///< needs at the conflict's level
  int level_ = 0;
  Flat<Literal> reason_;

  struct Holder {
    int task;
    int amount;
    int cost;
  };
  Flat<Holder> holders_;

  // Minimisation: answers by trail place, valid while the stamp is this conflict's.
  Flat<int> stamp_;
  Flat<int> answer_value_;
  Flat<char> answer_;
  int now_ = 0;
  Flat<char> is_removed_;
};

}  // namespace dampline::scheduling
