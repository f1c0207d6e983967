#include <algorithm>

#include <dampline/method/book.hpp>
#include <dampline/planner/builder.hpp>
#include <dampline/planner/judge_plan.hpp>
#include <dampline/planner/late_told.hpp>
#include <dampline/planner/lay_out.hpp>
#include <dampline/units/text.hpp>

namespace dampline::planner {
namespace {

const auto forever = units::hours(72);

std::string until_text(const LateCase& late, HalfMinutes closes) {
  if (closes >= HalfMinutes(72 * 120)) return "for three days";
  if (closes > HalfMinutes(12 * 120)) return "beyond today";
  return "until " + clock_time(late.session.day, late.history.at + closes);
}

std::string listed(const std::vector<int>& numbers) {
  std::string out;
  for (std::size_t i = 0; i < numbers.size(); ++i) {
    if (i > 0) out += i + 1 == numbers.size() ? " and " : ", ";
    out += std::to_string(numbers[i]);
  }
  return out;
}

class Teller {
 public:
  explicit Teller(const LateOutcome& o) : o_(o), c_(o.late), fit_(o.fitted.fit) {}

  Plan tell() {
    plan_ = c_.worked.blank;
    auto& late = plan_.late.emplace();
    late.at = c_.history.at;
    late.finish_before = c_.worked.plan.finish;
    late.prints_before = c_.worked.plan.prints_planned;
    late.proofs_before = c_.worked.plan.proofs_planned;
    late.rescues = o_.rescues;
    late.notes = c_.history.notes;
    late.notes.insert(late.notes.end(), o_.fitted.rest.notes.begin(), o_.fitted.rest.notes.end());
    if (!fit_.starts.empty()) {
      const Outcome outcome{fit_, o_.pulls, c_.worked.outcome.catcher_lasts};
      put_on_the_clock(c_.worked, c_.knowledge, c_.damping, outcome, plan_);
      as_it_was();
      windows_of_mended();
    }
    plan_.until = c_.until;
    if (plan_.steps.empty() || o_.fitted.given_up) {
      plan_.finish = std::max(plan_.finish, c_.history.at);
    }
    count();
    lose();
    ink_again();
    forget_idle_rescues();
    std::vector<CheckedPull> to_come;
    for (const auto& p : o_.pulls) {
      if (p.pull.at >= c_.history.at) to_come.push_back(p);
    }
    warn();
    judge_plan(c_.session, c_.knowledge, c_.worked.paper, to_come, fit_.most_proved, plan_);
    return std::move(plan_);
  }

 private:
  // What is done is told as it was planned, with its real times.
  void as_it_was() {
    auto& late = *plan_.late;
    for (auto& step : plan_.steps) {
      const bool begun =
          c_.history.steps.contains(step.id) || (step.kind == "soak" && step.start < late.at);
      if (!begun) continue;
      step.state = step.end <= late.at ? StepState::done : StepState::running;
      if (const auto b = c_.history.steps.find(step.id); b != c_.history.steps.end()) {
        step.state = b->second.running ? StepState::running : StepState::done;
      }
      ++(step.state == StepState::done ? late.done : late.running);
      for (const auto& planned : c_.morning.steps) {
        if (planned.id == step.id) step.what = planned.what;
      }
      step.because.clear();
    }
  }

  void windows_of_mended() {
    for (auto& pull : plan_.pulls) {
      const auto mend = c_.mends.find(pull.sheet);
      if (mend == c_.mends.end() || pull.at < c_.history.at) continue;
      for (const auto& step : plan_.steps) {
        if (step.id != mend->second.rescue.step) continue;
        const auto done = step.start + half_minutes(method::length_of(mend->second.stages));
        pull.ready_from = done + mend->second.opens;
        pull.ready_until = done + mend->second.closes;
      }
    }
  }

  void count() {
    std::set<int> prints, proofs;
    int last = 0;
    for (const auto& pull : c_.morning.draft.pulls) last = std::max(last, pull.print);
    std::vector<int> again;  // prints beyond those of the morning
    for (const auto& pull : plan_.pulls) {
      (pull.proof ? proofs : prints).insert(pull.print);
      if (pull.print > last && (again.empty() || again.back() != pull.print)) {
        again.push_back(pull.print);
      }
    }
    tell_spoiled(again);
    const auto spoiled = std::count_if(prints.begin(), prints.end(), [&](int print) {
      return c_.history.spoiled.contains(print);
    });
    plan_.prints_planned = static_cast<int>(prints.size()) - static_cast<int>(spoiled);
    plan_.proofs_planned = static_cast<int>(proofs.size());
    auto& lost = plan_.late->lost;
    for (const auto& pull : c_.morning.draft.pulls) {
      if (prints.contains(pull.print) || proofs.contains(pull.print)) continue;
      if (lost.empty() || lost.back() != pull.print) lost.push_back(pull.print);
    }
  }

