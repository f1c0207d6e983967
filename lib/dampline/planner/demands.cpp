#include <algorithm>

#include <dampline/planner/demands.hpp>
#include <dampline/planner/ground.hpp>
#include <dampline/units/text.hpp>

namespace dampline::planner {
namespace {

using scheduling::Demand;

std::size_t at(int i) { return static_cast<std::size_t>(i); }

std::string counted(int n, const std::string& one) {
  return std::to_string(n) + " " + one + (n == 1 ? "" : "s");
}

std::string time_words(HalfMinutes t) { return units::text(units::seconds(t.count() * 30.0)); }

bool uses(const scheduling::Activity& work, int resource) {
  return std::any_of(work.uses.begin(), work.uses.end(),
                     [&](const auto& use) { return use.resource == resource; });
}

class Cutting {
 public:
  Cutting(const session::Session& s, const Craft& craft, const Treatment& t, const Draft& draft)
      : s_(s), craft_(craft), t_(t), d_(draft) {
    day_.problem = draft.problem;
  }

  DemandedDay run(bool tub_is_passed) {
    hours_and_pauses();
    hands_and_places();
    plates_and_ink();
    water(tub_is_passed);
    windows();
    return std::move(day_);
  }

 private:
  Demand& demand(const std::string& label) {
    day_.demands.push_back({});
    day_.demands.back().label = label;
    return day_.demands.back();
  }

  [[nodiscard]] std::vector<int> lags(Ground ground) const {
    std::vector<int> out;
    for (std::size_t i = 0; i < d_.problem.lags.size(); ++i) {
      if (ground_of(d_, d_.problem.lags[i]) == ground) out.push_back(static_cast<int>(i));
    }
    return out;
  }

  [[nodiscard]] std::vector<int> of_kind(ResourceKind kind) const {
    std::vector<int> out;
    for (std::size_t r = 0; r < d_.resources.size(); ++r) {
      if (d_.resources[r].kind == kind) out.push_back(static_cast<int>(r));
    }
    return out;
  }

  // A pause holds the hands of everybody it is for by resources of its own, so that it can be left
  // out without giving anybody a second pair.
  void hold_apart(int pause, std::vector<int>& held_by) {
    auto& p = day_.problem;
    const auto people = p.activities[at(pause)].uses;
    for (const auto& use : people) {
      const int own = scheduling::add_resource(p, "pause", 1);
      int others = 0;
      for (std::size_t a = 0; a < p.activities.size(); ++a) {
        if (static_cast<int>(a) == pause || !uses(p.activities[a], use.resource)) continue;
        p.activities[a].uses.push_back({own, 1, 0});
        ++others;
      }
      p.resources[at(own)].capacity = std::max(others, 1);
      p.activities[at(pause)].uses.push_back({own, std::max(others, 1), 0});
      held_by.push_back(own);
    }
    std::erase_if(p.activities[at(pause)].uses, [&](const auto& use) {
      return std::any_of(people.begin(), people.end(),
                         [&](const auto& person) { return person.resource == use.resource; });
    });
  }

  void hours_and_pauses() {
    demand("out by " + clock_words(s_.day.until)).finish = true;
    std::size_t next = 0;
    std::vector<int> rests;
    std::vector<std::vector<int>> breaks(s_.day.breaks.size());
    for (std::size_t a = 0; a < d_.blocks.size(); ++a) {
      if (!is_break(d_, static_cast<int>(a))) continue;
      const bool is_rest = d_.blocks[a].parts.front().kind != "break";
      if (is_rest) hold_apart(static_cast<int>(a), rests);
      if (!is_rest && next < breaks.size()) hold_apart(static_cast<int>(a), breaks[next++]);
    }
    for (std::size_t i = 0; i < breaks.size(); ++i) {
      const auto& b = s_.day.breaks[i];
      demand("the break at " + clock_words(b.at) + " for " + units::text(b.length)).resources =
          breaks[i];
    }
    if (s_.day.rests) demand("short rests").resources = rests;
  }

  template <class Things>
  void with_hours(const Things& things, const std::vector<int>& resources) {
    for (std::size_t i = 0; i < things.size(); ++i) {
      const auto& thing = things[i];
      if (!thing.from && !thing.until) continue;
      demand(thing.name + " only" + (thing.from ? " from " + clock_words(*thing.from) : "") +
             (thing.until ? " until " + clock_words(*thing.until) : ""))
          .calendars = {resources[i]};
    }
  }

