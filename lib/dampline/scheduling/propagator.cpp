#include <algorithm>

#include <dampline/scheduling/propagator.hpp>

namespace dampline::scheduling {

Propagator::Propagator(const Model& m)
    : model(m), trail(m.starts), clauses(2 * m.starts), timetable(m) {
  for (int x = 0; x < m.starts; ++x) {
    trail.begin(2 * x, m.low[x]);
    trail.begin(2 * x + 1, -m.high[x]);
  }
}

bool Propagator::follow_lags(const Entry& entry) {
  if (entry.value < trail.bound(entry.half)) return true;  // a later entry says more
  for (int i = model.first_arc[entry.half]; i < model.first_arc[entry.half + 1]; ++i) {
    const auto& arc = model.arcs[i];
    const Literal l{arc.to, entry.value + arc.length};
    if (trail.is_true(l)) continue;
    if (!trail.raise(l, Cause::arc, arc.length, entry.half)) return false;
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
      if (!timetable.update(trail, trail.entry(time_head_++).half >> 1)) {
        return fail(Flaw::overload);
      }
    }
    const int resource = timetable.waiting();
    if (resource < 0) return true;
    if (!timetable.filter(trail, resource)) return fail(Flaw::crossed);
  }
}

void Propagator::back_to(int level) {
  trail.back_to(level);
  timetable.back_to(level);
  head_ = std::min(head_, trail.size());
  time_head_ = std::min(time_head_, trail.size());
}

}  // namespace dampline::scheduling
