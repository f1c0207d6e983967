#include <algorithm>
#include <map>
#include <set>

#include <dampline/report/plan_ics.hpp>
#include <dampline/report/view.hpp>
#include <dampline/report/view_parts.hpp>

namespace dampline::report {

namespace {

using planner::HalfMinutes;
using planner::Plan;
using std::chrono::minutes;

constexpr minutes lead(10);       // long enough to put the cup down and wash
constexpr minutes at_a_look(15);  // how long what follows the day stands in the calendar

/// A calendar shows it as a heading.
std::string capital(std::string text) {
  if (!text.empty() && text[0] >= 'a' && text[0] <= 'z') text[0] = static_cast<char>(text[0] - 32);
  return text;
}

class Events {
 public:
  Events(const Plan& plan, const Clock& clock)
      : plan_(plan), clock_(clock), shown_(view(plan, clock)) {}

  std::vector<CalendarEvent> all() {
    the_day();
    damping();
    first_pull();
    cleaning_up();
    afterwards();
    return std::move(out_);
  }

 private:
  [[nodiscard]] std::string time(HalfMinutes at) const {
    return clock_text(clock_, instant(plan_, at));
  }
  void add(std::string key, HalfMinutes start, HalfMinutes end, std::string summary,
           std::string description, std::optional<minutes> before) {
    const Instant from = instant(plan_, start);
    out_.push_back({std::move(key), from, std::max(instant(plan_, end), from + minutes(1)),
                    capital(std::move(summary)), std::move(description), before});
  }
  [[nodiscard]] std::string foot() const {
    return "Times in this text are the studio's (" + shown_.zone + ").";
  }

  void the_day() {
    if (plan_.finish <= HalfMinutes(0)) return;
    std::string text = shown_.verdict;
    for (const auto& fact : shown_.facts) {
      text += "\n" + fact.label + ": " + fact.value + (fact.note.empty() ? "" : ", " + fact.note);
    }
    add("day", HalfMinutes(0), plan_.finish, shown_.title, text + "\n" + foot(), std::nullopt);
  }

  /// One event a batch: from its first to its last step in or with water.
  void damping() {
    struct Span {
      std::string key, what, cue;
      HalfMinutes start{}, end{};
    };
    std::vector<Span> spans;
    std::map<std::vector<int>, std::size_t> of;
    for (const auto& step : plan_.steps) {
      if (family_of(step.kind) != Family::damp || step.state == planner::StepState::done) continue;
      const auto [at, is_new] = of.emplace(step.sheets, spans.size());
      if (is_new) {
        spans.push_back({step.id, step.what, step.cue, step.start, step.end});
        if (!step.sheets.empty()) {
          spans.back().what += step.sheets.size() == 1 ? ", sheet " : ", sheets ";
          spans.back().what += number_list(step.sheets);
        }
      }
      spans[at->second].end = std::max(spans[at->second].end, step.end);
    }
    for (const auto& s : spans) {
      std::string text = time(s.start) + " to " + time(s.end) + ".";
      if (!s.cue.empty()) text += " " + s.cue;
      add(s.key, s.start, s.end, s.what, text + "\n" + foot(), lead);
    }
  }

  void first_pull() {
    if (plan_.pulls.empty()) return;
    const auto& p = plan_.pulls.front();
    const auto it = std::find_if(plan_.steps.begin(), plan_.steps.end(), [&](const auto& s) {
      return s.kind == "pull" && s.start == p.at;
    });
    add("first-pull", p.at, it == plan_.steps.end() ? p.at : it->end, "First pull: " + pull_name(p),
        "Its sheet is printable from " + time(p.ready_from) + ". " + shown_.touch_test + "\n" +
            foot(),
        lead);
  }

  void cleaning_up() {
    std::optional<HalfMinutes> from;
    for (const auto& step : plan_.steps) {
      if (family_of(step.kind) != Family::clear || plan_.pulls.empty()) continue;
      if (step.start >= plan_.pulls.back().at && (!from || step.start < *from)) from = step.start;
    }
    if (!from) return;
    add("clean-up", *from, plan_.finish, "Clean up",
        "Done at " + time(plan_.finish) + ", out by " + time(plan_.until) + ".\n" + foot(), lead);
  }

  void afterwards() {
    std::set<std::string> keys;
    for (const auto& step : plan_.after) {
      const Instant due = instant(plan_, plan_.finish) + step.since_finish;
      const Instant at = due + step.put_off;
      std::string key = "after-" + std::to_string(step.since_finish.count()) + "m";
      while (!keys.insert(key).second) key += "-more";
      std::string text = "Due " + short_date_text(clock_, due) + ", " + clock_text(clock_, due);
      if (at != due) text += "; put off to the morning";
      text += ".";
      if (!step.basis.empty()) text += " Basis: " + step.basis + ".";
      out_.push_back({key, at, at + at_a_look, capital(step.what),
                      text + "\nOf " + shown_.title + ".\n" + foot(), minutes(0)});
    }
  }

  const Plan& plan_;
  const Clock& clock_;
  View shown_;
  std::vector<CalendarEvent> out_;
};

}  // namespace

std::string day_identity(const Plan& plan, const Clock& clock) {
  return plan.title + "\n" + rfc3339(clock, plan.opens).substr(0, 10);
}

Calendar plan_calendar(const Plan& plan, const Clock& clock, Instant revised) {
  return {.title = plan.title,
          .identity = day_identity(plan, clock),
          .revised = revised,
          .events = Events(plan, clock).all()};
}

}  // namespace dampline::report
