#include <algorithm>

#include <dampline/planner/changed_day.hpp>
#include <dampline/planner/demands.hpp>
#include <dampline/planner/nearest.hpp>
#include <dampline/units/text.hpp>

namespace dampline::planner {
namespace {

using scheduling::Status;
using session::ClockTime;
using session::Session;

constexpr int quarters = 24;  // six hours, in steps of a quarter
constexpr int most_people = 3;
constexpr int most_days = 14;
const ClockTime quarter{15};

class Nearing {
 public:
  Nearing(const Session& s, const Craft& craft, const Treatment& t, int rounds, int planned,
          const Retreat& retreat, const FitOptions& options)
      : s_(s),
        craft_(craft),
        t_(t),
        rounds_(rounds),
        planned_(planned),
        retreat_(retreat),
        options_(options) {}

  std::vector<NearestDay> run() {
    fewer();
    if (most_rounds(s_) < rounds_) {
      more_supplies();
    } else if (t_.opens >= t_.closes) {
      cover();
    } else {
      hours();
      breaks();
      hands();
      tub();
      cover();
    }
    days();
    return std::move(found_);
  }

 private:
  [[nodiscard]] Status ask(const ChangedDay& day) const {
    if (most_rounds(day.session) < rounds_) return Status::infeasible;
    return rounds_fit(day.session, craft_, day.treatment, rounds_, options_);
  }

  struct Least {
    int steps = 0;  // 0: none does
    bool is_proved = true;
  };

  // The least number of steps that does; more steps never do less.
  template <class Change>
  [[nodiscard]] Least least(int most, Change change) const {
    Least out;
    int fails = 0;
    int does = 0;
    for (int tried = 1; fails < most && does == 0; tried = std::min(2 * tried, most)) {
      if (ask(change(tried)) == Status::feasible) {
        does = tried;
      } else {
        fails = tried;
      }
    }
    if (does == 0) return out;
    while (fails + 1 < does) {
      const int tried = (fails + does) / 2;
      (ask(change(tried)) == Status::feasible ? does : fails) = tried;
    }
    out.steps = does;
    out.is_proved = fails == 0 || ask(change(fails)) == Status::infeasible;
    return out;
  }

  void fewer() {
    if (planned_ == 0) return;
    const int each = s_.edition.sheet_each ? static_cast<int>(s_.plates.size()) : 1;
    const int proofs = std::min(planned_, s_.edition.proofs);
    found_.push_back({edition_words((planned_ - proofs) * each, proofs * each) + " instead of " +
                          edition_words(s_.edition.prints * each, s_.edition.proofs * each),
                      true});
  }

  void hours() {
    const auto room = [](ClockTime span) {
      return std::clamp(static_cast<int>(span / quarter), 0, quarters);
    };
    const auto later = [&](int n) { return ending(s_, t_, s_.day.until + n * quarter); };
    if (const auto n = least(room(std::chrono::hours(24) - s_.day.until), later); n.steps > 0) {
      found_.push_back({"out by " + clock_words(s_.day.until + n.steps * quarter) + " instead of " +
                            clock_words(s_.day.until),
                        n.is_proved});
    }
    const auto sooner = [&](int n) { return opening(s_, t_, s_.day.from - n * quarter); };
    if (const auto n = least(room(s_.day.from), sooner); n.steps > 0) {
      found_.push_back({"in from " + clock_words(s_.day.from - n.steps * quarter) + " instead of " +
                            clock_words(s_.day.from),
                        n.is_proved});
    }
  }

  // As near to its own time as will do, sooner or later; it stays as long.
  void breaks() {
    for (std::size_t b = 0; b < s_.day.breaks.size(); ++b) {
      const auto own = s_.day.breaks[b].at;
      bool is_proved = true;
      for (int n = 1; n <= quarters / 2; ++n) {
        std::optional<ClockTime> at;
        for (const int sign : {-1, 1}) {
          const auto day = with_break_at(s_, t_, b, own + sign * n * quarter);
          if (at || !day) continue;
          const auto status = ask(*day);
          if (status == Status::feasible) at = own + sign * n * quarter;
          is_proved = is_proved && status != Status::unknown;
        }
        if (!at) continue;
        found_.push_back(
            {"the break at " + clock_words(*at) + " instead of " + clock_words(own), is_proved});
        break;
      }
    }
  }

