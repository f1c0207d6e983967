#include <algorithm>

#include <dampline/method/book.hpp>
#include <dampline/planner/judge_plan.hpp>
#include <dampline/planner/late.hpp>
#include <dampline/planner/late_search.hpp>
#include <dampline/planner/late_told.hpp>
#include <dampline/planner/lay_out.hpp>
#include <dampline/readiness/limits.hpp>

namespace dampline::planner {
namespace {

constexpr int most_tries = 4;
constexpr HalfMinutes step_inward{10};

const auto forever = units::hours(72);

class RunsLate {
 public:
  RunsLate(LateCase& late, const LateNews& news) : c_(late), news_(news) {}

  Plan plan() {
    open_sheets();
    for (const auto& sheet : waiting_sheets()) settle(sheet);
    LateFit fitted = fit_the_rest(c_);
    auto pulls = check(fitted);
    for (int i = 1; i < most_tries && tighten(pulls); ++i) {
      auto again = fit_the_rest(c_);
      if (again.fit.starts.empty() || again.lost.size() > fitted.lost.size()) break;
      fitted = std::move(again);
      pulls = check(fitted);
    }
    return told({c_, fitted, pulls, wet_, std::move(rescues_), news_});
  }

 private:
  std::vector<CheckedPull> check(const LateFit& f) const {
    return f.fit.starts.empty() ? std::vector<CheckedPull>{}
                                : check_pulls(c_.session, c_.worked.paper, c_.damping,
                                              *c_.worked.registering, f.fit.draft, f.fit.starts);
  }

  // Where sheets lay open: what was said, and a session that holds them on the bench.
  void open_sheets() {
    for (const auto& said : news_.open) {
      for (const int sheet : said.sheets) {
        const Moment since{0, said.since.value_or(HalfMinutes(0))};
        c_.tended[sheet] = {{since, {}, method::left(method::Arrangement::bench, forever)}};
        open_.insert(sheet);
      }
    }
  }

  // Wet and covered by now, with pulls to come.
  std::vector<WetSheet> waiting_sheets() {
    Remains none;
    none.until = c_.until;
    const auto now = remaining(c_.morning, c_.knowledge.craft, c_.history, none).draft;
    const int source = now.problem.source;
    const auto past = [&](const Moment& m) {
      return m.activity == source && m.offset <= c_.history.at;
    };
    std::vector<WetSheet> out;
    for (auto sheet : now.sheets) {
      if (!past(sheet.covered)) continue;
      bool to_come = false;
      bool on_the_bed = false;
      for (const auto& pull : now.pulls) {
        if (pull.sheet != sheet.number || past(pull.pulled)) continue;
        to_come = true;
        on_the_bed = on_the_bed || past(pull.laid);
      }
      if (!to_come || on_the_bed) continue;
      if (const auto t = c_.tended.find(sheet.number); t != c_.tended.end()) {
        sheet.tended = t->second;
      }
      // All that has been is pinned: its moments hang on the source.
      const std::vector<int> pinned(now.blocks.size(), 0);
      auto wet =
          wet_sheet(c_.worked.paper, c_.damping, pulled_by_now(now), pinned, sheet, c_.history.at);
      wet.lies_open =
          open_.contains(sheet.number) || c_.damping.hold.arrangement == method::Arrangement::bench;
      out.push_back(std::move(wet));
    }
    return out;
  }

  [[nodiscard]] Draft pulled_by_now(Draft now) const {
    std::erase_if(now.pulls, [&](const DraftPull& pull) {
      return pull.pulled.activity != now.problem.source;
    });
    return now;
  }

  // The window of a wet sheet from now on, or what brings it back.
  void settle(const WetSheet& sheet) {
    const auto& paper = c_.worked.paper;
    auto& t = c_.damping.treatment;
    const auto covered = method::left(method::Arrangement::covered, forever);
    const auto hold = sheet.lies_open ? covered : c_.damping.hold;
    const auto stays = waits(paper, sheet, {}, hold);
    wet_.push_back(sheet);
    if (sheet.lies_open) {
      c_.tended[sheet.number].push_back({{0, c_.history.at}, {}, covered});
    }
    const HalfMinutes now = c_.history.at;
    const auto keeps = readiness::keeps(readiness::Store::covered, paper.climate.temperature);
    const HalfMinutes kept =
        sheet.covered + HalfMinutes(static_cast<int>(units::in_si(keeps.longest) / 30));
    if (stays.opens) {
      const HalfMinutes rested = sheet.printed_on ? now : sheet.covered + t.opens;
      t.of_sheet[sheet.number] = {std::max(now + *stays.opens, rested),
                                  std::min(now + stays.closes, kept)};
      if (sheet.lies_open) rescues_.push_back(cover_at_once(c_, sheet, stays));
      return;
    }
    auto mend = mended(sheet);
    if (!mend) {
      c_.beyond_mending.insert(sheet.number);
      rescues_.push_back(past_mending(c_, sheet));
      return;
    }
    mend->rescue.step = mend->rescue.kind + "-" + std::to_string(sheet.number) + "-again";
    t.of_sheet[sheet.number] = {now, now + HalfMinutes(72 * 120)};
    rescues_.push_back(mend->rescue);
    c_.mends[sheet.number] = std::move(*mend);
  }

