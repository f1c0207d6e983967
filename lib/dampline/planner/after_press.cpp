#include <algorithm>
#include <map>

#include <dampline/method/drying.hpp>
#include <dampline/method/over_samples.hpp>
#include <dampline/method/scores.hpp>
#include <dampline/planner/after_press.hpp>
#include <dampline/session/words.hpp>
#include <dampline/session/zone.hpp>
#include <dampline/units/text.hpp>

namespace dampline::planner {
namespace {

using std::chrono::minutes;
using std::chrono::seconds;
using std::chrono::sys_seconds;
using units::in_si;

constexpr int simulated_prints = 4;  // those inside a stack are alike: more change nothing
constexpr double low_share = 0.1, high_share = 0.9;

seconds whole(units::Duration t) {
  return std::chrono::round<seconds>(std::chrono::duration<double>(in_si(t)));
}

/// How damp the prints come from their last pull.
struct Wetness {
  double mean = 0, low = 0, high = 0;
  int prints = 0;
};

Wetness wetness(const Plan& plan) {
  std::map<int, const Pull*> last;
  for (const auto& pull : plan.pulls) {
    auto& there = last[pull.print];
    if (there == nullptr || pull.at > there->at) there = &pull;
  }
  Wetness w;
  w.prints = static_cast<int>(last.size());
  for (const auto& [print, pull] : last) {
    w.mean += pull->moisture.mean.parts_of_one() / w.prints;
    w.low += pull->moisture.low.parts_of_one() / w.prints;
    w.high += pull->moisture.high.parts_of_one() / w.prints;
  }
  return w;
}

class Calendar {
 public:
  Calendar(const WorkedDay& day, const DryingRules& rules, const AfterPressOptions& options)
      : day_(day), rules_(rules), wet_(wetness(day.plan)) {
    out_.title = day.plan.title;
    out_.zone = day.plan.zone;
    out_.day = session::rfc3339(day.plan.zone, day.plan.opens).substr(0, 10);
    out_.finished = options.finished.value_or(day.plan.opens +
                                              std::chrono::duration_cast<seconds>(day.plan.finish));
    out_.prints = wet_.prints;
    out_.way = session::word(day.session.equipment.drying);
    out_.wet = units::Moisture(wet_.mean);
    out_.wet_low = units::Moisture(wet_.low);
    out_.wet_high = units::Moisture(wet_.high);
    out_.samples = std::min(options.samples, static_cast<int>(day.paper.likely_sheets.size()));
  }

  DryingCalendar make() {
    plan_changes();
    forecast();
    rule("ink", rules_.ink, {}, "");
    if (const auto looks = rules_.looks.find(out_.way); looks != rules_.looks.end()) {
      for (const auto& look : looks->second) {
        add({.kind = "look",
             .key = key(look.at),
             .at = out_.finished + whole(look.at),
             .due = {},
             .early = {},
             .late = {},
             .what = look.what,
             .basis = rules_.basis,
             .print = {},
             .blotter = {}});
      }
    }
    const auto& flat = rules_.flat.at(out_.way);
    if (flat.flatten_from) {
      add({.kind = "flatten",
           .key = key(*flat.flatten_from),
           .at = out_.finished + whole(*flat.flatten_from),
           .due = {},
           .early = {},
           .late = {},
           .what = flatten_words,
           .basis = rules_.basis,
           .print = {},
           .blotter = {}});
    }
    rule("flat", flat, flat.dry_and, "; not before the model has them dry");
    rule("stack", rules_.stack, {}, "");
    auto& stacked = out_.dates.back();
    stacked.late.reset();
    stacked.is_open = true;
    std::stable_sort(out_.dates.begin(), out_.dates.end(),
                     [](const auto& a, const auto& b) { return a.at < b.at; });
    notes();
    return std::move(out_);
  }

 private:
  [[nodiscard]] sys_seconds waking(sys_seconds at) const {
    return in_waking_hours(
        rules_.night, [this](sys_seconds t) { return session::offset_at(out_.zone, t); }, at);
  }
  static std::string clock(minutes at) {
    const auto two = [](auto n) { return (n < 10 ? "0" : "") + std::to_string(n); };
    return two(at.count() / 60) + ":" + two(at.count() % 60);
  }
  static std::string key(units::Duration since) {
    return "after-" + std::to_string(std::lround(units::in_minutes(since))) + "m";
  }
  void add(DryingDate date) {
    date.due = date.at;
    date.at = waking(date.at);
    out_.dates.push_back(std::move(date));
  }

  /// The clock's changes, put into waking hours: two that fall together are one.
  void plan_changes() {
    if (out_.way != "boards") return;
    auto next = rules_.changes.begin();
    for (auto since = whole(rules_.changes.front()); since < whole(rules_.most);) {
      const auto due = out_.finished + since;
      const auto at = waking(due);
      if (changes_.empty() || at > changes_.back().at) changes_.push_back({at, due});
      if (next + 1 < rules_.changes.end()) {
        since = whole(*++next);
      } else {
        since += whole(rules_.then_every);
      }
    }
    schedule_.changes.clear();
    for (const auto& c : changes_) {
      schedule_.changes.push_back(
          units::seconds(static_cast<double>((c.at - out_.finished).count())));
    }
    schedule_.then_every = units::hours(0);
    schedule_.most = rules_.most;
    schedule_.prints = std::clamp(out_.prints, 1, simulated_prints);
    schedule_.tissue = true;
  }

