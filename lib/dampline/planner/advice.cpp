#include <algorithm>
#include <tuple>

#include <dampline/planner/advice.hpp>
#include <dampline/planner/changed_day.hpp>
#include <dampline/planner/demands.hpp>

namespace dampline::planner {
namespace {

using session::Session;

struct Trial {
  std::string words;
  ChangedDay day;
};

class Trials {
 public:
  Trials(const Session& s, const Craft& craft, const Treatment& t) : s_(s), craft_(craft), t_(t) {}

  std::vector<Trial> run() {
    add("one more person for the paper", with_person(s_, t_, false));
    add("one more person for ink and paper", with_person(s_, t_, true));
    plates();
    equipment();
    hours();
    return std::move(trials_);
  }

 private:
  void add(const std::string& words, ChangedDay day) { trials_.push_back({words, std::move(day)}); }

  void plates() {
    for (std::size_t i = 0; i < s_.plates.size(); ++i) {
      ChangedDay day{s_, t_};
      ++day.session.plates[i].copies;
      add((s_.plates[i].copies == 1 ? "a second \"" : "one more \"") + s_.plates[i].name +
              "\" plate",
          std::move(day));
    }
  }

  void equipment() {
    ChangedDay press{s_, t_};
    session::Press another;
    another.name = "another press";
    press.session.equipment.presses.push_back(another);
    add(s_.equipment.presses.size() == 1 ? "a second press" : "one more press", std::move(press));
    if (t_.in_tub && s_.equipment.tub) {
      const int sheets = 2 * s_.equipment.tub->sheets;
      add("a tub for " + std::to_string(sheets) + " sheets", with_tub(s_, t_, sheets));
    }
    if (s_.people.size() > 1) {
      ChangedDay day{s_, t_};
      day.session.equipment.blotters += craft_.blotters_a_place;
      add(std::to_string(craft_.blotters_a_place) + " more blotters", std::move(day));
    }
    if (const int rounds = s_.edition.prints + s_.edition.proofs; most_rounds(s_) < rounds) {
      const int sheets = rounds * static_cast<int>(s_.edition.sheet_each ? s_.plates.size() : 1);
      ChangedDay day{s_, t_};
      day.session.paper.sheets = std::max(sheets, s_.paper.sheets);
      add("paper for the whole edition", day);
      if (s_.equipment.drying_places) {
        day = {s_, t_};
        day.session.equipment.drying_places = std::max(sheets, *s_.equipment.drying_places);
        add("a place to dry for every print", day);
      }
    }
  }

  void hours() {
    using std::chrono::hours;
    if (s_.day.from >= hours(1)) add("an hour earlier", opening(s_, t_, s_.day.from - hours(1)));
    if (s_.day.until + hours(1) <= hours(24)) {
      add("an hour later", ending(s_, t_, s_.day.until + hours(1)));
    }
    for (std::size_t b = 0; b < s_.day.breaks.size(); ++b) {
      for (const int sign : {-1, 1}) {
        const auto at = s_.day.breaks[b].at + sign * session::ClockTime(30);
        if (auto day = with_break_at(s_, t_, b, at)) {
          add("the break of " + clock_words(s_.day.breaks[b].at) + " at " + clock_words(at),
              std::move(*day));
        }
      }
    }
  }

  const Session& s_;
  const Craft& craft_;
  const Treatment& t_;
  std::vector<Trial> trials_;
};

AdvisedChange outcome(const Session& s, const Trial& trial, const Fit& changed,
                      const Fit& planned) {
  const int each = s.edition.sheet_each ? static_cast<int>(s.plates.size()) : 1;
  AdvisedChange out;
  out.change = trial.words;
  out.prints = changed.extent.prints * each;
  out.proofs = changed.extent.proofs * each;
  out.gain = out.prints + out.proofs - (planned.extent.prints + planned.extent.proofs) * each;
  const HalfMinutes shift(2 * static_cast<int>((trial.day.session.day.from - s.day.from).count()));
  out.finish = changed.finish + shift;
  if (out.gain == 0) out.gain_time = planned.finish - out.finish;
  out.is_proved = changed.most_proved && changed.bound >= changed.finish;
  return out;
}

}  // namespace

Advice advise(const Session& s, const Craft& craft, const Treatment& t, const Fit& planned,
              const FitOptions& options) {
  Advice advice;
  advice.conflicts = options.conflicts;
  for (const auto& trial : Trials(s, craft, t).run()) {
    const auto changed = fit(trial.day.session, craft, trial.day.treatment, options);
    auto found = outcome(s, trial, changed, planned);
    const bool gains = found.gain > 0 || (found.gain == 0 && found.gain_time > HalfMinutes(0));
    if (gains && !changed.starts.empty()) {
      advice.changes.push_back(std::move(found));
    } else {
      advice.idle.push_back(trial.words);
    }
  }
  std::stable_sort(advice.changes.begin(), advice.changes.end(), [](const auto& a, const auto& b) {
    return std::tie(a.gain, a.gain_time) > std::tie(b.gain, b.gain_time);
  });
  return advice;
}

}  // namespace dampline::planner