  [[nodiscard]] std::optional<Mend> mended(const WetSheet& sheet) const {
    const auto& paper = c_.worked.paper;
    const auto now = judged(paper, sheet);
    if (now.verdict == readiness::Verdict::too_wet) {
      return blotted_again(paper, sheet, paper.least_rest);
    }
    return misted(paper, sheet, paper.least_rest);
  }

  // A pull still to come that finds its sheet outside the band draws the sheet's window past it.
  bool tighten(const std::vector<CheckedPull>& pulls) {
    auto& t = c_.damping.treatment;
    bool tighter = false;
    for (const auto& p : pulls) {
      if (p.pull.at < c_.history.at || p.judgement.verdict == readiness::Verdict::ready) continue;
      const bool dry = p.judgement.verdict == readiness::Verdict::too_dry;
      const auto own = t.of_sheet.find(p.pull.sheet);
      if (c_.mends.contains(p.pull.sheet)) {
        auto& mend = c_.mends.at(p.pull.sheet);
        if (dry || mend.opens + step_inward >= mend.closes) continue;
        mend.opens += step_inward;
      } else if (own != t.of_sheet.end()) {
        auto& window = own->second;
        auto& bound = dry ? window.until : window.from;
        bound = dry ? p.pull.at - step_inward : p.pull.at + step_inward;
      } else if (dry) {
        t.closes = std::min(t.closes, p.waited - step_inward);
      } else {
        t.opens = std::max(t.opens, p.waited + step_inward);
      }
      tighter = true;
    }
    return tighter;
  }

  LateCase& c_;
  const LateNews& news_;
  std::set<int> open_;
  std::vector<WetSheet> wet_;
  std::vector<Rescue> rescues_;
};

LateFaults faults_of(const session::Session& s, const LateNews& news, const WorkedDay& day) {
  const auto time = [&](HalfMinutes t) { return clock_time(s.day, t); };
  const HalfMinutes until = day_length(s);
  if (day.outcome.fit.starts.empty()) {
    return {{"nothing was planned for this day, so nothing can be late",
             "`dampline plan` says why nothing fits"}};
  }
  if (news.at < HalfMinutes(0) || news.at >= news.until.value_or(until)) {
    return {{"--at " + time(news.at) + " is outside the day, which goes from " +
                 time(HalfMinutes(0)) + " to " + time(news.until.value_or(until)),
             "give a clock time of the day, as in --at " + time(until / 2)}};
  }
  LateFaults out;
  for (const auto& said : news.open) {
    for (const int sheet : said.sheets) {
      const bool known =
          std::any_of(day.outcome.fit.draft.sheets.begin(), day.outcome.fit.draft.sheets.end(),
                      [&](const DraftSheet& d) { return d.number == sheet; });
      if (!known) {
        out.push_back(
            {"the plan has no sheet " + std::to_string(sheet),
             "it has sheets 1 to " + std::to_string(day.outcome.fit.draft.sheets.size())});
      }
    }
    if (said.since && *said.since > news.at) {
      out.push_back(
          {"sheets cannot lie open since " + time(*said.since) + ", after " + time(news.at),
           "say since when they have lain open"});
    }
  }
  return out;
}

}  // namespace

std::variant<Plan, session::InputErrors, LateFaults> plan_late(const session::Session& as_written,
                                                               const Knowledge& k,
                                                               const LateNews& news,
                                                               const PlanOptions& options) {
  auto worked = work_out(as_written, k, options);
  if (auto* errors = std::get_if<session::InputErrors>(&worked)) return std::move(*errors);
  const auto& day = std::get<WorkedDay>(worked);
  const auto& s = day.session;
  if (auto faults = faults_of(s, news, day); !faults.empty()) return faults;
  const Morning morning{s, day.outcome.fit.draft, day.outcome.fit.starts, day.plan.steps};
  auto told_so_far = history(morning, news);
  if (auto* faults = std::get_if<LateFaults>(&told_so_far)) return std::move(*faults);
  LateCase late{.session = s,
                .knowledge = k,
                .worked = day,
                .morning = morning,
                .history = std::move(std::get<History>(told_so_far)),
                .until = news.until.value_or(day_length(s)),
                .options = {options.conflicts, options.seed},
                .damping = day.damping,
                .mends = {},
                .beyond_mending = {},
                .tended = {}};
  return RunsLate(late, news).plan();
}

}  // namespace dampline::planner
