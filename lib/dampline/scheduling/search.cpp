#include <algorithm>
#include <numeric>

#include <dampline/scheduling/neighbourhood.hpp>
#include <dampline/scheduling/search.hpp>

namespace dampline::scheduling {
namespace {

// From trials on the published sets and on days of printing.
constexpr long long conflicts_a_round = 100;
constexpr long long conflicts_to_construct = 200;
constexpr long long most_clauses = 4000;
constexpr long long clauses_a_round = 30;
// A search that goes on for long does better with fewer clauses, the tightest ones.
constexpr long long long_search = 20000;
constexpr long long most_clauses_then = 1500;
constexpr long long clauses_a_round_then = 8;
constexpr long long conflicts_around = 200;
constexpr int starts_set_free = 150;

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
  reduce_at_ = most_clauses;
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
  if (wanted > high && is_long()) return at_most(x, low + (high - low) / 2);
  if (wanted >= high) return at_least(x, high);
  return at_most(x, wanted);
}

Search::End Search::dive(long long limit, Style style, std::span<const Literal> assumed) {
  for (;;) {
    if (!propagator_.propagate()) {
      if (!resolve_conflict()) return End::exhausted;
      if (conflicts_ >= options_.conflicts) return End::stopped;
      if (is_stopped()) return End::stopped;
      if (conflicts_ % report_every_ == 0 && !report()) return End::stopped;
      if (conflicts_ >= limit) return End::restart;
      continue;
    }
    const auto open =
        std::find_if(assumed.begin(), assumed.end(), [&](Literal l) { return !trail_.is_true(l); });
    if (open != assumed.end()) {
      if (trail_.is_false(*open)) return End::refuted;
      propagator_.decide(*open);
      continue;
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

bool Search::is_long() const { return conflicts_ > long_search; }

bool Search::improve() { return tighten(at_most(model_.goal, best_[model_.goal] - 1)); }

/// A value to try for: ever closer to the best one while none is found.
std::optional<Literal> Search::target(long long step) const {
  // Later the first try is a bolder one: refuted, it still is a bound.
  const int twentieths[] = {is_long() ? 2 : 5, 10, 15, 18};
  if (best_.empty() || step % 2 == 0) return std::nullopt;
  const int low = trail_.low(model_.goal);
  const int room = best_[model_.goal] - 1 - low;
  return at_most(model_.goal, low + room * twentieths[(step / 2) % 4] / 20);
}

/// A better schedule that keeps the order of the best one but for a stretch of time. What is
/// learnt there without the order stays for good; the rest goes with the literal.
Search::End Search::look_around() {
  if (looked_at_ >= model_.decided) looked_at_ = 0;
  const auto is_free = free_stretch(model_, best_, looked_at_, starts_set_free);
  looked_at_ += starts_set_free / 2;
  const Literal chosen = at_least(model_.chooser, trail_.high(model_.chooser));
  auto rows = order_of(model_, best_, is_free);
  if (prover_) prover_->set_links(rows, chosen);
  propagator_.set_links(std::move(rows), chosen);
  const End end = dive(conflicts_ + conflicts_around, Style::learn, {&chosen, 1});
  if (end == End::solved && !take_solution()) return End::stopped;
  if (end == End::stopped || end == End::exhausted) return end;
  if (!tighten(negation(chosen))) return End::exhausted;
  if (end == End::solved && !improve()) return End::exhausted;
  return end;
}

void Search::forget_clauses(long long round) {
  if (clauses_.count() <= reduce_at_) return;
  clauses_.reduce(trail_, conflicts_, is_long());
  reduce_at_ = is_long() ? most_clauses_then + clauses_a_round_then * round
                         : most_clauses + clauses_a_round * round;
}

void Search::run() {
  exhausted_ = !propagator_.propagate() || (!best_.empty() && !improve());
  const auto number_of_starts = static_cast<unsigned long>(model_.decided);
  long long step = 0;  // rounds since the last better schedule, and before
  for (long long round = 0; !exhausted_ && !cancelled_; ++round) {
    back_to(0);
    if (clauses_.count() > reduce_at_ && !propagator_.propagate()) {
      exhausted_ = true;  // with nothing assumed: the search is over
      break;
    }
    forget_clauses(round);
    // Other seeds draw attention to a start a round; from there on each takes its own course.
    if (options_.seed != 1) order_.bump(static_cast<int>(random_() % number_of_starts));
    const Style style = best_.empty() && round % 2 == 0 ? Style::construct : Style::learn;
    const long long limit =
        style == Style::construct ? conflicts_to_construct : conflicts_a_round * luby(round);
    const auto assumed = target(step);
    const End end = dive(conflicts_ + limit, style,
                         assumed ? std::span(&*assumed, 1) : std::span<const Literal>{});
    if (end == End::stopped) break;
    exhausted_ = end == End::exhausted;
    if (end == End::solved) {
      if (!take_solution()) break;
      exhausted_ = !improve();
    } else {
      ++step;
    }
    if (exhausted_ || model_.chooser < 0 || best_.empty()) continue;
    back_to(0);
    const End around = look_around();
    if (around == End::stopped) break;
    exhausted_ = around == End::exhausted;
  }
  back_to(0);
}

}  // namespace dampline::scheduling
