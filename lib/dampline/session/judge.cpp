#include <algorithm>
#include <cmath>

#include <dampline/session/judge.hpp>
#include <dampline/session/wording.hpp>
#include <dampline/session/zone.hpp>
#include <dampline/units/suggest.hpp>
#include <dampline/units/text.hpp>

namespace dampline::session {
namespace {

using std::chrono::minutes;

std::string clock_text(ClockTime t) {
  const auto two = [](long n) { return (n < 10 ? "0" : "") + std::to_string(n); };
  return two(t.count() / 60) + ":" + two(t.count() % 60);
}

minutes end_of(const Break& b) { return b.at + minutes(std::lround(units::in_minutes(b.length))); }

// One clock time on a day when the clocks change.
void judge_change(const Day& day, ClockTime time, const std::string& name, Place where,
                  Findings& f) {
  const auto instant = to_utc(day.zone, day.date, time);
  if (instant.kind == LocalInstant::Kind::skipped) {
    f.error(where,
            name + ": there is no " + clock_text(time) + " on that day in " + day.zone +
                ": the clocks go from " + clock_text(instant.change) + " to " +
                clock_text(instant.changed),
            "write a time before " + clock_text(instant.change) + " or from " +
                clock_text(instant.changed));
  } else if (instant.kind == LocalInstant::Kind::repeated) {
    f.warning(where,
              name + ": " + clock_text(time) + " comes twice on that day in " + day.zone +
                  "; the first is meant",
              "write a time before " + clock_text(instant.changed) + " or from " +
                  clock_text(instant.change) + " if that is not so");
  }
}

void judge_clock_changes(const Session& s, const Places& p, Findings& f) {
  if (s.day.zone.empty() || !s.day.date.ok() || !p.hours_known) return;
  judge_change(s.day, s.day.from, "day.from", p.from, f);
  judge_change(s.day, s.day.until, "day.until", p.until, f);
  for (std::size_t i = 0; i < s.day.breaks.size(); ++i) {
    judge_change(s.day, s.day.breaks[i].at, "day.breaks[" + std::to_string(i + 1) + "].at",
                 p.breaks[i], f);
  }
}

void judge_hours(const Session& s, const Places& p, Findings& f) {
  if (!p.hours_known) return;
  const auto& d = s.day;
  if (d.until <= d.from) {
    f.error(p.until,
            "day.until " + clock_text(d.until) + " is not after day.from " + clock_text(d.from),
            "a day ends before midnight: set until after " + clock_text(d.from));
    return;
  }
  std::vector<std::size_t> order(d.breaks.size());
  for (std::size_t i = 0; i < order.size(); ++i) order[i] = i;
  std::stable_sort(order.begin(), order.end(),
                   [&](std::size_t a, std::size_t b) { return d.breaks[a].at < d.breaks[b].at; });
  for (std::size_t n = 0; n < order.size(); ++n) {
    const auto& b = d.breaks[order[n]];
    if (b.at < d.from || end_of(b) > d.until) {
      f.error(p.breaks[order[n]],
              "the break at " + clock_text(b.at) + " for " + units::text(b.length) +
                  " lies outside the day, " + clock_text(d.from) + " to " + clock_text(d.until),
              "move it inside the day, or delete it");
    } else if (n > 0 && b.at < end_of(d.breaks[order[n - 1]])) {
      f.error(p.breaks[order[n]],
              "the break at " + clock_text(b.at) + " begins before the one at " +
                  clock_text(d.breaks[order[n - 1]].at) + " has ended",
              "make them one break, or move one");
    }
  }
}

// The hours in which a person or a press is there.
template <class Thing>
void judge_presence(const Day& day, const Thing& thing, const HoursPlaces& where, Findings& f) {
  const auto from = thing.from.value_or(day.from);
  const auto until = thing.until.value_or(day.until);
  const auto outside = [&](ClockTime t) { return t < day.from || t > day.until; };
  for (const auto& [given, place] :
       {std::pair(thing.from, where.from), std::pair(thing.until, where.until)}) {
    if (!given) continue;
    if (outside(*given)) {
      f.error(place,
              quoted(thing.name) + ": " + clock_text(*given) + " lies outside the day, " +
                  clock_text(day.from) + " to " + clock_text(day.until),
              "move it inside the day, or delete it");
      return;
    }
  }
  if (until <= from) {
    f.error(where.until,
            quoted(thing.name) + " is there until " + clock_text(until) + ", which is not after " +
                clock_text(from),
            "set until after " + clock_text(from));
  }
}

void judge_presences(const Session& s, const Places& p, Findings& f) {
  if (!p.hours_known || s.day.until <= s.day.from) return;
  for (std::size_t i = 0; i < s.people.size(); ++i) {
    judge_presence(s.day, s.people[i], p.person_hours[i], f);
  }
  for (std::size_t i = 0; i < s.equipment.presses.size(); ++i) {
    judge_presence(s.day, s.equipment.presses[i], p.press_hours[i], f);
  }
}

template <class Things>
void judge_unique(const Things& things, const std::vector<Place>& places, const char* what,
                  Findings& f) {
  for (std::size_t i = 0; i < things.size(); ++i) {
    for (std::size_t j = 0; j < i; ++j) {
      if (things[i].name.empty() || things[i].name != things[j].name) continue;
      f.error(places[i], std::string("two ") + what + " are called " + quoted(things[i].name),
              "give each a name of its own");
      break;
    }
  }
}

template <class Things>
std::vector<std::string> names_of(const Things& things) {
  std::vector<std::string> out;
  for (const auto& t : things) {
    if (!t.name.empty()) out.push_back(t.name);
  }
  return out;
}

// `kind` is "plates" and the like.
std::string meant(const std::string& name, std::vector<std::string> names,
                  const std::string& kind) {
  const auto near = units::nearest(name, names);
  std::sort(names.begin(), names.end());
  names.erase(std::unique(names.begin(), names.end()), names.end());
  return (near ? "did you mean " + quoted(*near) + "? " : std::string()) + "The " + kind + ": " +
         units::listed(names, "\"", "and");
}

template <class Things>
bool holds(const Things& things, const std::string& name) {
  return std::any_of(things.begin(), things.end(), [&](const auto& t) { return t.name == name; });
}

void judge_people(const Session& s, const Places& p, Findings& f) {
  judge_unique(s.people, p.people, "people", f);
  if (s.people.empty()) return;
  const auto any = [&](auto does) { return std::any_of(s.people.begin(), s.people.end(), does); };
  if (!any([](const Person& x) { return x.inks; })) {
    f.error(p.people.front(), "nobody inks", "add \"ink\" to what somebody does");
  }
  if (!any([](const Person& x) { return x.handles_paper; })) {
    f.error(p.people.front(), "nobody handles the paper", "add \"paper\" to what somebody does");
  }
}

void judge_damping(const Session& s, const Places& p, Findings& f) {
  if (s.equipment.tub) return;
  if (s.damping.method == "soak") {
    f.error(
        p.method, "damping.method is \"soak\" and equipment.tub has no sheets",
        "state how many sheets the tub takes: tub = { sheets = 8 }; or use sponge, mist or pack");
  }
  if (s.damping.hold == Hold::tub) {
    f.error(p.hold, "damping.hold is \"tub\" and equipment.tub has no sheets",
            "state how many sheets the tub takes: tub = { sheets = 8 }; or hold covered");
  }
}

void judge_plates(const Session& s, const Places& p, Findings& f) {
  std::vector<Place> places;
  for (const auto& plate : s.plates) places.push_back(plate.where);
  judge_unique(s.plates, places, "plates", f);
  for (std::size_t i = 0; i < s.plates.size(); ++i) {
    const auto& plate = s.plates[i];
    const auto& presses = s.equipment.presses;
    if (plate.press && !holds(presses, *plate.press)) {
      f.error(p.plate_presses[i], "no press is called " + quoted(*plate.press),
              meant(*plate.press, names_of(presses), "presses"));
    }
    if (!plate.printer) continue;
    const auto person = std::find_if(s.people.begin(), s.people.end(),
                                     [&](const Person& x) { return x.name == *plate.printer; });
    if (person == s.people.end()) {
      f.error(p.plate_printers[i], "nobody is called " + quoted(*plate.printer),
              meant(*plate.printer, names_of(s.people), "people"));
    } else if (!person->inks) {
      f.error(p.plate_printers[i],
              quoted(person->name) + " is to print this plate and does not ink",
              "add \"ink\" to what " + person->name + " does, or name somebody who inks");
    }
  }
}

void judge_order(const Session& s, const Places& p, Findings& f) {
  if (!s.edition.order_given || !p.order_known || s.plates.empty()) return;
  const auto& order = s.edition.order;
  const auto names = names_of(s.plates);
  for (std::size_t i = 0; i < order.size(); ++i) {
    if (!holds(s.plates, order[i])) {
      f.error(p.order[i], "edition.order: no plate is called " + quoted(order[i]),
              meant(order[i], names, "plates"));
    } else if (std::find(order.begin(), order.begin() + static_cast<std::ptrdiff_t>(i), order[i]) !=
               order.begin() + static_cast<std::ptrdiff_t>(i)) {
      f.error(p.order[i], "edition.order: " + quoted(order[i]) + " stands in it twice",
              "name each plate once; a plate printed twice is entered as two plates");
    }
  }
  for (const auto& name : names) {
    if (std::find(order.begin(), order.end(), name) != order.end()) continue;
    f.error(p.order_whole, "edition.order leaves out plate " + quoted(name),
            "add it, or delete the plate");
  }
}

// An edition that goes on: the plates on the sheets were the first in the order.
void judge_printed(const Session& s, const Places& p, Findings& f) {
  const auto& e = s.edition;
  if (s.plates.empty()) return;
  if (p.first_pull && e.printed.empty()) {
    f.warning(*p.first_pull, "edition.first_pull tells of sheets that are printed on, and none are",
              "name what is on them: printed = [" + quoted(s.plates.front().name) + "]");
  }
  if (!p.printed_known) return;
  for (std::size_t i = 0; i < e.printed.size(); ++i) {
    const auto& name = e.printed[i];
    if (!holds(s.plates, name)) {
      f.error(p.printed[i], "edition.printed: no plate is called " + quoted(name),
              meant(name, names_of(s.plates), "plates"));
    } else if (i >= e.order.size() || e.order[i] != name) {
      f.error(p.printed[i],
              "edition.printed: " + quoted(name) + " is on the sheets, but not number " +
                  std::to_string(i + 1) + " of edition.order",
              "name each plate once, in the order they were printed");
    }
  }
  if (e.printed.empty()) return;
  if (e.sheet_each) {
    f.error(p.printed.front(), "edition.printed: with sheet_each every plate has sheets of its own",
            "leave out the plates that are done");
  } else if (e.printed.size() >= s.plates.size()) {
    f.error(p.printed.front(), "edition.printed: every plate is on the sheets already",
            "leave out the plate that is to be printed today");
  }
}

void judge_counts(const Session& s, const Places& p, Findings& f) {
  if (s.edition.prints == 0) return;
  const int each = s.edition.sheet_each ? static_cast<int>(s.plates.size()) : 1;
  const int pulled = (s.edition.prints + s.edition.proofs) * each;
  if (s.paper.sheets > 0 && s.paper.sheets < pulled) {
    f.warning(p.sheets,
              std::to_string(s.paper.sheets) + " sheets for " + std::to_string(pulled) +
                  " prints and proofs",
              "not all can be pulled; add sheets or ask for fewer");
  }
  if (s.equipment.drying_places && *s.equipment.drying_places < pulled) {
    f.warning(p.drying_places,
              std::to_string(*s.equipment.drying_places) + " drying places for " +
                  std::to_string(pulled) + " prints and proofs",
              "not all can be pulled; find more flat places or ask for fewer");
  }
}

}  // namespace

void judge(const Session& s, const Places& places, Findings& findings) {
  judge_hours(s, places, findings);
  judge_clock_changes(s, places, findings);
  judge_presences(s, places, findings);
  judge_people(s, places, findings);
  std::vector<Place> press_places;
  for (const auto& press : s.equipment.presses) press_places.push_back(press.where);
  judge_unique(s.equipment.presses, press_places, "presses", findings);
  judge_damping(s, places, findings);
  judge_plates(s, places, findings);
  judge_sizes(s, places, findings);
  judge_order(s, places, findings);
  judge_printed(s, places, findings);
  judge_counts(s, places, findings);
}

}  // namespace dampline::session
