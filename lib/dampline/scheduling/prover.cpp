#include <algorithm>

#include <dampline/scheduling/prover.hpp>

namespace dampline::scheduling {

void Prover::accept(Literal l) {
  auto& trail = propagator_.trail;
  if (lost_ || trail.is_true(l)) return;
  lost_ = !trail.raise(l, Cause::root, 0, 0) || !propagator_.propagate();
}

bool Prover::prove(std::span<const Literal> clause) {
  if (lost_) return true;
  auto& trail = propagator_.trail;
  bool is_proved = false;
  for (const Literal l : clause) {
    if (trail.is_true(l)) {
      is_proved = true;  // already follows from the ones before
      break;
    }
    if (trail.is_false(l)) continue;
    propagator_.decide(negation(l));
    if (!propagator_.propagate()) {
      is_proved = true;
      break;
    }
  }
  propagator_.back_to(0);
  keep(clause);
  return is_proved;
}

void Prover::keep(std::span<const Literal> clause) {
  const auto& trail = propagator_.trail;
  Flat<Literal> open;
  for (const Literal l : clause) {
    if (trail.is_true(l)) return;
    if (!trail.is_false(l)) open.push_back(l);
  }
  if (open.empty()) {
    lost_ = true;
  } else if (open.count() == 1) {
    accept(open[0]);
  } else {
    propagator_.clauses.add(open, open.count());
  }
}

}  // namespace dampline::scheduling
