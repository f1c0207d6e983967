#include <algorithm>

#include <dampline/scheduling/propagator.hpp>

namespace dampline::scheduling {

Propagator::Propagator(const Model& m)
    : model(m),
      trail(m.starts),
      clauses(2 * m.starts),
      timetable(m),
      changeovers(m),
      sums(m),
      unary(m) {
  for (int x = 0; x < m.starts; ++x) {
    trail.begin(2 * x, m.low[x]);
    trail.begin(2 * x + 1, -m.high[x]);
  }
  has_calendars_ = !m.gates.empty() || !m.bends.empty();
}

bool Propagator::follow_calendar(const Entry& entry) {
  const int x = entry.half >> 1;
  const bool is_low = (entry.half & 1) == 0;
  if (const int g = model.gate_of[x]; g >= 0) {
    const auto& gate = model.gates[g];
    const Literal l =
        is_low ? at_least(x, gate.next(entry.value)) : at_most(x, gate.previous(-entry.value));
    if (!trail.is_true(l)) return trail.raise(l, Cause::gate, g, 0);
  }
  for (const int b : model.bends_of[entry.half]) {
    const auto& bend = model.bends[b];
    Literal l = is_low ? at_least(bend.to.start, model.forward(bend, entry.value))
                       : at_most(bend.from.start, model.backward(bend, -entry.value));
    // No further than it takes to cross the opposite bound: times stay small.
    l.value = std::min(l.value, 1 - trail.bound(l.half ^ 1));
    if (trail.is_true(l)) continue;
    if (!trail.raise(l, Cause::bend, b, 0)) return false;
  }
  return true;
}

Literal bent_reason(const Model& model, const Entry& entry, int value) {
  const int x = entry.half >> 1;
  const bool is_low = (entry.half & 1) == 0;
  // The contrary of what is to be explained, followed the other way, and turned round again.
  if (entry.cause == Cause::gate) {
    const auto& gate = model.gates[entry.a];
    return is_low ? at_least(x, gate.previous(value - 1) + 1)
                  : at_most(x, gate.next(1 - value) - 1);
  }
  const auto& bend = model.bends[entry.a];
  return is_low ? at_least(bend.from.start, model.backward(bend, value - 1) + 1)
                : at_most(bend.to.start, model.forward(bend, 1 - value) - 1);
}

bool Propagator::follow_lags(const Entry& entry) {
  if (entry.value < trail.bound(entry.half)) return true;  // a later entry says more
  if (has_calendars_ && !follow_calendar(entry)) return false;
  for (int i = model.first_arc[entry.half]; i < model.first_arc[entry.half + 1]; ++i) {
    const auto& arc = model.arcs[i];
    const Literal l{arc.to, entry.value + arc.length};
    if (trail.is_true(l)) continue;
    if (!trail.raise(l, Cause::arc, arc.length, entry.half)) return false;
  }
  if (links_.empty() || !trail.is_true(links_hold_)) return true;
  if (entry.half != links_hold_.half) return follow_links(entry.half);
  for (int half = 0; half < links_.count(); ++half) {
    if (!follow_links(half)) return false;
  }
  return true;
}

bool Propagator::follow_links(int half) {
  for (const auto& link : links_[half]) {
    const Literal l{link.to, trail.bound(half) + link.length};
    if (!trail.is_true(l) && !trail.raise(l, Cause::link, link.length, half)) return false;
  }
  return true;
}

bool Propagator::propagate() {
  for (;;) {
    while (head_ < trail.size()) {
      const Entry entry = trail.entry(head_++);
      if (!follow_lags(entry)) return fail(Flaw::crossed);
      const int old = entry.previous < 0 ? entry.value - 1 : trail.entry(entry.previous).value;
      broken_ = clauses.propagate(trail, entry.half, old, entry.value);
      if (broken_ >= 0) return fail(Flaw::clause);
    }
    while (time_head_ < trail.size()) {
      const int half = trail.entry(time_head_++).half;
      changeovers.note(half >> 1);
      sums.note(half);
      unary.note(half >> 1);
      if (!timetable.update(trail, half >> 1)) return fail(Flaw::overload);
    }
    if (changeovers.is_waiting() && !changeovers.propagate(trail)) return fail(Flaw::crossed);
    if (head_ < trail.size()) continue;
    const int resource = timetable.waiting();
    if (resource >= 0) {
      if (!timetable.filter(trail, resource)) return fail(Flaw::crossed);
      continue;
    }
    if (!sums.propagate(trail)) return fail(Flaw::crossed);
    if (head_ < trail.size()) continue;
    const auto end = unary.propagate(trail);
    if (end == Unary::End::quiet) return true;
    if (end != Unary::End::moved) {
      return fail(end == Unary::End::crossed ? Flaw::crossed : Flaw::crowded);
    }
  }
}

void Propagator::back_to(int level) {
  trail.back_to(level);
  timetable.back_to(level);
  changeovers.forget();
  sums.forget();
  unary.forget();
  head_ = std::min(head_, trail.size());
  time_head_ = std::min(time_head_, trail.size());
}

}  // namespace dampline::scheduling
