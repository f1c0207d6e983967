#include <algorithm>
#include <numeric>

#include <dampline/scheduling/search.hpp>

namespace dampline::scheduling {
namespace {

/// 1 1 2 1 1 2 4 ... [luby1993]
long long luby(long long i) {
  long long size = 1;
  while (size < i + 1) size = 2 * size + 1;
  while (size - 1 != i) {
    size /= 2;
    i %= size;
  }
  return (size + 1) / 2;
}

}  // namespace

Search::Search(const Model& model, const Options& options, int objective)
    : model_(model),
      options_(options),
      objective_(objective),
      propagator_(model),
      trail_(propagator_.trail),
      clauses_(propagator_.clauses),
      analysis_(propagator_),
      order_(model.decided),
      random_(options.seed),
      report_every_(std::max(options.report_every, 1LL)) {
  if (options.prove_clauses) prover_.emplace(model);
  Flat<int> order;
  order.fit(model.decided);
  std::iota(order.begin(), order.end(), 0);
  std::stable_sort(order.begin(), order.end(),
                   [&](int a, int b) { return model.high[a] < model.high[b]; });
  order_.start_with(order);
  reduce_at_ = 4000;
}

int Search::bound() const {
  // The latest entry of the goal's lower half that was made without a decision.
  int place = trail_.place_of(at_least(model_.goal, trail_.low(model_.goal)));
  while (trail_.entry(place).level > 0) place = trail_.entry(place).previous;
  return trail_.entry(place).value;
}

void Search::back_to(int level) {
  // Starts that become free again return to the order.
  for (int place = trail_.size() - 1; place >= 0 && trail_.entry(place).level > level; --place) {
    if (const int x = trail_.entry(place).half >> 1; x < model_.decided) order_.insert(x);
  }
  propagator_.back_to(level);
}

bool Search::tighten(Literal l) {
  back_to(0);
  if (trail_.is_true(l)) return true;
  if (prover_) prover_->accept(l);
  return trail_.raise(l, Cause::root, 0, 0) && propagator_.propagate();
}

void Search::bump() {
  for (const int x : analysis_.touched) {
    if (x < model_.decided) order_.bump(x);
  }
  order_.decay();
}

bool Search::resolve_conflict() {
  ++conflicts_;
  if (!analysis_.learn(conflicts_)) return false;
  bump();
  if (prover_ && !prover_->prove(analysis_.clause)) ++unproved_;
  back_to(analysis_.back_level);
  const auto& clause = analysis_.clause;
  if (clause.count() == 1) return trail_.raise(clause[0], Cause::root, 0, 0);
  const int place = clauses_.add(clause, analysis_.glue);
  clauses_.used(place, analysis_.glue, conflicts_);
  trail_.raise(clause[0], Cause::clause, place, 0);
  return true;
}

int Search::pick_latest() const {
  int best = -1;
  for (int x = 0; x < model_.decided; ++x) {
    if (trail_.is_fixed(x)) continue;
    if (best < 0 || trail_.high(x) < trail_.high(best) ||
        (trail_.high(x) == trail_.high(best) && trail_.low(x) < trail_.low(best))) {
      best = x;
    }
  }
  return best;
}

Literal Search::branch(int x, Style style) const {
  const int low = trail_.low(x);
  const int high = trail_.high(x);
  if (style == Style::construct || best_.empty()) return at_most(x, low);
  const int wanted = best_[x];
  if (wanted <= low) return at_most(x, low);
  if (wanted >= high) return at_least(x, high);
  return at_most(x, wanted);
}

Search::End Search::dive(long long limit, Style style, const Literal* assumed) {
  for (;;) {
    if (!propagator_.propagate()) {
      if (!resolve_conflict()) return End::exhausted;
      if (conflicts_ >= options_.conflicts) return End::stopped;
      if (is_stopped()) return End::stopped;
      if (conflicts_ % report_every_ == 0 && !report()) return End::stopped;
      if (conflicts_ >= limit) return End::restart;
      continue;
    }
    if (trail_.level() == 0 && assumed != nullptr) {
      if (trail_.is_false(*assumed)) return End::refuted;
      if (!trail_.is_true(*assumed)) {
        propagator_.decide(*assumed);
        continue;
      }
    }
    int x = -1;
    if (style == Style::construct) {
      x = pick_latest();
    } else {
      while (!order_.is_empty()) {
        const int top = order_.take();
        if (!trail_.is_fixed(top)) {
          x = top;
          break;
        }
      }
      if (x >= 0) order_.insert(x);
    }
    if (x < 0) return End::solved;
    if (++decisions_ % 1024 == 0 && is_stopped()) return End::stopped;
    propagator_.decide(branch(x, style));
  }
}

bool Search::report() {
  if (is_stopped()) return false;
  if (!options_.progress) return true;
  Progress progress;
  progress.conflicts = conflicts_;
  progress.objective = objective_;
  const auto value = [&](int goal) { return model_.goal_offset + model_.goal_sign * goal; };
  progress.has_schedule = !best_.empty();
  if (progress.has_schedule) progress.makespan = value(best_[model_.goal]);
  progress.bound = value(bound());
  if (!options_.progress(progress)) cancelled_ = true;
  return !cancelled_;
}

bool Search::is_stopped() {
  if (options_.stop != nullptr && options_.stop->load(std::memory_order_relaxed)) cancelled_ = true;
  return cancelled_;
}

void Search::offer(const Flat<int>& starts) { best_ = starts; }

bool Search::take_solution() {
  best_.fit(model_.starts);
  for (int x = 0; x < model_.starts; ++x) best_[x] = trail_.low(x);
  return report();
}

void Search::run() {
  constexpr long long base = 100;
  constexpr long long first_limit = 200;
  long long round = 0;
  if (!propagator_.propagate()) {
    exhausted_ = true;
    return;
  }
  if (!best_.empty() && !tighten(at_most(model_.goal, best_[model_.goal] - 1))) {
    exhausted_ = true;
    return;
  }
  int step = 0;
  Literal assumption;
  while (!cancelled_) {
    back_to(0);
    if (clauses_.count() > reduce_at_) {
      if (!propagator_.propagate()) {  // with nothing assumed: the search is over
        exhausted_ = true;
        return;
      }
      clauses_.reduce(trail_, conflicts_);
      reduce_at_ = 4000 + 30 * round;
    }
    // Other seeds draw attention to a start a round; from there on each takes its own course.
    if (options_.seed != 1) {
      order_.bump(static_cast<int>(random_() % static_cast<unsigned long>(model_.decided)));
    }
    const Style style = best_.empty() && (round % 2 == 0) ? Style::construct : Style::learn;
    const long long limit =
        conflicts_ + (style == Style::construct ? first_limit : base * luby(round));
    const Literal* assumed = nullptr;
    if (style == Style::learn && !best_.empty() && step % 2 == 1) {
      const int low = trail_.low(model_.goal);
      const int high = best_[model_.goal] - 1;
      static constexpr int quarters[] = {5, 10, 15, 18};
      const int f = quarters[(step / 2) % 4];
      assumption = at_most(model_.goal, low + (high - low) * f / 20);
      assumed = &assumption;
    }
    ++round;
    const End end = dive(limit, style, assumed);
    if (end == End::stopped) break;
    if (end == End::exhausted) {
      exhausted_ = true;
      return;
    }
    if (end == End::solved) {
      if (!take_solution()) break;
      if (!tighten(at_most(model_.goal, best_[model_.goal] - 1))) {
        exhausted_ = true;
        return;
      }
    } else {
      ++step;
    }
  }
  back_to(0);
}

}  // namespace dampline::scheduling