  void hands() {
    const auto n = least(most_people, [&](int more) {
      ChangedDay day{s_, t_};
      for (int i = 0; i < more; ++i) day = with_person(day.session, day.treatment, true);
      return day;
    });
    if (n.steps == 0) return;
    found_.push_back({n.steps == 1 ? "one more person for ink and paper"
                                   : std::to_string(n.steps) + " more people for ink and paper",
                      n.is_proved});
  }

  void tub() {
    if (!t_.in_tub || !s_.equipment.tub) return;
    const int sheets = rounds_ * (s_.edition.sheet_each ? static_cast<int>(s_.plates.size()) : 1);
    const int own = s_.equipment.tub->sheets;
    if (sheets <= own) return;
    const auto n = least(sheets - own, [&](int more) { return with_tub(s_, t_, own + more); });
    if (n.steps == 0) return;
    found_.push_back(
        {"a tub for " + std::to_string(own + n.steps) + " sheets instead of " + std::to_string(own),
         n.is_proved});
  }

  void cover() {
    if (s_.damping.hold != session::Hold::bench) return;
    auto changed = s_;
    changed.damping.hold = session::Hold::covered;
    const auto treatment = retreat_(changed);
    if (!treatment || ask({changed, *treatment}) != Status::feasible) return;
    found_.push_back({"hold = \"covered\" instead of \"bench\"", true});
  }

  void more_supplies() {
    const int sheets = rounds_ * (s_.edition.sheet_each ? static_cast<int>(s_.plates.size()) : 1);
    auto day = ChangedDay{s_, t_};
    std::string words;
    if (s_.paper.sheets > 0 && s_.paper.sheets < sheets) {
      day.session.paper.sheets = sheets;
      words =
          std::to_string(sheets) + " sheets of paper instead of " + std::to_string(s_.paper.sheets);
    }
    if (s_.equipment.drying_places && *s_.equipment.drying_places < sheets) {
      day.session.equipment.drying_places = sheets;
      words += (words.empty() ? "" : " and ") + std::to_string(sheets) +
               " places to dry instead of " + std::to_string(*s_.equipment.drying_places);
    }
    if (ask(day) == Status::feasible) found_.push_back({words, true});
  }

  // Days like this one, each with as much as fits; what the paper allows is shared by all.
  void days() {
    if (planned_ == 0) return;
    auto rest = s_;
    int left = rounds_ - planned_;
    int used = 1;
    bool is_proved = true;
    while (left > 0 && used < most_days) {
      rest.edition.proofs = std::max(0, s_.edition.proofs - (rounds_ - left));
      rest.edition.prints = left - rest.edition.proofs;
      rest.paper.sheets = 0;
      const auto day = fit(rest, craft_, t_, options_);
      const int done = day.extent.prints + day.extent.proofs;
      if (done == 0) return;
      is_proved = is_proved && day.most_proved;
      left -= done;
      ++used;
    }
    if (left > 0 || used < 2) return;
    const int each = s_.edition.sheet_each ? static_cast<int>(s_.plates.size()) : 1;
    const bool paper_lacks = s_.paper.sheets > 0 && s_.paper.sheets < rounds_ * each;
    if (paper_lacks) return;
    found_.push_back({std::to_string(used) + " such days instead of one", is_proved});
  }

  const Session& s_;
  const Craft& craft_;
  const Treatment& t_;
  int rounds_;
  int planned_;
  const Retreat& retreat_;
  const FitOptions& options_;
  std::vector<NearestDay> found_;
};

}  // namespace

std::vector<NearestDay> nearest_days(const Session& s, const Craft& craft, const Treatment& t,
                                     int rounds, int planned, const Retreat& retreat,
                                     const FitOptions& options) {
  return Nearing(s, craft, t, rounds, planned, retreat, options).run();
}

}  // namespace dampline::planner
