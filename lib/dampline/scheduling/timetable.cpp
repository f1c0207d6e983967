#include <algorithm>

#include <dampline/scheduling/timetable.hpp>

namespace dampline::scheduling {

Timetable::Timetable(const Model& model) : model_(model) {
  const int resources = model.capacity.count();
  const int tasks = model.tasks.count();
  resource_of_.fit(tasks);
  part_.fit(tasks);
  is_moved_.fit(tasks, 0);
  held_.fit(resources);
  raised_.fit(resources, 0);
  moved_.fit(resources);
  first_of_start_.fit(model.starts + 1, 0);
  tasks_of_start_.fit(tasks);
  long long total = 0;
  for (int r = 0; r < resources; ++r) {
    // What the calendar takes away is held by nobody, but held.
    held_[r] = model.missing[r];
    if (held_[r].empty()) held_[r].fit(model.span, 0);
    for (int k = model.first_task[r]; k < model.first_task[r + 1]; ++k) resource_of_[k] = r;
  }
  for (const auto& task : model.tasks) {
    ++first_of_start_[task.start + 1];
    total += task.duration;
  }
  for (int x = 0; x < model.starts; ++x) first_of_start_[x + 1] += first_of_start_[x];
  Flat<int> fill(first_of_start_);
  for (int k = 0; k < tasks; ++k) tasks_of_start_[fill[model.tasks[k].start]++] = k;
  while (tasks > 0 && (1 << shift_) < total / tasks) ++shift_;
}

std::uint64_t Timetable::blocks(int from, int to) const {
  const int first = from >> shift_;
  const int many = ((to - 1) >> shift_) - first + 1;
  if (many >= 64) return ~std::uint64_t{0};
  const std::uint64_t run = (std::uint64_t{1} << many) - 1;
  const int turn = first & 63;
  return turn == 0 ? run : (run << turn) | (run >> (64 - turn));
}

bool Timetable::hold(int task, int from, int to) {
  const int r = resource_of_[task];
  const int amount = model_.tasks[task].amount;
  const int capacity = model_.capacity[r];
  int* const held = held_[r].data();
  bool fits = true;
  for (int t = from; t < to; ++t) {
    if (stands_still(task, t)) continue;
    held[t] += amount;
    if (held[t] > capacity && fits) {
      fits = false;
      overload_ = {r, t};
    }
  }
  raised_[r] |= blocks(from, to);
  return fits;
}

bool Timetable::update(const Trail& trail, int x) {
  const int low = trail.low(x);
  const int high = trail.high(x);
  for (int i = first_of_start_[x]; i < first_of_start_[x + 1]; ++i) {
    const int k = tasks_of_start_[i];
    const auto& task = model_.tasks[k];
    if (is_moved_[k] == 0) {
      is_moved_[k] = 1;
      moved_[resource_of_[k]].push_back(k);
    }
    const int from = high + task.offset;
    const int to = end(task, low + task.offset);
    if (from >= to) continue;
    Part& part = part_[k];
    if (part.from >= part.to) {
      log_.push_back({k, from, to, part});
      part = {from, to};
      if (!hold(k, from, to)) return false;
      continue;
    }
    if (from < part.from) {
      log_.push_back({k, from, part.from, part});
      const int end = part.from;
      part.from = from;
      if (!hold(k, from, end)) return false;
    }
    if (to > part.to) {
      log_.push_back({k, part.to, to, part});
      const int begin = part.to;
      part.to = to;
      if (!hold(k, begin, to)) return false;
    }
  }
  return true;
}

void Timetable::back_to(int level) {
  for (int r = 0; r < raised_.count(); ++r) {
    raised_[r] = 0;
    for (const int k : moved_[r]) is_moved_[k] = 0;
    moved_[r].clear();
  }
  if (level >= marks_.count()) return;
  const int keep = marks_[level];
  for (int i = log_.count() - 1; i >= keep; --i) {
    const Change& change = log_[i];
    const int amount = model_.tasks[change.task].amount;
    int* const held = held_[resource_of_[change.task]].data();
    for (int t = change.from; t < change.to; ++t) {
      if (!stands_still(change.task, t)) held[t] -= amount;
    }
    part_[change.task] = change.before;
  }
  log_.grow(keep, Change{});
  marks_.grow(level, 0);
}

int Timetable::waiting() const {
  for (int r = 0; r < raised_.count(); ++r) {
    if (raised_[r] != 0 || !moved_[r].empty()) return r;
  }
  return -1;
}

bool Timetable::filter_low(Trail& trail, int k) {
  const auto& task = model_.tasks[k];
  const int r = resource_of_[k];
  const int limit = model_.capacity[r] - task.amount;
  const int* const held = held_[r].data();
  const Part own = part_[k];
  int low = trail.low(task.start) + task.offset;
  int clean = low;  // instants before this one are known to have room
  for (;;) {
    const int ends = end(task, low);
    int t = ends - 1;
    while (t >= clean) {
      if (t < own.to && t >= own.from) {
        t = own.from - 1;
      } else if (held[t] > limit && !stands_still(k, t)) {
        break;
      } else {
        --t;
      }
    }
    if (t < clean) return true;
    clean = ends;
    low = t + 1;
    if (!trail.raise(at_least(task.start, low - task.offset), Cause::peak, k, t)) return false;
    if (clean < low) clean = low;
  }
}

bool Timetable::filter_high(Trail& trail, int k) {
  const auto& task = model_.tasks[k];
  const int r = resource_of_[k];
  const int limit = model_.capacity[r] - task.amount;
  const int* const held = held_[r].data();
  const Part own = part_[k];
  int high = trail.high(task.start) + task.offset;
  int clean = end(task, high);  // instants from here on are known to have room
  for (;;) {
    int t = high;
    while (t < clean) {
      if (t >= own.from && t < own.to) {
        t = own.to;
      } else if (held[t] > limit && !stands_still(k, t)) {
        break;
      } else {
        ++t;
      }
    }
    if (t >= clean) return true;
    clean = high;
    high = model_.reach(task, t + 1) - 1;
    if (!trail.raise(at_most(task.start, high - task.offset), Cause::peak, k, t)) return false;
    clean = std::min(clean, end(task, high));
  }
}

bool Timetable::filter(Trail& trail, int r) {
  const std::uint64_t raised = raised_[r];
  raised_[r] = 0;
  work_.swap(moved_[r]);
  bool fits = true;
  for (const int k : work_) {
    is_moved_[k] = 0;
    fits = fits && filter_low(trail, k) && filter_high(trail, k);
  }
  work_.clear();
  if (raised == 0) return fits;
  for (int k = model_.first_task[r]; fits && k < model_.first_task[r + 1]; ++k) {
    const auto& task = model_.tasks[k];
    const int low = trail.low(task.start) + task.offset;
    const int high = trail.high(task.start) + task.offset;
    if (low == high) continue;
    if ((raised & blocks(low, end(task, low))) != 0) fits = filter_low(trail, k);
    if (fits && (raised & blocks(high, end(task, high))) != 0) fits = filter_high(trail, k);
  }
  return fits;
}

}  // namespace dampline::scheduling