  // What becomes of prints that are spoiled.
  void tell_spoiled(const std::vector<int>& again) {
    const auto spare = static_cast<std::size_t>(replacements(c_));
    std::size_t next = 0;
    std::size_t wanted = 0;
    for (const auto& [print, where] : c_.history.spoiled) {
      std::string text =
          "Print " + std::to_string(print) + " is spoiled (" + where + ") and its sheet lost";
      if (c_.session.edition.sheet_each || print <= c_.worked.outcome.fit.extent.proofs) {
        text += "; it is not printed again.";
      } else if (wanted++ >= spare) {
        text += "; there is no spare sheet to print it again.";
      } else if (next >= again.size()) {
        text += "; there is a spare sheet, but no time left to print it again.";
      } else {
        text += "; print " + std::to_string(again[next++]) + " takes its place, on a fresh sheet.";
      }
      plan_.late->notes.push_back(std::move(text));
    }
  }

  // Wet sheets whose prints are lost: as they are, or as they will be once out of the tub.
  void lose() {
    auto& late = *plan_.late;
    std::vector<WetSheet> left;
    for (const auto& sheet : fit_.draft.sheets) {
      const bool lost = std::any_of(
          c_.morning.draft.pulls.begin(), c_.morning.draft.pulls.end(), [&](const DraftPull& p) {
            return p.sheet == sheet.number &&
                   std::find(late.lost.begin(), late.lost.end(), p.print) != late.lost.end();
          });
      if (!lost || when(sheet.wet, fit_.starts) > late.at) continue;
      const auto known = std::find_if(o_.wet.begin(), o_.wet.end(), [&](const WetSheet& wet) {
        return wet.number == sheet.number;
      });
      left.push_back(known != o_.wet.end()
                         ? *known
                         : wet_sheet(c_.worked.paper, c_.damping, fit_.draft, fit_.starts, sheet,
                                     std::max(late.at, when(sheet.covered, fit_.starts))));
    }
    const auto advice = for_another_day(c_.worked.paper, left);
    late.rescues.insert(late.rescues.end(), advice.begin(), advice.end());
  }

  void ink_again() {
    for (const auto& id : o_.fitted.rest.ink_again) {
      Rescue r;
      r.kind = "ink-again";
      r.step = id + "-again";
      r.text = "The ink of " + id + " will have stood too long by the time it can be printed: " +
               "wipe it off and ink again.";
      plan_.late->rescues.push_back(std::move(r));
    }
  }

  // A rescue that came to be no step is advice.
  void forget_idle_rescues() {
    for (auto& r : plan_.late->rescues) {
      const bool stands = std::any_of(plan_.steps.begin(), plan_.steps.end(),
                                      [&](const Step& step) { return step.id == r.step; });
      if (!stands) r.step.clear();
    }
  }

  void warn() {
    const auto& late = *plan_.late;
    const auto time = [&](HalfMinutes t) { return clock_time(c_.session.day, t); };
    if (!late.lost.empty()) {
      const int before = late.prints_before + late.proofs_before;
      plan_.warnings.push_back(
          {"prints-lost",
           "of the " + std::to_string(before) + " prints and proofs planned this morning " +
               std::to_string(late.lost.size()) + (late.lost.size() == 1 ? " is" : " are") +
               " lost: " + (late.lost.size() == 1 ? "print " : "prints ") + listed(late.lost),
           "stay longer (--until), get another pair of hands, or print them another day"});
    }
    if (o_.fitted.over) {
      plan_.warnings.push_back({"past-the-end",
                                "what is begun and the cleaning up end at " + time(plan_.finish) +
                                    ", after the end of the day at " + time(c_.until),
                                "leave what may wait, or stay longer"});
    }
  }

  const LateOutcome& o_;
  const LateCase& c_;
  const Fit& fit_;
  Plan plan_;
};

}  // namespace

Rescue cover_at_once(const LateCase& late, const WetSheet& sheet, const Waits& covered) {
  const auto& paper = late.worked.paper;
  const auto open = waits(paper, sheet, {}, method::left(method::Arrangement::bench, forever));
  Rescue r;
  r.kind = "cover";
  r.sheets = {sheet.number};
  r.before = r.after = mean_of(sheet);
  r.text = "Cover sheet " + std::to_string(sheet.number) + " at once: at " +
           units::text(mean_of(sheet)) + " it stays printable " +
           (open.opens ? until_text(late, open.closes) : std::string("no longer")) +
           " in the open, " + until_text(late, covered.closes) + " under cover" +
           (*covered.opens > HalfMinutes(2)
                ? ", where it is even again at " +
                      clock_time(late.session.day, late.history.at + *covered.opens)
                : std::string()) +
           ".";
  return r;
}

Rescue past_mending(const LateCase& late, const WetSheet& sheet) {
  const auto now = judged(late.worked.paper, sheet);
  Rescue r;
  r.kind = "none";
  r.sheets = {sheet.number};
  r.before = mean_of(sheet);
  r.text = "Sheet " + std::to_string(sheet.number) + " is " + readiness::word(now.verdict) + " (" +
           now.reason + "), and neither mist nor blotters bring it back today.";
  return r;
}

Plan told(const LateOutcome& outcome) { return Teller(outcome).tell(); }

}  // namespace dampline::planner
