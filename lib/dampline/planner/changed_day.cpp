#include <algorithm>
#include <cmath>

#include <dampline/planner/changed_day.hpp>

namespace dampline::planner {
namespace {

session::ClockTime length_of(const session::Break& b) {
  return session::ClockTime(static_cast<int>(std::ceil(units::in_minutes(b.length))));
}

}  // namespace

ChangedDay ending(const session::Session& s, const Treatment& t, session::ClockTime until) {
  ChangedDay day{s, t};
  day.session.day.until = until;
  return day;
}

ChangedDay opening(const session::Session& s, const Treatment& t, session::ClockTime from) {
  ChangedDay day{s, t};
  day.session.day.from = from;
  // A pack is laid at its own time the evening before.
  if (day.treatment.before_day)
    *day.treatment.before_day += HalfMinutes(2 * (from - s.day.from).count());
  return day;
}

ChangedDay with_person(const session::Session& s, const Treatment& t, bool inks) {
  ChangedDay day{s, t};
  session::Person person;
  const auto is_taken = [&](const std::string& name) {
    return std::any_of(day.session.people.begin(), day.session.people.end(),
                       [&](const auto& other) { return other.name == name; });
  };
  person.name = "a helper";
  for (int i = 2; is_taken(person.name); ++i) person.name = "helper " + std::to_string(i);
  person.inks = inks;
  day.session.people.push_back(person);
  return day;
}

ChangedDay with_tub(const session::Session& s, const Treatment& t, int sheets) {
  ChangedDay day{s, t};
  if (day.session.equipment.tub) day.session.equipment.tub->sheets = sheets;
  return day;
}

std::optional<ChangedDay> with_break_at(const session::Session& s, const Treatment& t,
                                        std::size_t which, session::ClockTime at) {
  const auto end = at + length_of(s.day.breaks[which]);
  if (at < s.day.from || end > s.day.until) return std::nullopt;
  for (std::size_t b = 0; b < s.day.breaks.size(); ++b) {
    const auto& other = s.day.breaks[b];
    if (b != which && at < other.at + length_of(other) && other.at < end) return std::nullopt;
  }
  ChangedDay day{s, t};
  day.session.day.breaks[which].at = at;
  return day;
}

}  // namespace dampline::planner
