#include <algorithm>

#include <dampline/scheduling/sums.hpp>

namespace dampline::scheduling {
namespace {

long long floor_of(long long a, long long b) { return a >= 0 ? a / b : -((-a + b - 1) / b); }

}  // namespace

Sums::Sums(const Model& model) : model_(model) {
  if (model.sums.empty()) return;
  sums_of_.fit(2 * model.starts);
  is_moved_.fit(model.sums.count(), 0);
  for (int s = 0; s < model.sums.count(); ++s) {
    for (const auto& term : model.sums[s].terms) sums_of_[term.half].push_back(s);
  }
}

bool Sums::tighten(Trail& trail, int s) const {
  const auto& sum = model_.sums[s];
  long long room = sum.most;
  for (const auto& [half, weight] : sum.terms) {
    room -= static_cast<long long>(weight) * trail.bound(half);
  }
  for (const auto& [half, weight] : sum.terms) {
    const long long most = trail.bound(half) + floor_of(room, weight);
    // No further than it takes to cross the opposite bound.
    const long long value = std::max<long long>(most, trail.bound(half) - 1);
    if (-value <= trail.bound(half ^ 1)) continue;
    if (!trail.raise({half ^ 1, static_cast<int>(-value)}, Cause::sum, s, 0)) return false;
  }
  return true;
}

bool Sums::propagate(Trail& trail) {
  while (!moved_.empty()) {
    const int s = moved_.back();
    moved_.pop_back();
    is_moved_[s] = 0;
    if (!tighten(trail, s)) return false;
  }
  return true;
}

void Sums::forget() {
  for (const int s : moved_) is_moved_[s] = 0;
  moved_.clear();
}

void Sums::explain(const Trail& trail, const Entry& entry, int place, int value,
                   Flat<Literal>& out) const {
  const auto& sum = model_.sums[entry.a];
  // With the opposite of what is to be explained the sum is too large by `spare` + 1.
  long long spare = -sum.most - 1;
  const auto bound = [&](int half) { return trail.bound_before(half, place); };
  for (const auto& [half, weight] : sum.terms) {
    const int least = half == (entry.half ^ 1) ? 1 - value : bound(half);
    spare += static_cast<long long>(weight) * least;
  }
  for (const auto& [half, weight] : sum.terms) {
    if (half == (entry.half ^ 1)) continue;
    const int now = bound(half);
    const int root = model_.first_bound(half);
    const long long slack = std::min<long long>(spare / weight, now - root);
    spare -= slack * weight;
    if (now - slack > root) out.push_back({half, static_cast<int>(now - slack)});
  }
}

}  // namespace dampline::scheduling
