#include <algorithm>
#include <limits>

#include <dampline/scheduling/unary.hpp>

namespace dampline::scheduling {
namespace {

constexpr int longest_pause = 32;  // calls passed over; from trials

}  // namespace

Unary::Unary(const Model& model) {
  if (model.cliques.empty()) return;
  cliques_of_.fit(model.starts);
  is_moved_.fit(model.cliques.count(), 0);
  pause_.fit(model.cliques.count(), 0);
  passed_.fit(model.cliques.count(), 0);
  for (int c = 0; c < model.cliques.count(); ++c) {
    for (int side = 0; side < 2; ++side) {
      first_.push_back(jobs_.count());
      for (const auto& job : model.cliques[c]) {
        const int shift = side == 0 ? job.offset : -(job.offset + job.duration);
        jobs_.push_back({c, 2 * job.start + side, shift, job.duration});
      }
    }
    for (const auto& job : model.cliques[c]) {
      auto& mine = cliques_of_[job.start];
      if (mine.empty() || mine.back() != c) mine.push_back(c);
    }
  }
  first_.push_back(jobs_.count());
}

void Unary::forget() {
  for (const int c : moved_) is_moved_[c] = 0;
  moved_.clear();
}

/// The jobs of one clique as they are now, and their orders. Those that are over before any other
/// can begin, or begin when all others are over, are left out. False when all are fixed.
bool Unary::look(const Trail& trail, int clique) {
  now_.clear();
  int from = std::numeric_limits<int>::max();
  int until = std::numeric_limits<int>::min();
  for (int k = first(clique, 0); k < first(clique, 1); ++k) {
    const auto& job = jobs_[k];
    const int est = trail.bound(job.half) + job.shift;
    const int lct = job.shift + job.length - trail.bound(job.half ^ 1);
    now_.push_back({k, est, lct, job.length});
    if (lct - est == job.length) continue;
    from = std::min(from, est);
    until = std::max(until, lct);
  }
  std::erase_if(now_, [&](const Now& j) { return j.lct <= from || j.est >= until; });
  const int n = now_.count();
  if (n < 2) return false;
  const auto order = [&](Flat<int>& by, auto key) {
    sorted_.grow(n);
    for (int k = 0; k < n; ++k) sorted_[k] = static_cast<long long>(key(now_[k])) * (1 << 20) + k;
    std::sort(sorted_.begin(), sorted_.end());
    by.grow(n);
    for (int k = 0; k < n; ++k) by[k] = static_cast<int>(sorted_[k] & ((1 << 20) - 1));
  };
  order(by_est_, [](const Now& j) { return j.est; });
  order(by_lct_, [](const Now& j) { return j.lct; });
  order(by_ect_, [](const Now& j) { return j.est + j.length; });
  order(by_lst_, [](const Now& j) { return j.lct - j.length; });
  place_.grow(n);
  for (int i = 0; i < n; ++i) place_[by_est_[i]] = i;
  return true;
}

/// The same seen from side 1.
void Unary::turn_round(int clique) {
  const int far = first(clique, 1) - first(clique, 0);
  for (auto& j : now_) {
    j.job += far;
    const int est = j.est;
    j.est = -j.lct;
    j.lct = -est;
  }
  by_est_.swap(by_lct_);
  by_ect_.swap(by_lst_);
  for (auto* by : {&by_est_, &by_lct_, &by_ect_, &by_lst_}) std::reverse(by->begin(), by->end());
  for (int i = 0; i < now_.count(); ++i) place_[by_est_[i]] = i;
}

bool Unary::push(Trail& trail, int k, int est, Cause cause, int limit) {
  const auto& job = jobs_[k];
  Literal l = starts_by_then(job, est);
  // No further than it takes to cross the opposite bound.
  l.value = std::min(l.value, 1 - trail.bound(l.half ^ 1));
  return trail.is_true(l) || trail.raise(l, cause, k, limit);
}

/// A job that could not end before `limit` together with all that must is after all of that.
bool Unary::find_edges(Trail& trail, int clique, int side) {
  const int n = now_.count();
  // Even all of them together are done by then: only earlier limits can be passed.
  int done = now_[by_est_[0]].est;
  for (const int k : by_est_) done = std::max(done, now_[k].est) + now_[k].length;
  int q = n - 1;
  while (q >= 0 && now_[by_lct_[q]].lct >= done) --q;
  if (q < 0) return true;
  shaded_.begin(n);
  for (int i = 0; i < n; ++i) {
    const int k = by_lct_[i];
    shaded_.put(place_[k], now_[k].est, now_[k].length, i > q);
  }
  shaded_.build();
  for (; q >= 0; --q) {
    const auto& last = now_[by_lct_[q]];
    if (shaded_.done() > last.lct) {
      over_clique_ = clique;
      over_side_ = side;
      over_limit_ = last.lct;
      is_over_ = true;
      return false;
    }
    while (shaded_.done_shaded() > last.lct) {
      const int leaf = shaded_.shaded();
      const auto& late = now_[by_est_[leaf]];
      if (!push(trail, late.job, shaded_.done(), Cause::edge, last.lct)) return false;
      shaded_.remove(leaf);
    }
    shaded_.shade(place_[by_lct_[q]], last.est, last.length);
  }
  return true;
}

/// What can only come before a job does.
bool Unary::find_precedences(Trail& trail) {
  const int n = now_.count();
  theta_.begin(n);
  int q = 0;
  for (const int k : by_ect_) {
    const auto& job = now_[k];
    const int ect = job.est + job.length;
    for (; q < n; ++q) {
      const auto& before = now_[by_lst_[q]];
      if (before.lct - before.length >= ect) break;
      theta_.add(place_[by_lst_[q]], before.est, before.length);
    }
    if (theta_.done() <= job.est) continue;
    const bool is_in = job.lct - job.length < ect;
    if (is_in) theta_.remove(place_[k]);
    const int done = theta_.done();
    if (is_in) theta_.add(place_[k], job.est, job.length);
    if (done > job.est && !push(trail, job.job, done, Cause::precede, 0)) return false;
  }
  return true;
}

Unary::End Unary::propagate(Trail& trail) {
  is_over_ = false;
  while (!moved_.empty()) {
    const int c = moved_.back();
    moved_.pop_back();
    is_moved_[c] = 0;
    if (may_pause_ && trail.level() > 0 && passed_[c]++ < pause_[c]) continue;
    if (!look(trail, c)) continue;
    passed_[c] = 0;
    const int size = trail.size();
    for (int side = 0; side < 2; ++side) {
      if (side == 1) turn_round(c);
      if (!find_precedences(trail) || !find_edges(trail, c, side)) {
        pause_[c] = 0;
        return is_over_ ? End::overload : End::crossed;
      }
    }
    if (trail.size() > size) {
      pause_[c] /= 2;
      return End::moved;
    }
    pause_[c] = std::min(pause_[c] + 1, longest_pause);
  }
  return End::quiet;
}

}  // namespace dampline::scheduling
