#include <algorithm>
#include <tuple>

#include <dampline/scheduling/unary.hpp>

namespace dampline::scheduling {

/// The jobs beside `job` that, before `place`, end by `limit` or (by_start) start by it; those that
/// start latest at the earliest first.
void Unary::gather(const Trail& trail, int clique, int side, int job, int place, int limit,
                   bool by_start) const {
  parts_.clear();
  for (int k = first(clique, side); k < first_[2 * clique + side + 1]; ++k) {
    if (k == job) continue;
    const auto& other = jobs_[k];
    const int lct = other.shift + other.length - trail.bound_before(other.half ^ 1, place);
    if ((by_start ? lct - other.length : lct) > limit) continue;
    const int est = trail.bound_before(other.half, place) + other.shift;
    parts_.push_back({k, est, lct, other.length, false, false});
  }
  std::sort(parts_.begin(), parts_.end(), [](const Part& a, const Part& b) {
    return std::tuple(-a.est, a.job) < std::tuple(-b.est, b.job);
  });
}

/// Marks parts that, from some start on, work until `until` or later, as few as will do. Returns
/// the start they need; each may start as early as that.
int Unary::mark_until(int until) const {
  int work = 0;
  int used = 0;
  int start = 0;
  do {
    start = parts_[used].est;
    work += parts_[used++].length;
  } while (start + work < until);
  int spare = start + work - until;
  parts_[0].delays = true;  // one at the least: no work delays nothing
  for (int i = 1; i < used; ++i) {
    parts_[i].delays = parts_[i].length > spare;
    if (!parts_[i].delays) spare -= parts_[i].length;
  }
  return start - spare;
}

/// Marks parts that together with `length` more, from some start (at most `latest`) on, do not end
/// by `limit`. Returns that start.
int Unary::mark_too_much(int length, int latest, int limit) const {
  int work = length;
  int used = 0;
  int start = latest;
  do {
    start = std::min(latest, parts_[used].est);
    work += parts_[used++].length;
  } while (start + work <= limit);
  int spare = start + work - limit - 1;
  for (int i = 0; i < used; ++i) {
    parts_[i].crowds = parts_[i].length > spare;
    if (!parts_[i].crowds) spare -= parts_[i].length;
  }
  return start - spare;
}

void Unary::explain_edge(const Trail& trail, int k, int limit, int place, int value,
                         Flat<Literal>& out) const {
  const auto& job = jobs_[k];
  gather(trail, job.clique, job.half & 1, k, place, limit, false);
  const int est = trail.bound_before(job.half, place) + job.shift;
  const int crowd = mark_too_much(job.length, est, limit);
  const int until = mark_until(value + job.shift);
  out.push_back(starts_by_then(job, crowd));
  for (const auto& part : parts_) {
    if (!part.crowds && !part.delays) continue;
    const int start = std::max(part.crowds ? crowd : until, part.delays ? until : crowd);
    out.push_back(starts_by_then(jobs_[part.job], start));
    out.push_back(ends_by(jobs_[part.job], limit));
  }
}

void Unary::explain_precedence(const Trail& trail, int k, int place, int value,
                               Flat<Literal>& out) const {
  const auto& job = jobs_[k];
  const int est = trail.bound_before(job.half, place) + job.shift;
  gather(trail, job.clique, job.half & 1, k, place, est + job.length - 1, true);
  const int until = mark_until(value + job.shift);
  int latest = 0;  // start of one that cannot come after the job
  bool has_one = false;
  for (const auto& part : parts_) {
    if (!part.delays) continue;
    latest = has_one ? std::max(latest, part.lct - part.length) : part.lct - part.length;
    has_one = true;
  }
  out.push_back(starts_by_then(job, latest + 1 - job.length));
  for (const auto& part : parts_) {
    if (!part.delays) continue;
    out.push_back(starts_by_then(jobs_[part.job], until));
    out.push_back(ends_by(jobs_[part.job], latest + part.length));
  }
}

void Unary::explain(const Trail& trail, const Entry& entry, int place, int value,
                    Flat<Literal>& out) const {
  if (entry.cause == Cause::edge) {
    explain_edge(trail, entry.a, entry.b, place, value, out);
  } else {
    explain_precedence(trail, entry.a, place, value, out);
  }
}

void Unary::explain_overload(const Trail& trail, Flat<Literal>& out) const {
  gather(trail, over_clique_, over_side_, -1, trail.size(), over_limit_, false);
  const int start = mark_too_much(0, over_limit_, over_limit_);
  for (const auto& part : parts_) {
    if (!part.crowds) continue;
    out.push_back(starts_by_then(jobs_[part.job], start));
    out.push_back(ends_by(jobs_[part.job], over_limit_));
  }
}

}  // namespace dampline::scheduling