  void hands_and_places() {
    const auto people = of_kind(ResourceKind::person);
    const auto presses = of_kind(ResourceKind::press);
    for (const int r : people) {
      const auto& name = d_.resources[at(r)].name;
      demand(people.size() == 1 ? "one pair of hands: " + name : name + "'s hands").resources = {r};
    }
    with_hours(s_.people, people);
    for (const int r : presses) demand("one press: " + d_.resources[at(r)].name).resources = {r};
    with_hours(s_.equipment.presses, presses);
    for (const int r : of_kind(ResourceKind::blotting_place)) {
      const int places = d_.resources[at(r)].capacity;
      demand(places == 1 ? std::string("one place to blot at")
                         : std::to_string(places) + " places to blot at")
          .resources = {r};
    }
    for (const int r : of_kind(ResourceKind::hot_plate)) demand("one hot plate").resources = {r};
  }

  // The plate that an inking is for.
  [[nodiscard]] const std::string& plate_inked(const scheduling::Lag& lag, bool before) const {
    return d_.blocks[at(before ? lag.from : lag.to)].parts.front().plate;
  }

  void plates_and_ink() {
    const auto back = lags(Ground::plate);
    const auto wait = lags(Ground::ink_waits);
    for (const auto& plate : s_.plates) {
      const auto of_plate = [&](const std::vector<int>& all) {
        std::vector<int> own;
        for (const int i : all) {
          if (plate_inked(d_.problem.lags[at(i)], false) == plate.name) own.push_back(i);
        }
        return own;
      };
      demand((plate.copies == 1 ? std::string("one plate \"")
                                : std::to_string(plate.copies) + " plates \"") +
             plate.name + "\"")
          .lags = of_plate(back);
      demand("\"" + plate.name + "\" waits inked for " +
             units::text(open_time_of(craft_, plate.ink).comfortable) + " at most")
          .lags = of_plate(wait);
    }
  }

  void water(bool tub_is_passed) {
    if (!t_.in_tub) return;
    const int sheets = s_.equipment.tub ? s_.equipment.tub->sheets : 0;
    auto full = lags(Ground::tub);
    if (tub_is_passed) {
      full.push_back(static_cast<int>(day_.problem.lags.size()));
      scheduling::at_most(day_.problem, day_.problem.source, d_.soaks.front().first, -1);
    }
    demand("a tub for " + counted(sheets, "sheet")).lags = std::move(full);
    demand("each sheet " + time_words(t_.soak) + " under water").lags = lags(Ground::soak);
    demand("no sheet longer than " + time_words(t_.soak_most) + " in the tub").lags =
        lags(Ground::tub_limit);
  }

  void windows() {
    const bool bench = s_.damping.hold == session::Hold::bench;
    const std::string covered = t_.in_tub ? "blotted" : "damped";
    demand("each sheet ready from " + time_words(t_.opens) + " after it is " + covered).lags =
        lags(Ground::rest);
    demand((bench ? "hold = \"bench\": each sheet" : "each sheet") + std::string(" ready until ") +
           time_words(t_.closes) + " after it is " + covered)
        .lags = lags(Ground::keeps);
    if (t_.most_between) {
      demand("each sheet back within " + time_words(*t_.most_between) + " for its next plate")
          .lags = lags(Ground::between);
    }
  }

  const session::Session& s_;
  const Craft& craft_;
  const Treatment& t_;
  const Draft& d_;
  DemandedDay day_;
};

}  // namespace

DemandedDay demanded(const session::Session& s, const Craft& craft, const Treatment& t,
                     const Draft& draft, bool tub_is_passed) {
  return Cutting(s, craft, t, draft).run(tub_is_passed);
}

std::string edition_words(int prints, int proofs) {
  if (proofs == 0) return counted(prints, "print");
  if (prints == 0) return counted(proofs, "proof");
  return counted(prints, "print") + " and " + counted(proofs, "proof");
}

std::string clock_words(session::ClockTime time) {
  const auto two = [](long long n) { return (n < 10 ? "0" : "") + std::to_string(n); };
  return two(time.count() / 60) + ":" + two(time.count() % 60);
}

}  // namespace dampline::planner