  [[nodiscard]] method::DryingForecast dried(const method::Sheet& sheet, double moisture,
                                             const air::Climate& room) const {
    const auto print = method::evenly(sheet, units::Moisture(moisture), room.temperature);
    if (out_.way == "boards") return method::dry_in_boards(sheet, print, schedule_, room);
    method::Stage stage;
    stage.arrangement = out_.way == "rack"   ? method::Arrangement::rack
                        : out_.way == "tape" ? method::Arrangement::taped
                                             : method::Arrangement::line;
    stage.duration = rules_.most;
    return method::dry_left(sheet, print, stage, room);
  }

  void forecast() {
    const auto likely = dried(day_.paper.sheet, wet_.mean, day_.paper.climate);
    out_.room = likely.room;
    std::vector<double> dries(static_cast<std::size_t>(out_.samples));
    method::over_samples(dries.size(), [&](std::size_t i) {
      // How damp a sheet is hangs on what it can take, as its other doings do.
      const double moisture =
          method::quantile_si(wet_.mean, wet_.low, wet_.high, day_.paper.draws[i].accessible);
      const auto f = dried(day_.paper.likely_sheets[i], moisture, day_.paper.likely_rooms[i]);
      dries[i] = in_si(f.dry.value_or(rules_.most));
    });
    std::sort(dries.begin(), dries.end());
    const auto flat = out_.finished + whole(rules_.flat.at(out_.way).least);
    for (std::size_t i = 0; i < changes_.size(); ++i) {
      // The trade goes on for days after the model has the paper dry: the more cautious counts.
      const bool wet = i < likely.changes.size();
      if (!wet && changes_[i].at >= flat) break;
      change(i, wet ? &likely.changes[i] : nullptr);
    }
    const bool ends = likely.dry.has_value();
    dry_ = whole(likely.dry.value_or(rules_.most));
    dry_early_ = dries.empty() ? dry_ : early_of(dries);
    dry_late_ = dries.empty() ? dry_ : late_of(dries);
    DryingDate d{.kind = "dry",
                 .key = "after-dry",
                 .at = out_.finished + dry_,
                 .due = {},
                 .early = out_.finished + dry_early_,
                 .late = out_.finished + dry_late_,
                 .is_open = !ends,
                 .what = ends ? "paper dry, within a point of what it keeps in the room"
                              : "paper not dry by the model even now: more blotters, or more air",
                 .basis = "model: of ten likely sheets eight fall in the range",
                 .print = {},
                 .blotter = {}};
    d.due = d.at;
    out_.dates.push_back(std::move(d));  // dry by itself: nobody has to be up
  }
  void change(std::size_t i, const method::BlotterChange* damp) {
    const auto since = std::chrono::floor<minutes>(changes_[i].due - out_.finished);
    DryingDate d;
    d.kind = "blotters";
    d.key = "after-" + std::to_string(since.count()) + "m";
    d.at = changes_[i].due;
    d.what = change_words(i);
    d.basis = "when: common practice";
    if (damp != nullptr) {
      d.basis += "; how damp: model";
      d.print = damp->wettest;
      d.blotter = damp->blotter;
    }
    add(std::move(d));
  }
  static seconds early_of(const std::vector<double>& v) {
    return whole(units::seconds(method::at_share(v, low_share)));
  }
  static seconds late_of(const std::vector<double>& v) {
    return whole(units::seconds(method::at_share(v, high_share)));
  }

  void rule(const std::string& kind, const LaterRange& r, units::Duration dry_and,
            const std::string& more) {
    const bool hangs_on_dry = in_si(dry_and) > 0;
    const auto later = [&](units::Duration by_rule, seconds dry) {
      const auto t = whole(by_rule);
      return hangs_on_dry ? std::max(t, dry + whole(dry_and)) : t;
    };
    DryingDate d{.kind = kind,
                 .key = key(r.usual),
                 .at = out_.finished + later(r.usual, dry_),
                 .due = {},
                 .early = out_.finished + later(r.least, dry_early_),
                 .late = out_.finished + later(r.most, dry_late_),
                 .what = r.what,
                 .basis = rules_.basis + "; its range assumed" + more,
                 .print = {},
                 .blotter = {}};
    add(std::move(d));
  }

  void notes() {
    if (out_.way == "boards") {
      out_.blotters_a_change = out_.prints + 1;
      const int set = day_.session.equipment.blotters;
      out_.notes.push_back("A change takes " + std::to_string(out_.blotters_a_change) +
                           " dry blotters (one more "
                           "than prints); the session has " +
                           std::to_string(set) +
                           (set < 2 * out_.blotters_a_change
                                ? ": hang what comes out up to dry before the next change."
                                : ": one set can dry while the other is in use."));
      out_.notes.push_back(
          "Boards hold water in: what leaves a stack at its edges is not counted, so tall stacks "
          "dry sooner than told.");
    } else if (rules_.flat.at(out_.way).flatten_from) {
      out_.notes.push_back("In the open prints dry cockled: they are damped and flattened later.");
    }
    out_.notes.push_back("Prints are taken to be as damp as their last pull leaves them, " +
                         units::text(out_.wet) + ", and the room to stay as in the working hours.");
    out_.notes.push_back("What falls between " + clock(rules_.night.from) + " and " +
                         clock(rules_.night.until) +
                         " is put off to the morning (assumed). The cheek has "
                         "the last word: cool is damp.");
  }

  struct Change {
    sys_seconds at, due;
  };
  const WorkedDay& day_;
  const DryingRules& rules_;
  Wetness wet_;
  method::BoardsSchedule schedule_;
  std::vector<Change> changes_;
  seconds dry_{}, dry_early_{}, dry_late_{};
  DryingCalendar out_;
};

}  // namespace

std::optional<DryingCalendar> after_press(const WorkedDay& day, const DryingRules& rules,
                                          const AfterPressOptions& options) {
  if (day.plan.pulls.empty()) return std::nullopt;
  return Calendar(day, rules, options).make();
}

}  // namespace dampline::planner
