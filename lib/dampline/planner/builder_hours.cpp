#include <algorithm>

#include <dampline/planner/builder.hpp>
#include <dampline/session/zone.hpp>

// Who is there when: hours of people and presses, breaks, short rests.
namespace dampline::planner {
namespace {

// Two rests are not taken sooner one after the other than this part of the longest work between.
constexpr int apart = 2;

}  // namespace

void Builder::keep_hours() {
  const auto keep = [&](const auto& things, const std::vector<int>& resources) {
    for (std::size_t i = 0; i < things.size(); ++i) {
      if (things[i].from) {
        const HalfMinutes from(session::since_opening(s_.day, *things[i].from));
        scheduling::set_capacity(d_.problem, resources[i], 0, from.count(), 0);
      }
      if (things[i].until) {
        const HalfMinutes until(session::since_opening(s_.day, *things[i].until));
        scheduling::set_capacity(d_.problem, resources[i], until.count(), d_.problem.horizon, 0);
      }
    }
  };
  keep(s_.people, ix_.person);
  keep(s_.equipment.presses, ix_.press);
}

bool Builder::is_there(int person, HalfMinutes from, HalfMinutes until) const {
  const auto& p = s_.people[static_cast<std::size_t>(person)];
  return (!p.from || session::since_opening(s_.day, *p.from) <= from) &&
         (!p.until || until <= session::since_opening(s_.day, *p.until));
}

void Builder::place_breaks() {
  int number = 0;
  for (const auto& b : s_.day.breaks) {
    ++number;
    Part p;
    p.kind = "break";
    p.what = step_kind(craft_, "break").what;
    p.cue = step_kind(craft_, "break").cue;
    p.length = half_minutes(b.length);
    const HalfMinutes at = session::since_opening(s_.day, b.at);
    for (std::size_t i = 0; i < s_.people.size(); ++i) {
      if (is_there(static_cast<int>(i), at, at + p.length)) p.uses.push_back({ix_.person[i], 1});
    }
    const int a = activity({"break-" + std::to_string(number), {p}});
    after_source(a, at);
    scheduling::at_most(d_.problem, d_.problem.source, a, at.count());
  }
}

HalfMinutes Builder::longest_block(int person) const {
  HalfMinutes longest{};
  for (int a = 2; a < static_cast<int>(d_.blocks.size()); ++a) {
    const bool is_break = d_.blocks[static_cast<std::size_t>(a)].id.starts_with("break");
    if (!is_break && held_by(a, person)) longest = std::max(longest, length(a));
  }
  return longest;
}

void Builder::place_rests() {
  if (!s_.day.rests) return;
  for (int person = 0; person < static_cast<int>(s_.people.size()); ++person) {
    const auto& p = s_.people[static_cast<std::size_t>(person)];
    HalfMinutes from = p.from ? session::since_opening(s_.day, *p.from) : HalfMinutes(0);
    const HalfMinutes until =
        p.until ? session::since_opening(s_.day, *p.until) : HalfMinutes(d_.problem.horizon);
    auto breaks = s_.day.breaks;
    std::sort(breaks.begin(), breaks.end(),
              [](const auto& a, const auto& b) { return a.at < b.at; });
    for (const auto& b : breaks) {
      const HalfMinutes at = session::since_opening(s_.day, b.at);
      if (at < from || at >= until) continue;
      rest_within(person, from, at);
      from = at + half_minutes(b.length);
    }
    rest_within(person, from, until);
  }
}

void Builder::rest_within(int person, HalfMinutes from, HalfMinutes until) {
  const HalfMinutes rest = half_minutes(s_.day.rests->length);
  // Work that takes longer than the time between rests is not broken off for one.
  const HalfMinutes every = std::max(half_minutes(s_.day.rests->every), longest_block(person));
  int previous = -1;
  // As few as leave no longer work, before, between and after them.
  const int needed = std::max(0, (until - from + rest - HalfMinutes(1)) / (every + rest));
  for (int left = needed; left > 0; --left) {
    Part p = part("short-rest", person);
    p.length = rest;
    const auto& name = s_.people[static_cast<std::size_t>(person)].name;
    const int a = activity({"short-rest-" + name + "-" + std::to_string(++rests_), {p}});
    const Moment before = previous < 0 ? Moment{d_.problem.source, from} : end_of(previous);
    least(before, {a, {}}, every / apart);
    most(before, {a, {}}, every);
    after_source(a, until - (every + rest) * left);  // else the last work would be too long
    previous = a;
  }
}

}  // namespace dampline::planner
