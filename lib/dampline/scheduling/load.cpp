#include <algorithm>

#include <dampline/scheduling/load.hpp>

namespace dampline::scheduling {
namespace {

std::size_t at(int i) { return static_cast<std::size_t>(i); }

int length(const Problem& p, int a) { return p.activities[at(a)].duration; }

// The least start to start time a lag asks for, pauses left out.
long long least(const Problem& p, const Lag& lag) {
  return static_cast<long long>(lag.least) + (lag.from_end ? length(p, lag.from) : 0) -
         (lag.to_end ? length(p, lag.to) : 0);
}

// Earliest starts (backwards: the least time from a start to the horizon) by the lags.
// A cycle that allows nothing would go on for ever: as many rounds as there are activities do.
std::vector<long long> reach(const Problem& p, bool backwards) {
  std::vector<long long> times(p.activities.size(), 0);
  bool moved = true;
  for (std::size_t round = 0; moved && round < times.size(); ++round) {
    moved = false;
    for (const auto& lag : p.lags) {
      if (lag.to_end && p.activities[at(lag.to)].may_pause) continue;
      const int from = backwards ? lag.to : lag.from;
      const int to = backwards ? lag.from : lag.to;
      const long long time = times[at(from)] + least(p, lag);
      if (to == p.source || time <= times[at(to)]) continue;
      times[at(to)] = time;
      moved = true;
    }
  }
  return times;
}

long long offered(const Resource& resource, long long from, long long until) {
  if (resource.calendar.empty()) return resource.capacity * std::max(until - from, 0LL);
  long long sum = 0;
  for (long long t = from; t < until; ++t) sum += capacity_at(resource, static_cast<int>(t));
  return sum;
}

}  // namespace

int overloaded(const Problem& p) {
  const auto heads = reach(p, false);
  const auto tails = reach(p, true);
  for (int r = 0; r < static_cast<int>(p.resources.size()); ++r) {
    long long work = 0;
    long long first = p.horizon;
    long long last = 0;
    bool may_pause = false;  // and so end later
    for (std::size_t a = 0; a < p.activities.size(); ++a) {
      for (const auto& use : p.activities[a].uses) {
        if (use.resource != r || use.amount == 0) continue;
        const long long own = p.activities[a].duration;
        may_pause = may_pause || p.activities[a].may_pause;
        work += own * use.amount;
        first = std::min(first, heads[a]);
        last = std::max(last, p.horizon - tails[a] + own);
      }
    }
    if (may_pause || work == 0) continue;
    if (work > offered(p.resources[at(r)], first, last)) return r;
  }
  return -1;
}

}  // namespace dampline::scheduling
