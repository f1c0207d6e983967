#include <algorithm>

#include <dampline/scheduling/changeovers.hpp>

namespace dampline::scheduling {

Changeovers::Changeovers(const Model& model) : model_(model) {
  const int n = model.jobs.count();
  if (n == 0) return;
  jobs_of_.fit(model.starts);
  is_moved_.fit(n, 0);
  first_of_.fit(n, 0);
  last_of_.fit(n, n);
  for (int k = 0; k < n; ++k) {
    jobs_of_[model.jobs[k].task.start].push_back(k);
    const bool same = k > 0 && model.jobs[k - 1].resource == model.jobs[k].resource;
    first_of_[k] = same ? first_of_[k - 1] : k;
  }
  for (int k = n - 2; k >= 0; --k) {
    const bool same = model.jobs[k + 1].resource == model.jobs[k].resource;
    last_of_[k] = same ? last_of_[k + 1] : k + 1;
  }
}

int Changeovers::gap(int first, int then) const {
  const auto& job = model_.jobs[first];
  return model_
      .changeover[job.resource][job.kind * model_.kinds[job.resource] + model_.jobs[then].kind];
}

bool Changeovers::may_precede(const Trail& trail, int first, int then) const {
  const auto& a = model_.jobs[first].task;
  const auto& b = model_.jobs[then].task;
  const int end = model_.end_of(a, trail.low(a.start) + a.offset);
  return end + gap(first, then) <= trail.high(b.start) + b.offset;
}

bool Changeovers::put_in_order(Trail& trail, int first, int then) const {
  const auto& a = model_.jobs[first].task;
  const auto& b = model_.jobs[then].task;
  const int time = gap(first, then);
  Literal l = at_least(b.start, model_.end_of(a, trail.low(a.start) + a.offset) + time - b.offset);
  l.value = std::min(l.value, trail.high(b.start) + 1);
  if (!trail.is_true(l) && !trail.raise(l, Cause::order, then, first)) return false;
  l = at_most(a.start, model_.reach(a, trail.high(b.start) + b.offset - time + 1) - 1 - a.offset);
  l.value = std::min(l.value, 1 - trail.low(a.start));
  return trail.is_true(l) || trail.raise(l, Cause::order, first, then);
}

bool Changeovers::propagate(Trail& trail) {
  while (!moved_.empty()) {
    const int k = moved_.back();
    moved_.pop_back();
    is_moved_[k] = 0;
    for (int other = first_of_[k]; other < last_of_[k]; ++other) {
      if (model_.jobs[other].task.start == model_.jobs[k].task.start) continue;
      // Without a changeover either way the timetable says enough.
      if (gap(k, other) == 0 && gap(other, k) == 0) continue;
      if (!may_precede(trail, k, other) && !put_in_order(trail, other, k)) return false;
      if (!may_precede(trail, other, k) && !put_in_order(trail, k, other)) return false;
    }
  }
  return true;
}

void Changeovers::forget() {
  for (const int k : moved_) is_moved_[k] = 0;
  moved_.clear();
}

void Changeovers::explain(const Trail& trail, const Entry& entry, int place, int value,
                          Flat<Literal>& out) const {
  const bool is_later = (entry.half & 1) == 0;  // the job that moved comes after the other one
  const int first = is_later ? entry.b : entry.a;
  const int then = is_later ? entry.a : entry.b;
  const auto& a = model_.jobs[first].task;
  const auto& b = model_.jobs[then].task;
  // `then` cannot come first: its end and the gap pass the latest start of `first`. The bound of
  // `first` is made as weak as the other one allows.
  const int back = gap(then, first);
  const int low = trail.bound_before(2 * b.start, place) + b.offset;
  const int high = std::min(model_.end_of(b, low) + back - 1 - a.offset, model_.high[a.start]);
  out.push_back(at_most(a.start, high));
  out.push_back(at_least(b.start, model_.reach(b, high + a.offset - back + 1) - b.offset));
  const int time = gap(first, then);
  if (is_later) {
    out.push_back(at_least(a.start, model_.reach(a, value + b.offset - time) - a.offset));
  } else {
    // Any later start of `first` would push `then` past this.
    const int end = model_.end_of(a, 1 - value + a.offset);
    out.push_back(at_most(b.start, end + time - 1 - b.offset));
  }
}

}  // namespace dampline::scheduling
