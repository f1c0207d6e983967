#pragma once

#include <optional>
#include <random>
#include <span>

#include <dampline/scheduling/analysis.hpp>
#include <dampline/scheduling/order.hpp>
#include <dampline/scheduling/propagator.hpp>
#include <dampline/scheduling/prover.hpp>
#include <dampline/scheduling/solve.hpp>

namespace dampline::scheduling {

/// The search over one model: propagate, decide, learn, start again.
class Search {
 public:
  Search(const Model& model, const Options& options, int objective = 0);

  /// Runs until proof, budget or cancellation.
  void run();

  /// Takes a valid schedule (of starts) as the best so far.
  void offer(const Flat<int>& starts);

  [[nodiscard]] const Flat<int>& best() const { return best_; }  ///< empty: none
  [[nodiscard]] bool is_exhausted() const { return exhausted_; }
  [[nodiscard]] bool was_cancelled() const { return cancelled_; }
  [[nodiscard]] int bound() const;  ///< least value of the goal not excluded
  [[nodiscard]] long long conflicts() const { return conflicts_; }
  [[nodiscard]] long long unproved() const { return unproved_; }

 private:
  enum class End { restart, solved, refuted, exhausted, stopped };
  enum class Style { construct, learn };

  End dive(long long limit, Style style, std::span<const Literal> assumed);
  End look_around();
  [[nodiscard]] std::optional<Literal> target(long long step) const;
  void forget_clauses(long long round);
  bool improve();
  [[nodiscard]] bool is_long() const;
  void back_to(int level);
  bool resolve_conflict();
  void bump();
  [[nodiscard]] int pick_latest() const;
  [[nodiscard]] Literal branch(int x, Style style) const;
  bool take_solution();
  bool tighten(Literal l);
  bool report();
  bool is_stopped();

  const Model& model_;
  const Options& options_;
  int objective_;
  Propagator propagator_;
  Trail& trail_;
  Clauses& clauses_;
  Analysis analysis_;
  Order order_;
  Flat<int> best_;
  std::optional<Prover> prover_;
  long long conflicts_ = 0;
  long long reduce_at_ = 0;
  long long unproved_ = 0;
  bool exhausted_ = false;
  bool cancelled_ = false;
  std::minstd_rand random_;
  long long report_every_;
  long long decisions_ = 0;
  int looked_at_ = 0;  ///< first start, in order of time, of the next neighbourhood
};

}  // namespace dampline::scheduling
