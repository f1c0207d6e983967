#pragma once

#include <span>

#include <dampline/scheduling/propagator.hpp>

namespace dampline::scheduling {

/// Checks learnt clauses one by one: the negation of a clause must fail by propagation alone, from
/// the clauses proved before it. A second propagator, so that the search is left alone.
class Prover {
 public:
  explicit Prover(const Model& model) : propagator_(model) {
    propagator_.unary.never_pause();
    lost_ = !propagator_.propagate();
  }

  /// Takes a fact that needs no proof, such as the limit set by a schedule.
  void accept(Literal l);

  /// Takes the same arcs as the search.
  void set_links(const Flat<Flat<Model::Arc>>& rows, Literal while_true) {
    propagator_.set_links(rows, while_true);
  }

  /// Proves a clause and keeps it; false when propagation does not fail.
  bool prove(std::span<const Literal> clause);

 private:
  void keep(std::span<const Literal> clause);

  Propagator propagator_;
  bool lost_ = false;  ///< failed without any assumption: everything follows
};

}  // namespace dampline::scheduling
