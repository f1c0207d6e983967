#include <algorithm>
#include <tuple>
#include <utility>

#include <dampline/scheduling/analysis.hpp>

namespace dampline::scheduling {

Analysis::Analysis(Propagator& propagator)
    : model_(propagator.model),
      trail_(propagator.trail),
      clauses_(propagator.clauses),
      timetable_(propagator.timetable),
      propagator_(propagator) {
  needed_.fit(trail_.halves(), none);
  place_.fit(trail_.halves(), -1);
  is_removed_.fit(trail_.halves(), 0);
}

void Analysis::find_conflict() {
  conflict_.clear();
  switch (propagator_.flaw()) {
    case Propagator::Flaw::crossed: {
      // The entry itself must not stay in the clause: with its opposite it would say nothing.
      const int last = trail_.size() - 1;
      const Entry& entry = trail_.entry(last);
      explain(last, entry.value, conflict_);
      conflict_.push_back({entry.half ^ 1, 1 - entry.value});
      break;
    }
    case Propagator::Flaw::clause:
      for (const Literal l : clauses_.literals(propagator_.broken_clause())) {
        conflict_.push_back(negation(l));
      }
      break;
    case Propagator::Flaw::overload: {
      const auto [resource, instant] = timetable_.overload();
      choose_holders(resource, instant, -1, model_.capacity[resource], trail_.size(), conflict_);
      break;
    }
    case Propagator::Flaw::crowded:
      propagator_.unary.explain_overload(trail_, conflict_);
      break;
    case Propagator::Flaw::none:
      break;
  }
}

/// Adds a true literal to what has to be explained.
void Analysis::need(Literal l) {
  int& value = needed_[l.half];
  if (value >= l.value) return;
  const int place = trail_.place_of(l);
  const int at = trail_.entry(place).level;
  if (at == 0) return;
  touched.push_back(l.half >> 1);
  if (value == none) {
    open_.push_back(l.half);
  } else if (trail_.entry(place_[l.half]).level == level_) {
    --current_;
  }
  value = l.value;
  place_[l.half] = place;
  if (at == level_) ++current_;
}

void Analysis::explain(int place, int value, Flat<Literal>& out) {
  const Entry& entry = trail_.entry(place);
  switch (entry.cause) {
    case Cause::arc:
      out.push_back({entry.b, value - entry.a});
      break;
    case Cause::clause:
      for (const Literal l : clauses_.literals(entry.a)) {
        if (l.half != entry.half) out.push_back(negation(l));
      }
      break;
    case Cause::peak:
      explain_peak(entry, place, out);
      break;
    case Cause::gate:
    case Cause::bend:
      out.push_back(bent_reason(model_, entry, value));
      break;
    case Cause::order:
      propagator_.changeovers.explain(trail_, entry, place, value, out);
      break;
    case Cause::sum:
      propagator_.sums.explain(trail_, entry, place, value, out);
      break;
    case Cause::edge:
    case Cause::precede:
      propagator_.unary.explain(trail_, entry, place, value, out);
      break;
    case Cause::link:
      out.push_back({entry.b, value - entry.a});
      out.push_back(propagator_.links_hold());
      break;
    case Cause::root:
    case Cause::decision:
      break;
  }
}

void Analysis::explain_peak(const Entry& entry, int place, Flat<Literal>& out) {
  const auto& task = model_.tasks[entry.a];
  const int instant = entry.b;
  if ((entry.half & 1) == 0) {
    out.push_back(at_least(task.start, model_.reach(task, instant + 1) - task.offset));
  } else {
    out.push_back(at_most(task.start, instant - task.offset));
  }
  const int r = timetable_.resource_of(entry.a);
  choose_holders(r, instant, entry.a, model_.capacity[r] - task.amount, place, out);
}

/// Tasks that together hold more than `more_than` at an instant, as literals true before `place`:
/// those that cost nothing first, then the heaviest.
void Analysis::choose_holders(int resource, int instant, int except, int more_than, int place,
                              Flat<Literal>& out) {
  holders_.clear();
  more_than -= timetable_.missing(resource, instant);
  const auto covers = [&](const Model::Task& task) {
    return std::pair{at_least(task.start, model_.reach(task, instant + 1) - task.offset),
                     at_most(task.start, instant - task.offset)};
  };
  for (int k = model_.first_task[resource]; k < model_.first_task[resource + 1]; ++k) {
    if (!timetable_.covers(k, instant) || k == except) continue;
    const auto [low, high] = covers(model_.tasks[k]);
    const int low_place = trail_.place_of(low);
    const int high_place = trail_.place_of(high);
    if (low_place >= place || high_place >= place) continue;
    const auto cost = [&](Literal l, int at) {
      const int level = trail_.entry(at).level;
      return level == 0 || needed_[l.half] >= l.value ? 0 : 1;
    };
    holders_.push_back({k, model_.tasks[k].amount, cost(low, low_place) + cost(high, high_place)});
  }
  std::sort(holders_.begin(), holders_.end(), [](const Holder& a, const Holder& b) {
    return std::tuple(a.cost, -a.amount, a.task) < std::tuple(b.cost, -b.amount, b.task);
  });
  int sum = 0;
  int used = 0;
  while (used < holders_.count() && sum <= more_than) sum += holders_[used++].amount;
  for (int i = used - 1; i >= 0; --i) {
    if (sum - holders_[i].amount > more_than) {
      sum -= holders_[i].amount;
      continue;
    }
    const auto [low, high] = covers(model_.tasks[holders_[i].task]);
    out.push_back(low);
    out.push_back(high);
  }
}

bool Analysis::learn(long long when) {
  find_conflict();
  clause.clear();
  touched.clear();
  open_.clear();
  current_ = 0;
  level_ = 0;
  for (const Literal l : conflict_) {
    level_ = std::max(level_, trail_.entry(trail_.place_of(l)).level);
  }
  if (level_ == 0) return false;
  for (const Literal l : conflict_) need(l);
  int place = trail_.size() - 1;
  for (;; --place) {
    const Entry& entry = trail_.entry(place);
    if (needed_[entry.half] == none || place_[entry.half] != place) continue;
    if (current_ == 1) break;
    const int value = needed_[entry.half];
    reason_.clear();
    explain(place, value, reason_);
    if (entry.cause == Cause::clause) clauses_.used(entry.a, clauses_.glue(entry.a), when);
    needed_[entry.half] = none;
    --current_;
    for (const Literal l : reason_) need(l);
  }
  const int half = trail_.entry(place).half;
  clause.push_back({half, needed_[half]});
  std::erase_if(open_, [&](int h) { return needed_[h] == none || h == half; });
  std::sort(open_.begin(), open_.end());
  open_.erase(std::unique(open_.begin(), open_.end()), open_.end());
  minimise();
  finish();
  return true;
}

/// Drops needs that the others imply. Latest first; a dropped need no longer serves as a support,
/// so that two needs never drop each other.
void Analysis::minimise() {
  ++now_;
  stamp_.grow(std::max(stamp_.count(), trail_.size()), 0);
  answer_value_.grow(stamp_.count(), 0);
  answer_.grow(stamp_.count(), 0);
  std::sort(open_.begin(), open_.end(), [&](int a, int b) { return place_[a] > place_[b]; });
  for (const int half : open_) {
    const int place = place_[half];
    if (trail_.entry(place).cause == Cause::decision) continue;
    Flat<Literal> reason;
    explain(place, needed_[half], reason);
    is_removed_[half] = 1;
    for (const Literal l : reason) {
      if (!is_implied(l, 0)) {
        is_removed_[half] = 0;
        break;
      }
    }
  }
}

bool Analysis::is_implied(Literal l, int depth) {
  if (needed_[l.half] >= l.value && is_removed_[l.half] == 0) return true;
  const int place = trail_.place_of(l);
  const Entry& entry = trail_.entry(place);
  if (entry.level == 0) return true;
  if (entry.cause == Cause::decision || depth > 12) return false;
  if (stamp_[place] == now_) {
    if (answer_[place] == 0 && l.value >= answer_value_[place]) return false;
    if (answer_[place] == 1 && l.value <= answer_value_[place]) return true;
  }
  Flat<Literal> reason;
  explain(place, l.value, reason);
  bool implied = true;
  for (const Literal r : reason) {
    if (!is_implied(r, depth + 1)) {
      implied = false;
      break;
    }
  }
  // A yes stays a yes only while no further need is dropped; a no is final.
  if (!implied) {
    stamp_[place] = now_;
    answer_[place] = 0;
    answer_value_[place] = l.value;
  }
  return implied;
}

void Analysis::finish() {
  for (const int half : open_) {
    if (is_removed_[half] == 0) clause.push_back({half, needed_[half]});
    is_removed_[half] = 0;
  }
  for (const int half : open_) needed_[half] = none;
  needed_[clause[0].half] = none;
  back_level = 0;
  int second = 0;
  Flat<int> levels;
  for (int i = 1; i < clause.count(); ++i) {
    const int at = trail_.entry(place_[clause[i].half]).level;
    levels.push_back(at);
    if (at > back_level) {
      back_level = at;
      second = i;
    }
  }
  if (second > 1) std::swap(clause[1], clause[second]);
  std::sort(levels.begin(), levels.end());
  glue = 1 + static_cast<int>(std::unique(levels.begin(), levels.end()) - levels.begin());
  for (Literal& l : clause) l = negation(l);
}

}  // namespace dampline::scheduling
